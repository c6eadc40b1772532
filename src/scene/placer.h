#pragma once

#include "scene/mouth.h"
#include "take/take.h"

#include <array>
#include <string>

namespace mw {

/// Values of an articulator that a sound's goal may change.
std::vector<double Pose::*> values_of(Articulator articulator);

/// What an arrow or a letter tag must not cover: points, the roof and back wall (not to be crossed), boxes, the stage.
struct PlacerField {
  Polyline points;         // scene units
  Polyline roof;
  std::vector<Rect> boxes;
  Rect stage{};
  /// How much a box covers; 0 = nothing.
  [[nodiscard]] double cost(const Rect& box, double margin) const;
  /// Does the straight way from a to b leave the mouth through roof or back wall?
  [[nodiscard]] bool crosses_wall(Vec2 a, Vec2 b) const;
};
PlacerField field_of(const MouthPicture& mouth, Rect stage, const std::vector<Rect>& keep);

struct PlacedTag { Vec2 centre{}; Rect box{}; double cost = 0; };
/// The tag at an arrow's head: the arrow's own direction first, then 45, 90, 135 to either side, 180, on rings of 7, 16 and
/// 27 u; the first place that covers nothing, else the one that covers least.
PlacedTag place_tag(const PlacerField& field, Vec2 head, Vec2 direction, Vec2 size, double u);

struct TugArrow { Vec2 from{}, to{}; PlacedTag tag; std::string label; };
/// Two arrows out of the band, one for each sound, and their tags (visual design, section 7.1). `pulls` in mm.
std::vector<TugArrow> place_tug(const MouthPicture& mouth, PlacerField field, const std::array<Vec2, 2>& pulls, const std::array<std::string, 2>& labels, double u, double tag_size);
std::vector<Mark> draw_tug(const std::vector<TugArrow>& arrows, const Theme& theme, double u, double tag_size);

/// Where two sounds want a part of the mouth, as shifts (mm) of its surface from the pose: only that part's values
/// change. The two always part a little more than they do.
std::array<Vec2, 2> pulls_of(Tracer& tracer, const TargetTable& targets, const Pose& pose, Articulator articulator, const Sound& a, const Sound& b);

/// Heights moved apart to at least `gap`, order kept.
std::vector<double> spread_apart(std::vector<double> heights, double gap);

} // namespace mw
