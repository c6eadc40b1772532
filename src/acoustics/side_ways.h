#pragma once

#include "acoustics/formants.h"
#include "acoustics/sections.h"
#include "tract/sides.h"

namespace mw {

/// Ways that a section on the midline cannot know (tract-model.md section 12), laid into the tube's sections where `mid`
/// is narrow: the groove of a sibilant makes its channel smaller, lowered sides open a way past a tip that is shut, a tip
/// between the teeth leaves a slit. Vowels have none of the three and stay as they are. `channels`: of the same speaker.
void lay_side_ways(AreaFunction& tube, const Anatomy& anatomy, const Outline& outline, const Pose& pose,
                   const Midline& mid, Channels& channels);

} // namespace mw
