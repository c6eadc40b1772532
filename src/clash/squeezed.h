#pragma once

#include "motion/motion.h"
#include "score/score.h"

#include <utility>
#include <vector>

namespace mw {

/// Stressed steady vowels whose tongue never comes within 4 mm (of an adult) of its place: segment, and the least distance
/// over those 4 mm (above 1). `motion` is the baked
/// score. Empty for a score without a plan.
std::vector<std::pair<std::size_t, double>> squeezed_vowels(const SegmentTrack& track, const Score& score, const Motion& motion);

} // namespace mw
