#pragma once

#include "scene/mouth.h"

#include <string_view>
#include <vector>

namespace mw {

/// Parts of the mouth that can carry a label, in the learner's words.
enum class Part { upper_lip, lower_lip, tip, blade, body, root, soft_palate, epiglottis, folds, throat, jaw, lower_teeth, upper_teeth, ridge, hard_palate, nose };
std::string_view to_text(Part part);
/// The word of anatomy or phonetics for it, where that is another one; empty where it is the same.
std::string_view to_term(Part part);
/// A point of the part in this pose, mm.
Vec2 point_of(const Outline& outline, const Section& section, const Anatomy& anatomy, Part part);

/// Where the two columns of labels may stand, px.
struct LabelColumns { double left_x, right_x, top, left_bottom, right_bottom; };
/// Labels in two columns outside the head, sorted by the height of their points, so that leaders do not cross: the plain
/// word with the technical term below it.
std::vector<Mark> draw_labels(const MouthPicture& mouth, const Outline& outline, const Anatomy& anatomy, const Theme& theme, const std::vector<Part>& left, const std::vector<Part>& right,
                              const LabelColumns& columns, double size, double u);
/// How many: none, three for the back row, those that fit a small picture, all.
enum class Labelling { none, three, few, all };
/// The usual two columns.
std::pair<std::vector<Part>, std::vector<Part>> usual_labels(Labelling labelling);

} // namespace mw
