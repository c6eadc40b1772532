#pragma once

#include "anatomy/anatomy.h"

namespace mw {

/// A consonant's pose of one speaker as another would make it (tract-model.md section 8, Other speakers): the same place by
/// landmarks, overlaps and openings under 1.5 mm kept, wider ones scaled; a free tip keeps its place in the jaw. Not for a
/// tip between the teeth.
Pose transfer(const Pose& pose, const Anatomy& from, const Anatomy& to);

} // namespace mw
