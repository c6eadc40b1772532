#pragma once

#include "scene/mouth.h"
#include "take/take.h"

namespace mw {

/// Which way a part leaves and comes back in a quick return: the mean shift (mm) of its surface from its first sound to the
/// middle of the way to its next.
Vec2 way_of_return(Tracer& tracer, const Take& take, const Clash& clash);
/// One bent arrow on the flesh (visual design, section 7.5): out of the band and back to it.
std::vector<Mark> draw_return(const MouthPicture& mouth, Vec2 way, const Theme& theme, double u);

} // namespace mw
