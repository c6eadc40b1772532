#pragma once

#include "tract/outline.h"

#include <vector>

namespace mw {

/// One line across the airway: its ends on the tongue side and on the wall side, mm, skull frame.
struct CrossLine {
  Vec2 inner{}, outer{};
};
/// The 47 fixed lines of a speaker, lips to glottis: upright through the mouth, a fan from palate to throat, level
/// through the throat. A line that meets no wall is left out. Inner = outer where the airway is shut.
std::vector<CrossLine> cross_lines(const Anatomy& anatomy, const Outline& outline);
/// The same without allocation once `lines` has room.
void cross_lines_into(const Anatomy& anatomy, const Outline& outline, std::vector<CrossLine>& lines);

/// The airway's midline with the width across it (mm) at each of its points, lips to glottis.
struct Midline {
  Polyline point;
  std::vector<double> width;
};
Midline midline(const std::vector<CrossLine>& lines);
/// The same without allocation once `mid` has room.
void midline_into(const std::vector<CrossLine>& lines, Midline& mid);

} // namespace mw
