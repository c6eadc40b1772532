#include "clash/move_clashes.h"

namespace mw {

std::vector<Clash> move_clashes(const Pronunciation&, const SegmentTrack&, const Score&) { return {}; }

} // namespace mw
