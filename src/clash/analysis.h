#pragma once

#include "clash/clash.h"
#include "clash/measure.h"

namespace mw {

/// What the clashes, the bars and the likely slips of one phrase are all computed from; made once and shared. The
/// functions of clash.h make one each and come to the same results.
struct Analysis {
  Sequence sequence;
  Measure measure; // of the shipped weights; empty when the installation is broken
};
Analysis analyse(const SegmentTrack& track, bool loop);

std::vector<Clash> find_clashes(const Pronunciation& pronunciation, const SegmentTrack& track, const Score& score,
                                const Analysis& analysis);
/// `motion` is the baked score; both may be empty (a line that is ranked, not moved).
Difficulty judge(const Pronunciation& pronunciation, const SegmentTrack& track, const Score& score, const Motion& motion,
                 const std::vector<Clash>& clashes, const Analysis& analysis);
/// Strongest first: level, then strength (comparable within a kind only, so the kind goes before it), then time.
bool stronger(const Clash& a, const Clash& b);
std::vector<LikelySlip> find_likely_slips(const Pronunciation& pronunciation, const SegmentTrack& track,
                                          const Analysis& analysis);

} // namespace mw
