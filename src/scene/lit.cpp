#include "scene/lit.h"

#include <algorithm>
#include <numeric>

namespace mw {
namespace {

/// A segment with its neighbours in the same place of the syllable: near twins ɫd and z speak of all of ɫd.
std::pair<double, double> slot_of(const SegmentTrack& track, std::size_t segment) {
  const auto& s = track.segments;
  const auto same = [&](std::size_t i) { return s[i].word == s[segment].word && s[i].syllable == s[segment].syllable && s[i].slot == s[segment].slot; };
  std::size_t first = segment, last = segment;
  while (first > 0 && same(first - 1)) --first;
  while (last + 1 < s.size() && same(last + 1)) ++last;
  return {s[first].start_s, s[last].end_s};
}

bool lie_apart(const Clash& c) {
  if (c.kind == ClashKind::tug || c.kind == ClashKind::quick_return) return false;
  for (std::size_t i = 1; i < c.segments.size(); ++i)
    if (c.segments[i] > c.segments[i - 1] + 1) return true;
  return false;
}

/// Wall-time stretches of a clash: long enough to be seen, joined where the dark between would be too short.
std::vector<std::pair<double, double>> steady(const std::vector<std::pair<double, double>>& spans, double slow) {
  std::vector<std::pair<double, double>> out;
  for (const auto& [from, to] : spans) {
    const double on = from * slow, off = std::max(to * slow, on + lit_fade_on_s + lit_hold_s);
    if (!out.empty() && on < out.back().second + lit_fade_off_s + lit_calm_s) out.back().second = std::max(out.back().second, off);
    else out.emplace_back(on, off);
  }
  return out;
}

struct Schedule {
  const Take& take;
  std::vector<LitSpan> spans{}; // in order of time, apart from each other

  [[nodiscard]] int part(std::size_t i) const { return lit_part(take.clashes[spans[i].clash]); }

  /// What is left of a stretch between those that stand already, with room for all fades.
  [[nodiscard]] std::vector<std::pair<double, double>> free_parts(double on, double off) const {
    std::vector<std::pair<double, double>> out;
    for (const LitSpan& s : spans) {
      if (s.off_s + lit_fade_off_s <= on || s.on_s - lit_fade_off_s >= off) continue;
      if (s.on_s - lit_fade_off_s > on) out.emplace_back(on, s.on_s - lit_fade_off_s);
      on = s.off_s + lit_fade_off_s;
    }
    if (off > on) out.emplace_back(on, off);
    std::erase_if(out, [](const auto& p) { return p.second - p.first < lit_fade_on_s + lit_hold_s; });
    return out;
  }

  /// Takes a stretch in unless it would make its part go off and on; joins it to neighbours of the same part.
  void add(LitSpan span) {
    const int own = lit_part(take.clashes[span.clash]);
    const auto next = std::find_if(spans.begin(), spans.end(), [&](const LitSpan& s) { return s.on_s > span.on_s; });
    const auto at = static_cast<std::size_t>(next - spans.begin());
    std::optional<std::size_t> before, after;
    for (std::size_t i = 0; i < spans.size(); ++i)
      if (part(i) == own) (i < at ? before : after) = i < at || !after ? std::optional{i} : after;
    const bool near_before = before && span.on_s < spans[*before].off_s + lit_fade_off_s + lit_calm_s;
    const bool near_after = after && spans[*after].on_s < span.off_s + lit_fade_off_s + lit_calm_s;
    if ((near_before && *before + 1 != at) || (near_after && *after != at)) return; // another part lies between
    if (near_before) spans[*before].off_s = span.on_s, spans[*before].goes_on = span.came_on = true;
    if (near_after) span.off_s = spans[*after].on_s, span.goes_on = spans[*after].came_on = true;
    spans.insert(spans.begin() + static_cast<std::ptrdiff_t>(at), span);
  }
};

/// Strongest first, `first` before all. Lanes out of step are everywhere: what has a place of its own goes before.
std::vector<std::size_t> lit_order(const Take& take, std::optional<std::size_t> first = {}) {
  std::vector<std::size_t> order(take.clashes.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  const auto rank = [&](std::size_t i) { return i == first ? 0 : take.clashes[i].kind == ClashKind::out_of_step ? 2 : 1; };
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return rank(a) < rank(b); });
  return order;
}

} // namespace

int lit_part(const Clash& clash) { return clash.articulators.empty() ? articulator_count : static_cast<int>(clash.articulators.front()); }

std::vector<std::pair<double, double>> clash_spans(const Take& take, const Clash& clash) {
  if (!lie_apart(clash)) return {{clash.start_s, clash.end_s}};
  std::vector<std::pair<double, double>> out;
  for (const std::size_t i : clash.segments) {
    if (i >= take.track.segments.size()) continue;
    const auto [from, to] = slot_of(take.track, i);
    if (!out.empty() && from <= out.back().second + 1e-6) out.back().second = std::max(out.back().second, to);
    else out.emplace_back(from, to);
  }
  return out;
}

std::vector<LitSpan> lighting(const Take& take, double slow, std::optional<std::size_t> first) {
  Schedule schedule{take};
  for (const std::size_t i : lit_order(take, first))
    for (const auto& [on, off] : steady(clash_spans(take, take.clashes[i]), slow))
      for (const auto& [from, to] : schedule.free_parts(on, off)) schedule.add({i, from, to});
  return std::move(schedule.spans);
}

std::optional<Lit> lit_at(const std::vector<LitSpan>& spans, double wall) {
  for (const LitSpan& s : spans) {
    const double end = s.goes_on ? s.off_s : s.off_s + lit_fade_off_s;
    if (wall < s.on_s || wall >= end) continue;
    const double in = s.came_on ? 1 : std::min((wall - s.on_s) / lit_fade_on_s, 1.0);
    const double opacity = wall < s.off_s ? in : 1 - (wall - s.off_s) / lit_fade_off_s;
    if (opacity <= 0) return {};
    return Lit{s.clash, opacity};
  }
  return {};
}

std::optional<Lit> lit_clash(const Take& take, double t, double slow) { return lit_at(lighting(take, slow), t * slow); }

std::optional<Lit> lit_still(const Take& take, double t) {
  for (const std::size_t i : lit_order(take))
    for (const auto& [from, to] : clash_spans(take, take.clashes[i]))
      if (t >= from && t < to) return Lit{i, 1};
  return {};
}

} // namespace mw
