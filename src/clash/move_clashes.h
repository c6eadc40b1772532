#pragma once

#include "clash/telling.h"

namespace mw {

/// Clashes that the planned moves show: tug, quick return, near twins of the tip that follow each other too soon.
std::vector<Clash> move_clashes(const Pronunciation& pronunciation, const SegmentTrack& track, const Score& score);

} // namespace mw
