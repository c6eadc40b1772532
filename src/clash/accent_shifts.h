#pragma once

#include "clash/clash.h"

namespace mw {

/// Places where the target accent keeps apart what the learner's own accent merges, or the reverse, found within the
/// phrase: two places that share a sound in one accent and not in the other. `own` and `target` are the same phrase;
/// words pair by position, sounds by slot (where a slot differs in length, by the best fit). Segments and times are
/// those of `track`, the target's. Strongest first; empty when nothing in the phrase shifts.
std::vector<Clash> find_accent_shifts(const Pronunciation& own, const Pronunciation& target, const SegmentTrack& track);

/// The clashes of a take with the learner's shifts put in their places. No flood: shifts told within one breath only,
/// and of two that meet in a place the nearer pair.
std::vector<Clash> with_accent_shifts(std::vector<Clash> clashes, const std::vector<Clash>& shifts);

} // namespace mw
