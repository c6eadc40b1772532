#pragma once

#include "phrase/shifts.h"
#include "segments/track.h"

#include <optional>
#include <vector>

namespace mw {

/// One place of a phrase said in two accents: the learner's own and the target. Times of both, in seconds of each take.
struct CompareColumn {
  std::optional<std::size_t> own{}, target{}; // segments; none where a side has no sound there
  bool same = false;                          // one sign on both sides
  double own_from_s = 0, own_to_s = 0, target_from_s = 0, target_to_s = 0;
  bool operator==(const CompareColumn&) const = default;
};

/// The times of paired sounds (`a` of a pair is the target's sound, `b` the own one), in order. A sound that one side
/// leaves out shares the time of the sound before it (in an onset, of the one after it): on the other side that sound is
/// parted as the lengths there say. Columns of a side never overlap, never go back, and the borders of each group of
/// columns are borders of sounds on both sides.
std::vector<CompareColumn> time_columns(const std::vector<SoundPair>& pairs, const SegmentTrack& own, const SegmentTrack& target);

/// One clock for two takes: linear between the borders of the columns, so exact at each of them.
struct CompareClock {
  struct Knot { double target_s = 0, own_s = 0; bool operator==(const Knot&) const = default; };
  std::vector<Knot> knots; // target rises, own never falls
};
CompareClock clock_of(const std::vector<CompareColumn>& columns, double own_duration_s, double target_duration_s);
/// Time of the own take while the target's is at `target_s`. Never falls as time goes on; clamped to both takes; the same
/// time where there are no knots.
double own_time(const CompareClock& clock, double target_s);
/// The column at a time of the target, the nearest one within a pause; none without columns.
std::optional<std::size_t> column_at(const std::vector<CompareColumn>& columns, double target_s);

} // namespace mw
