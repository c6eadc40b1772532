#include "clash/analysis.h"

namespace mw {

Analysis analyse(const SegmentTrack& track, bool loop) {
  Analysis analysis{sequence_of(track, loop), {}};
  if (const auto& data = difficulty_data()) analysis.measure = measure(analysis.sequence, *data);
  return analysis;
}

std::vector<Clash> find_clashes(const Pronunciation& pronunciation, const SegmentTrack& track, const Score& score,
                                const Motion&, bool loop) {
  return find_clashes(pronunciation, track, score, analyse(track, loop));
}

Difficulty judge(const Pronunciation& pronunciation, const SegmentTrack& track, const Score& score,
                 const std::vector<Clash>& clashes, bool loop) {
  return judge(pronunciation, track, score, score.plan ? bake(score) : Motion{}, clashes, analyse(track, loop));
}

std::vector<LikelySlip> find_likely_slips(const Pronunciation& pronunciation, const SegmentTrack& track,
                                          const std::vector<Clash>&, bool loop) {
  return find_likely_slips(pronunciation, track, analyse(track, loop));
}

std::vector<LikelySlip> find_likely_slips(const SegmentTrack& track, const std::vector<Clash>& clashes, bool loop) {
  return find_likely_slips(Pronunciation{}, track, clashes, loop);
}

} // namespace mw
