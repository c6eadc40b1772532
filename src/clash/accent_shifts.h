#pragma once

#include "clash/clash.h"

namespace mw {

/// Places where the target accent keeps apart what the learner's own accent merges, or the reverse, found within the
/// phrase: two places that share a sound in one accent and not in the other. `own` and `target` are the same phrase;
/// words pair by position, sounds by slot (where a slot differs in length, by the best fit). Segments and times are
/// those of `track`, the target's. Strongest first; empty when nothing in the phrase shifts.
std::vector<Clash> find_accent_shifts(const Pronunciation& own, const Pronunciation& target, const SegmentTrack& track);

} // namespace mw
