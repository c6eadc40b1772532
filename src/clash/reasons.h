#pragma once

#include "clash/norms.h"
#include "clash/telling.h"

namespace mw {

/// The two factors that push the phrase most above an average line of the reference list, as sentences; fewer when
/// fewer push at all.
std::vector<std::string> reasons_of(const Measure& measure, const Sequence& sequence, const Pronunciation& pronunciation,
                                    const SegmentTrack& track, const DifficultyData& data, const Norms& norms);

} // namespace mw
