#include "scene/mouth_slip.h"

#include "base/curve.h"
#include "clash/features.h"
#include "scene/placer.h"
#include "scene/signs.h"
#include "scene/take_text.h"
#include "text/shaper.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace mw {
namespace {

constexpr double seen_mm = 0.8; // a rail nearer to its line than this cannot be told from it

/// What comes in: the sound said instead, or the one that is added to the wanted one ("kw" for k).
std::string intruder_of(const LikelySlip& slip) {
  const std::string &wanted = slip.wanted, &instead = slip.instead;
  if (instead.size() > wanted.size() && instead.starts_with(wanted)) return instead.substr(wanted.size());
  if (instead.size() > wanted.size() && instead.ends_with(wanted)) return instead.substr(0, instead.size() - wanted.size());
  return instead;
}

/// The nearest segment that says it, in the same place of the syllable where there is one.
std::optional<std::size_t> segment_of(const Take& take, const LikelySlip& slip, const std::string& ipa) {
  std::optional<std::size_t> best;
  double least = 1e300;
  for (std::size_t i = 0; i < take.track.segments.size(); ++i) {
    if (i == slip.segment || ipa_of(take, i) != ipa) continue;
    const double away = std::abs(static_cast<double>(i) - static_cast<double>(slip.segment)) + (take.track.segments[i].slot == take.track.segments[slip.segment].slot ? 0 : 1000);
    if (away < least) least = away, best = i;
  }
  return best;
}

void lay_in(Pose& pose, const Pose& from, Articulator articulator) {
  for (const auto value : values_of(articulator)) pose.*value = from.*value;
}

/// "k creeps in"; where nothing but the voice changes, that is said: its rail at the voice box does not show it.
std::string slip_words(const SlipShape& slip) {
  if (slip.part != Articulator::glottis) return slip.intruder + " creeps in";
  return slip.intruder + (slip.voiced ? " creeps in: with voice" : " creeps in: without voice");
}

double farthest(const Outline& a, const Outline& b, Articulator part) {
  double most = 0;
  const auto lines = rail_of(a, part), others = rail_of(b, part);
  for (std::size_t k = 0; k < lines.size(); ++k)
    for (const Vec2 p : lines[k]) most = std::max(most, std::abs(nearest_on(others[k], p).distance));
  return most;
}

} // namespace

std::vector<Polyline> rail_of(const Outline& o, Articulator part) {
  switch (part) {
    case Articulator::lips: return {surface_of(o, Articulator::lips), o.upper_lip_line};
    case Articulator::velum: return {surface_of(o, Articulator::velum)};
    case Articulator::jaw: return {surface_of(o, Articulator::jaw)};
    case Articulator::larynx:
    case Articulator::glottis: return {surface_of(o, Articulator::glottis)};
    default: break;
  }
  Polyline line{o.dorsum.begin() + static_cast<std::ptrdiff_t>(o.dorsum.size() * 2 / 7), o.dorsum.end()};
  line.insert(line.end(), o.tip_cap.begin(), o.tip_cap.end());
  return {line};
}

std::optional<SlipShape> slip_shape(const Take& take, Tracer& tracer, std::size_t index) {
  if (index >= take.likely_slips.size() || !take.targets) return {};
  const LikelySlip& slip = take.likely_slips[index];
  SlipShape out;
  out.intruder = intruder_of(slip);
  const auto from = segment_of(take, slip, out.intruder);
  if (!from || slip.segment >= take.track.segments.size()) return {};
  const Sound &wanted = take.track.segments[slip.segment].sound, &instead = take.track.segments[*from].sound;
  const auto goal = pose_of(tracer.anatomy(), *take.targets, instead);
  if (!goal) return {};
  const SoundFacts a = facts_of(wanted), b = facts_of(instead);
  Pose pose = pose_at(take.motion, moment_of(take, slip.segment));
  const Outline plain = tracer.trace(pose);
  std::vector<Articulator> parts{b.articulator};
  if (b.also) parts.push_back(*b.also);
  if ((a.manner == Manner::nasal) != (b.manner == Manner::nasal)) parts.push_back(Articulator::velum);
  if (a.voiced != b.voiced) parts.push_back(Articulator::glottis);
  out.voiced = b.voiced;
  for (const Articulator part : parts) lay_in(pose, *goal, part);
  out.outline = tracer.trace(pose);
  // the first part that is seen to move; where none is, the last (the voice box: its change does not show in its line)
  out.part = parts.back();
  for (const Articulator part : parts) {
    out.shift_mm = farthest(out.outline, plain, part);
    if (out.shift_mm < seen_mm) continue;
    out.part = part;
    break;
  }
  return out;
}

std::optional<std::size_t> nearest_slip(const Take& take, double t) {
  std::optional<std::size_t> best;
  double least = 1e300;
  for (std::size_t i = 0; i < take.likely_slips.size(); ++i) {
    const std::size_t at = take.likely_slips[i].segment;
    if (at >= take.track.segments.size()) continue;
    const Segment& s = take.track.segments[at];
    const double away = std::max({s.start_s - t, t - s.end_s, 0.0});
    if (away < least) least = away, best = i;
  }
  return best;
}

std::vector<LitSpan> slip_times(const Take& take, double slow) {
  constexpr double about_s = 0.03; // before and after its sound
  std::vector<LitSpan> out;
  for (std::size_t i = 0; i < take.likely_slips.size(); ++i) { // strongest first
    if (take.likely_slips[i].segment >= take.track.segments.size()) continue;
    const Segment& s = take.track.segments[take.likely_slips[i].segment];
    const double on = (s.start_s - about_s) * slow, off = std::max((s.end_s + about_s) * slow, on + lit_fade_on_s + lit_hold_s);
    const bool apart = std::all_of(out.begin(), out.end(), [&](const LitSpan& o) { return on >= o.off_s + lit_fade_off_s + lit_calm_s || o.on_s >= off + lit_fade_off_s + lit_calm_s; });
    if (apart) out.push_back({i, on, off});
  }
  std::sort(out.begin(), out.end(), [](const LitSpan& a, const LitSpan& b) { return a.on_s < b.on_s; });
  return out;
}

std::optional<Lit> slip_still(const Take& take, double t) {
  const auto now = segment_at(take, t);
  for (std::size_t i = 0; now && i < take.likely_slips.size(); ++i)
    if (take.likely_slips[i].segment == *now && t < take.track.segments[*now].end_s) return Lit{i, 1};
  return {};
}

std::vector<Mark> draw_slip_tag(const MouthPicture& mouth, const SlipShape& slip, Rect stage, const std::vector<Rect>& keep, const Theme& theme, double u, double opacity) {
  const std::string text = slip_words(slip);
  const Vec2 size{text_width(text, 15.5 * u, true) + 24 * u, 26 * u};
  PlacerField field = field_of(mouth, stage, keep);
  for (const Vec2 p : mouth.section.tongue_edge) field.points.push_back(mouth.frame(p));
  const auto rails = rail_of(slip.outline, slip.part);
  for (const Polyline& rail : rails)
    for (const Vec2 p : rail) field.points.push_back(mouth.frame(p));
  // beside the rail's end that lies farther up, as near as nothing is covered
  Vec2 anchor = mouth.frame(rails.front().front());
  for (const Vec2 p : rails.front())
    if (mouth.frame(p).y < anchor.y) anchor = mouth.frame(p);
  Vec2 best = anchor;
  double least = 1e300;
  for (double ring = 24; ring <= 200; ring += 16)
    for (int k = 0; k < 16; ++k) {
      const double a = 2 * std::numbers::pi * k / 16;
      const Vec2 c = anchor + Vec2{std::cos(a) * 1.4, -std::sin(a)} * (ring * u);
      const double cost = field.cost({c.x - size.x / 2, c.y - size.y / 2, size.x, size.y}, 3 * u) * 20 + ring + (std::sin(a) < 0 ? 12 : 0);
      if (cost < least) least = cost, best = c;
    }
  Canvas canvas;
  canvas.line({"slip-tag", "leader"}, best, anchor, theme.halo, 3.2 * u);
  canvas.line({"slip-tag", "leader"}, best, anchor, theme.ink, 1.1 * u);
  canvas.box({"slip-tag", slip.intruder}, {best.x - size.x / 2, best.y - size.y / 2, size.x, size.y}, 7 * u, theme.raised, clash_edge(theme), 1.8 * u);
  canvas.text_middle({"slip-tag", slip.intruder}, best, text, {15.5 * u, theme.ink, true, Anchor::middle});
  Group group{{"slip-tag", {}}};
  group.opacity = opacity;
  group.marks = std::move(canvas.marks);
  std::vector<Mark> out;
  out.emplace_back(std::move(group));
  return out;
}

} // namespace mw
