#pragma once

#include "score/targets.h"

#include <string>

namespace mw {

/// What the mouth does to get from one pose to another, in plain words read off the two poses: "the tongue goes back and
/// down, the lips round". At most two parts, the one that moves most first; empty when nothing moves that can be seen.
std::string tell_move(const Anatomy& anatomy, const Pose& from, const Pose& to);

/// How far apart two poses lie, mm: the largest move of a part, lips' rounding and valves as the millimetres they show.
double size_of_move(const Anatomy& anatomy, const Pose& from, const Pose& to);

/// What changes in the mouth when `to` is said instead of `from`, and how much (mm, for ordering). Computed from the
/// targets of both; where two consonants differ in what no pose shows (a tap and a stop), from their features.
struct SoundMove {
  std::string text;
  double size = 0;
};
SoundMove tell_change(const Anatomy& anatomy, const TargetTable& targets, const Sound& from, const Sound& to);

} // namespace mw
