#pragma once

#include "accent/accent.h"
#include "clash/clash.h"

namespace mw {

/// Places where the target accent keeps apart what the learner's own accent merges, or the reverse, found within the
/// phrase (phrase/shifts.h); of several pairs with the same sounds the nearest. Segments and times are those of `track`,
/// the target's. Strongest first; empty when nothing in the phrase shifts.
std::vector<Clash> find_accent_shifts(const Pronunciation& own, const Pronunciation& target, const SegmentTrack& track,
                                      const Accent* own_accent = nullptr, const Accent* target_accent = nullptr);

/// The clashes of a take with the learner's shifts put in their places. No flood: only shifts within one breath, of
/// strong vowels, consonants and words.
std::vector<Clash> with_accent_shifts(std::vector<Clash> clashes, const std::vector<Clash>& shifts);

} // namespace mw
