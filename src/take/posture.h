#pragma once

#include "accent/accent.h"
#include "score/posture.h"

namespace mw {

/// An accent's posture as numbers for the score; a name or value that fits no channel counts as no shift.
PostureShift to_shift(const Posture& posture);

} // namespace mw
