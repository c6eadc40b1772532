#pragma once

#include "paint/gl/flatten.h"

namespace mw::gl {

/// The dashes of a line as open pieces; an odd list is read twice, an empty one gives the line back. Dots (length 0)
/// become points.
Rings dash(const Rings& lines, const std::vector<double>& dashes_px);

/// Rings whose non-zero inside is the line drawn `width_px` wide with round joins and caps.
Rings outline_of_stroke(const Rings& lines, double width_px);

} // namespace mw::gl
