#pragma once

#include "score/targets.h"

namespace mw {

/// The row of `sound`'s letter with the sound's marks laid over it, row by row of assets/speakers/modifiers.csv (its
/// words are explained in modifiers.cpp); the weight of a consonant is raised with each value a mark sets. Marks that
/// move nothing (length, tone, syllabicity, no audible release) are passed over. `sound.kind` counts as a mark. A mark
/// that turns one manner into another (a lowered fricative is an approximant) changes manner, timing and the opening
/// allowed. Problem (missing) when the table is broken.
Result<Target> apply_marks(Target target, const Sound& sound, const Anatomy& anatomy);

} // namespace mw
