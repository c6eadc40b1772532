#pragma once

#include "clash/sequence.h"

#include <string>
#include <vector>

namespace mw {

enum class SpeedJudgement { comfortable, fast, beyond };
std::string_view to_text(SpeedJudgement judgement); // comfortable, fast, beyond most speakers

/// How fast a phrase may be said before one articulator runs out of time, from tests in which adults repeat one syllable
/// as fast as they can (mean M, spread s): comfortable up to (M - 2s)/m syllables a second, fast up to (M + s)/m, m =
/// returns of the articulator a syllable. Soft palate, jaw and voice box have no test of this kind and no row.
struct SpeedLimit {
  Articulator articulator = Articulator::tip;
  double returns = 0;     // a syllable
  double comfortable = 0; // syllables a second, up to
  double fast = 0;        // syllables a second, up to
  bool operator==(const SpeedLimit&) const = default;
};

/// Busiest first; only articulators that return at least once. Empty for an empty phrase.
std::vector<SpeedLimit> speed_limits(const SegmentTrack& track, bool loop = false);
std::vector<SpeedLimit> speed_limits(const Sequence& sequence);

/// Judgement of one articulator at a rate (syllables a second).
SpeedJudgement judge_speed(const SpeedLimit& limit, double rate);
/// Of the whole phrase: the worst articulator, or the syllables themselves (adults' mean for changing syllables 6.2 a
/// second, spread 0.8: fast from the mean on, beyond from mean + spread on).
SpeedJudgement judge_speed(const std::vector<SpeedLimit>& limits, double rate);

/// One sentence: "At 4 syllables a second: tip fast; back and lips easy."
std::string speed_text(const std::vector<SpeedLimit>& limits, double rate);

} // namespace mw
