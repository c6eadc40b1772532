#include "app/playback.h"

#include "scene/take_text.h"

#include <algorithm>
#include <cmath>

namespace mw::app {
namespace {

constexpr double glide_wall_s = 0.160;  // visual design, section 9
constexpr double seam_wall_s = 0.400;   // visual design, section 9
constexpr double frame_s = 1.0 / 96;    // a frame of a sequence at its usual 24 a second, four times slowed
constexpr double same_s = 0.004;        // nearer landmarks are one stop
constexpr double room_s = 0.06;         // before the first and after the last sound, as much as the lanes show
constexpr double calm_step_s = 1;       // visual design, section 9: reduced motion
constexpr double twice_s = 0.5;         // two presses within it are one double press, as desktops count them (common practice)
constexpr double before_clash_s = 0.12, after_clash_s = 0.16; // enough to see both moves start and end

std::pair<double, double> stretch(const View& view, const Take& take) {
  return view.loop && view.loop_span ? *view.loop_span : std::pair{start_of(take), end_of(take)};
}

View glide_on(View view, double wall_s) {
  Glide& glide = *view.glide;
  glide.done_s += wall_s;
  const double q = std::min(glide.done_s / glide_wall_s, 1.0);
  view.time_s = glide.from + (glide.to - glide.from) * q;
  if (q >= 1) view.glide.reset();
  return view;
}

// The stop after (or, at the end of the stretch, before) now; the start again when it loops.
View calm_on(View view, const Take& take, double wall_s) {
  view.since_play_s += wall_s;
  view.until_step_s -= wall_s;
  if (view.until_step_s > 1e-9) return view;
  view.until_step_s = calm_step_s;
  const auto [from, to] = stretch(view, take);
  const auto all = stops(take, view.step_by);
  const auto next = std::upper_bound(all.begin(), all.end(), view.time_s + same_s / 2);
  if (next != all.end() && *next <= to + 1e-9) view.time_s = *next;
  else if (view.loop) view.time_s = from;
  else view.time_s = to, view.playing = false;
  return view;
}

std::vector<std::size_t> by_time(const Take& take, std::size_t most) {
  std::vector<std::size_t> order(std::min(most, take.clashes.size()));
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::stable_sort(order.begin(), order.end(), [&](auto a, auto b) { return take.clashes[a].start_s < take.clashes[b].start_s; });
  return order;
}

} // namespace

double start_of(const Take& take) {
  return take.track.segments.empty() ? 0 : std::max(0.0, take.track.segments.front().start_s - room_s);
}
double end_of(const Take& take) {
  return take.track.segments.empty() ? take.duration_s : std::min(take.duration_s, take.track.segments.back().end_s + room_s);
}

bool is_moving(const View& view) { return view.playing || view.glide.has_value(); }
bool is_stepping(const View& view) { return view.playing && view.calm && !view.calm_plays; }

View advance(View view, const Take& take, double wall_s) {
  if (view.glide) return glide_on(std::move(view), wall_s);
  if (!view.playing) return view;
  if (is_stepping(view)) return calm_on(std::move(view), take, wall_s);
  const auto [from, to] = stretch(view, take);
  if (view.seam_s > 0) {
    view.seam_s -= wall_s;
    if (view.seam_s <= 0) view.time_s = from, view.seam_s = 0;
    return view;
  }
  view.time_s += wall_s / slow_divisors[static_cast<std::size_t>(view.slow)];
  if (view.time_s < to) return view;
  view.time_s = to;
  if (view.loop) view.seam_s = seam_wall_s;
  else view.playing = false;
  return view;
}

View toggle_play(View view, const Take& take) {
  view.glide.reset();
  view.seam_s = 0;
  if (is_stepping(view) && view.since_play_s < twice_s) {
    view.calm_plays = true;
    return view;
  }
  view.playing = !view.playing;
  view.calm_plays = false, view.until_step_s = calm_step_s, view.since_play_s = 0;
  const auto [from, to] = stretch(view, take);
  if (view.playing && (view.time_s >= to - 1e-6 || view.time_s < from)) view.time_s = from;
  return view;
}

View go_to(View view, const Take& take, double time_s) {
  view.time_s = std::clamp(time_s, start_of(take), end_of(take));
  view.glide.reset();
  view.seam_s = 0;
  if (view.loop_span && (view.time_s < view.loop_span->first || view.time_s > view.loop_span->second)) view.loop_span.reset();
  return view;
}

std::vector<double> stops(const Take& take, StepBy by) {
  const double from = start_of(take), to = end_of(take);
  std::vector<double> out{from, to};
  if (by == StepBy::sound)
    for (std::size_t i = 0; i < take.track.segments.size(); ++i) out.push_back(moment_of(take, i));
  if (by == StepBy::move)
    for (const auto& gesture : take.score.gestures)
      for (const double t : {gesture.onset_s, gesture.reached_s, gesture.release_s, gesture.offset_s})
        if (t > from && t < to) out.push_back(t);
  if (by == StepBy::frame)
    for (int i = 1; from + i * frame_s < to; ++i) out.push_back(from + i * frame_s);
  std::sort(out.begin(), out.end());
  const auto end = std::unique(out.begin(), out.end(), [](double a, double b) { return b - a < same_s; });
  out.erase(end, out.end());
  out.back() = to; // the end itself, not a landmark just before it
  return out;
}

View step(View view, const Take& take, int direction) {
  view.playing = false;
  view.seam_s = 0;
  const double now = view.glide ? view.glide->to : view.time_s;
  const auto all = stops(take, view.step_by);
  const double from = start_of(take), to = end_of(take);
  double goal = now;
  if (direction > 0) {
    const auto next = std::upper_bound(all.begin(), all.end(), now + same_s / 2);
    goal = next == all.end() ? to : *next;
  } else {
    const auto next = std::lower_bound(all.begin(), all.end(), now - same_s / 2);
    goal = next == all.begin() ? from : *std::prev(next);
  }
  if (view.step_by == StepBy::frame || view.calm) return go_to(std::move(view), take, goal);
  view.glide = Glide{view.time_s, goal, 0};
  return view;
}

View take_in_hand(View view, const Take& take, std::size_t clash) {
  view.playing = false;
  const Clash& it = take.clashes[clash];
  view = go_to(std::move(view), take, (it.start_s + it.end_s) / 2);
  view.clash = clash;
  return view;
}

View go_to_clash(View view, const Take& take, int direction, std::size_t most) {
  const auto order = by_time(take, most);
  if (order.empty()) return view;
  // from the clash in hand if the time is still in it, else from the time
  auto here = view.clash ? std::find(order.begin(), order.end(), *view.clash) : order.end();
  if (here != order.end()) {
    const Clash& it = take.clashes[*here];
    if (view.time_s < it.start_s - 1e-9 || view.time_s > it.end_s + 1e-9) here = order.end();
  }
  const auto n = static_cast<std::ptrdiff_t>(order.size());
  std::ptrdiff_t next = 0;
  if (here != order.end()) next = ((here - order.begin()) + direction + n) % n;
  else {
    const auto after = std::find_if(order.begin(), order.end(), [&](auto i) {
      return (take.clashes[i].start_s + take.clashes[i].end_s) / 2 > view.time_s + 1e-6;
    });
    next = (after - order.begin() + (direction > 0 ? 0 : -1) + n) % n;
  }
  return take_in_hand(std::move(view), take, order[static_cast<std::size_t>(next)]);
}

View loop_clash(View view, const Take& take) {
  if (!view.clash) return view;
  const Clash& it = take.clashes[*view.clash];
  return loop_stretch(std::move(view), take, it.start_s, it.end_s); // slowly: see loop_stretch
}

View loop_stretch(View view, const Take& take, double start_s, double end_s) {
  view.loop = true;
  view.loop_span = std::pair{std::max(start_of(take), start_s - before_clash_s), std::min(end_of(take), end_s + after_clash_s)};
  view.time_s = view.loop_span->first;
  constexpr int eighth = 3; // index of 1/8: what was chosen to be looked at is not played faster
  view.slow = std::max(view.slow, eighth);
  view.glide.reset();
  view.seam_s = 0;
  view.playing = true;
  view.calm_plays = false, view.until_step_s = calm_step_s, view.since_play_s = 0;
  return view;
}

std::optional<std::size_t> clash_at(const Take& take, double time_s) {
  // strongest first, so the first that fits
  for (std::size_t i = 0; i < take.clashes.size(); ++i)
    if (time_s >= take.clashes[i].start_s - 1e-9 && time_s <= take.clashes[i].end_s + 1e-9) return i;
  return {};
}

} // namespace mw::app
