#pragma once

#include "scene/mouth.h"

#include <string_view>
#include <vector>

namespace mw {

/// Parts of the mouth that can carry a label, in the learner's words.
enum class Part { upper_lip, lower_lip, tip, body, root, soft_palate, epiglottis, folds, throat, jaw, lower_teeth, upper_teeth, ridge, hard_palate, nose };
std::string_view to_text(Part part);
/// A point of the part in this pose, mm.
Vec2 point_of(const Outline& outline, const Section& section, const Anatomy& anatomy, Part part);

/// Labels in two columns outside the head, sorted by the height of their points, so that leaders do not cross.
std::vector<Mark> draw_labels(const MouthPicture& mouth, const Outline& outline, const Anatomy& anatomy, const Theme& theme, const std::vector<Part>& left, const std::vector<Part>& right,
                              double left_x, double right_x, double size, double u);
/// The usual two columns; `few` for small pictures.
std::pair<std::vector<Part>, std::vector<Part>> usual_labels(bool few);

} // namespace mw
