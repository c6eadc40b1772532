#pragma once

#include "scene/mouth.h"
#include "tract/sides.h"

#include <string>

namespace mw {

/// Lips from the front: bow, opening, upper teeth when open over 2 mm or when they rest on the lower lip.
std::vector<Mark> draw_lips(const Theme& theme, const LipsFront& lips, Rect rect, double line_scale);
/// The palate from below, teeth round it: 15 x 15 points, large and dark where the tongue touches.
std::vector<Mark> draw_palate_map(const Theme& theme, const PalateMap& map, Rect rect, double line_scale);
/// Cut across the mouth: paper above, air between, tongue with its rim, molars of both jaws.
std::vector<Mark> draw_front_section(const Theme& theme, const Anatomy& anatomy, const FrontSection& section, const Pose& pose, Rect rect, double line_scale);
/// The vocal folds from above in a round window; `opening` 0 shut .. 1 wide.
std::vector<Mark> draw_folds(const Theme& theme, double opening, Vec2 centre, double radius, double line_scale);

enum class SidePicture { lips, palate, front };
struct ShelfView {
  const Theme* theme = nullptr;
  Rect rect{};
  double u = 1;
  double section_mm = 15;  // where the front section is cut: 15 tip sounds, 38 others
  std::optional<SidePicture> first{}; // framed: what the cue in hand is about
  std::vector<SidePicture> shown{SidePicture::lips, SidePicture::palate, SidePicture::front};
};
/// What the side view hides, side by side with captions.
Group compose_shelf(const Anatomy& anatomy, const Outline& outline, const Pose& pose, const ShelfView& view);

/// Free room for the shelf beside the neck of a drawn mouth within `panel` (visual design, section 5).
Rect shelf_room(const MouthPicture& mouth, Rect panel, double u);
/// The folds in a round window over the lowest vertebra, with a leader to the glottis. Second: the box it covers.
std::pair<Group, Rect> compose_peephole(const MouthPicture& mouth, const Anatomy& anatomy, const Pose& pose, const Theme& theme, double line_scale);

} // namespace mw
