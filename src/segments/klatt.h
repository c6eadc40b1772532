#pragma once

#include "segments/track.h"

#include <vector>

namespace mw {

/// A sound's length before the rate is known: at the rate of careful speech of the rules it lasts least + stretch.
struct RuleDuration {
  double least_s = 0;   // what the sound needs
  double stretch_s = 0; // (inherent - least) x all percentages
  bool vowel = false;   // a nucleus: gives most of the time in slow speech
  bool tap = false;     // has no slow form
};

/// The duration rules of Klatt 1979 (as printed in Allen, Hunnicutt & Klatt 1987, ch. 9) over segments in order; their
/// times are not read. Group ends are where pauses follow. With `loop`, the first sound follows the last one.
/// Milder than printed for consonants, which the printed rules make shorter than a mouth can move: rule 7 shortens an
/// unstressed consonant's minimum to 0.8 (Klatt 1976) instead of 0.5, and unstressed liquids and glides before vowels to
/// 50 % instead of 10 %.
std::vector<RuleDuration> apply_rules(const std::vector<Segment>& segments, bool loop);

/// A tempo (1 = the rules as they stand; less is faster) as what it does to the parts of a length.
struct Tempo {
  explicit Tempo(double k);
  double least, stretch;   // factors of a rule's two parts
  double vowel, consonant; // what slow speech adds, as factors of the whole
};

/// Length in seconds. Never falls as the tempo grows; at least 20 ms.
double duration_at(const RuleDuration& rule, const Tempo& tempo);
inline double duration_at(const RuleDuration& rule, double k) { return duration_at(rule, Tempo(k)); }

} // namespace mw
