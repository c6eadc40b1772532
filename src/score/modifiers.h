#pragma once

#include "score/targets.h"

namespace mw {

/// The row of `sound`'s letter with the sound's marks laid over it: value = (1 - blend) row + blend target on the channels
/// a mark names, and the weight of a consonant raised to at least `blend` (tract-model.md section 10). Marks that move
/// nothing (length, tone) are passed over. `sound.kind` counts as a mark. Problem (missing) when the table is broken.
Result<Target> apply_marks(Target target, const Sound& sound, const Anatomy& anatomy);

} // namespace mw
