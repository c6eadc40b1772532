#include "scene/compare_clock.h"

#include <algorithm>
#include <numeric>

namespace mw {
namespace {

constexpr double instant_s = 1e-9;

/// Columns [first, last) that are parted together: one sound of both sides with what only one side says beside it.
struct Share { std::size_t first, last; };

bool is_paired(const SoundPair& pair) { return pair.a && pair.b; }

bool leans_on_next(const SoundPair& pair, const SegmentTrack& own, const SegmentTrack& target) {
  const Segment& s = pair.a ? target.segments[*pair.a] : own.segments[*pair.b];
  return s.slot == Slot::onset;
}

std::vector<Share> shares_of(const std::vector<SoundPair>& pairs, const SegmentTrack& own, const SegmentTrack& target) {
  std::vector<Share> shares;
  std::size_t start = 0;
  bool holds = false; // a paired column is in the share
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    // a new share begins at a pair or at an onset that leans on one, once the present share has its pair
    if (holds && (is_paired(pairs[i]) || leans_on_next(pairs[i], own, target))) {
      // what follows an onset without a pair before the next one ends would be left alone: then it stays here
      const auto next = std::find_if(pairs.begin() + static_cast<std::ptrdiff_t>(i), pairs.end(), is_paired);
      if (next != pairs.end()) shares.push_back({start, i}), start = i, holds = false;
    }
    holds = holds || is_paired(pairs[i]);
  }
  if (start < pairs.size()) shares.push_back({start, pairs.size()});
  return shares;
}

/// The stretch a side takes for a share, and the lengths of its columns there (0 where it has no sound).
struct Side {
  double from_s = 0, to_s = 0;
  std::vector<double> lengths{};
  std::size_t count = 0;
};
Side side_of(const std::vector<SoundPair>& pairs, Share share, const SegmentTrack& track, bool is_target) {
  Side side;
  for (std::size_t i = share.first; i < share.last; ++i) {
    const auto& index = is_target ? pairs[i].a : pairs[i].b;
    side.lengths.push_back(index ? track.segments[*index].end_s - track.segments[*index].start_s : 0);
    if (!index) continue;
    if (side.count++ == 0) side.from_s = track.segments[*index].start_s;
    side.to_s = track.segments[*index].end_s;
  }
  return side;
}

/// Where each column ends, 0..1 of the share: as on the side that says them all; else as the mean of both.
std::vector<double> ends_of(const Side& own, const Side& target) {
  const std::size_t n = own.lengths.size();
  std::vector<double> parts(n, 0);
  const auto add = [&](const Side& side, double weight) {
    const double sum = std::accumulate(side.lengths.begin(), side.lengths.end(), 0.0);
    for (std::size_t i = 0; i < n && sum > 0; ++i) parts[i] += weight * side.lengths[i] / sum;
  };
  if (target.count == n) add(target, 1);
  else if (own.count == n) add(own, 1);
  else add(target, 0.5), add(own, 0.5);
  const double all = std::accumulate(parts.begin(), parts.end(), 0.0);
  double sum = 0;
  for (double& part : parts) part = all > 0 ? (sum += part) / all : 1;
  parts.back() = 1;
  return parts;
}

} // namespace

std::vector<CompareColumn> time_columns(const std::vector<SoundPair>& pairs, const SegmentTrack& own, const SegmentTrack& target) {
  std::vector<CompareColumn> columns;
  double own_s = lead_s, target_s = lead_s; // a side that says nothing stays where it is
  for (const Share share : shares_of(pairs, own, target)) {
    Side o = side_of(pairs, share, own, false), t = side_of(pairs, share, target, true);
    if (o.count == 0) o.from_s = o.to_s = own_s;
    if (t.count == 0) t.from_s = t.to_s = target_s;
    own_s = o.to_s, target_s = t.to_s;
    const auto ends = ends_of(o, t);
    double begin = 0;
    for (std::size_t i = share.first; i < share.last; ++i) {
      const double end = ends[i - share.first];
      const auto at = [](const Side& side, double f) { return f >= 1 ? side.to_s : side.from_s + f * (side.to_s - side.from_s); };
      columns.push_back({pairs[i].b, pairs[i].a, pairs[i].same, at(o, begin), at(o, end), at(t, begin), at(t, end)});
      begin = end;
    }
  }
  return columns;
}

CompareClock clock_of(const std::vector<CompareColumn>& columns, double own_duration_s, double target_duration_s) {
  CompareClock clock;
  const auto add = [&](double target_s, double own_s) {
    if (!clock.knots.empty()) {
      CompareClock::Knot& last = clock.knots.back();
      own_s = std::max(own_s, last.own_s);
      if (target_s <= last.target_s + instant_s) { // the own take goes on while the target stands: no leap, the time before is shared
        last.own_s = own_s;
        return;
      }
    }
    clock.knots.push_back({target_s, own_s});
  };
  add(0, 0);
  for (const CompareColumn& c : columns) add(c.target_from_s, c.own_from_s), add(c.target_to_s, c.own_to_s);
  add(target_duration_s, own_duration_s);
  return clock;
}

double own_time(const CompareClock& clock, double target_s) {
  const auto& k = clock.knots;
  if (k.empty()) return target_s;
  if (target_s <= k.front().target_s) return k.front().own_s;
  if (target_s >= k.back().target_s) return k.back().own_s;
  const auto next = std::upper_bound(k.begin(), k.end(), target_s, [](double t, const CompareClock::Knot& knot) { return t < knot.target_s; });
  const auto& a = *std::prev(next);
  const double f = (target_s - a.target_s) / (next->target_s - a.target_s);
  return f <= 0 ? a.own_s : a.own_s + f * (next->own_s - a.own_s);
}

std::optional<std::size_t> column_at(const std::vector<CompareColumn>& columns, double target_s) {
  std::optional<std::size_t> best;
  double nearest = 1e300;
  for (std::size_t i = 0; i < columns.size(); ++i) {
    const CompareColumn& c = columns[i];
    if (target_s >= c.target_from_s && target_s < c.target_to_s) return i;
    const double off = target_s < c.target_from_s ? c.target_from_s - target_s : target_s - c.target_to_s;
    if (off < nearest - instant_s) nearest = off, best = i;
  }
  return best;
}

} // namespace mw
