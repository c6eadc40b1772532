#pragma once

#include "clash/measure.h"
#include "clash/pattern.h"

namespace mw {

/// What the finders of the pattern look at.
struct PatternParts {
  const Sequence& sequence;
  const std::vector<PatternSyllable>& columns;
  const std::vector<Competition>& competitions;
};

/// Columns one after the other: all syllables, and, where some are weak, the stressed ones alone (the beats). In a loop
/// each list is written twice; use `% columns.size()` never: the indices are already those of the columns.
std::vector<std::vector<std::size_t>> readings(const Sequence& sequence);

/// AB BA over four neighbouring syllables of one lane, or over starts and ends of two. Strength: likeness of the two
/// actions, more when the sounds are the very same and when the rest of the syllables is.
std::vector<PatternLink> find_swaps(const PatternParts& parts);
/// AB AB of one lane.
std::vector<PatternLink> find_repeats(const PatternParts& parts);
/// Like slots that hold sounds which differ in little. Strength: sum of the pulls (measure.h) of the run.
std::vector<PatternLink> find_near_twins(const PatternParts& parts);
/// Neighbouring glides whose tongue goes the same way while the lips go opposite ways, or the reverse.
std::vector<PatternLink> find_counter_moves(const PatternParts& parts);
/// Fills `lanes` and `out_of_step`.
void find_lanes(const PatternParts& parts, Pattern& pattern);

} // namespace mw
