#pragma once

#include "scene/canvas.h"

#include <string>
#include <utility>
#include <vector>

namespace mw {

/// A label that wants to stand by a point, in one line or several.
struct LabelWish {
  std::vector<std::string> lines;
  Vec2 point{};
  double size = 13.5;
  bool bold = false;
};
/// What labels keep clear of: boxes (points, letters) and lines (arrows of glides).
struct LabelField {
  Rect room{};                                // labels stay inside
  std::vector<Rect> boxes{};
  std::vector<std::pair<Vec2, Vec2>> lines{};
  std::vector<std::pair<Vec2, Vec2>> rules{}; // quiet lines, better not crossed
};
struct PlacedLabel {
  Rect box{};
  bool rightwards = true; // it stands to the right of its point: lines start at its left edge, else end at its right one
  bool led = false; // far from its point: a leader joins them
  Vec2 from{}, to{}; // the leader, from the point to the label's edge
};

/// A place for each label, in the order of the wishes. No two labels overlap while the room can hold them; then points,
/// arrows and leaders are kept free as far as that goes, near places first. `u` is the unit of the gaps.
std::vector<PlacedLabel> place_labels(const std::vector<LabelWish>& wishes, const LabelField& field, double u);

/// From one line of a label to the next, as a part of its size.
inline constexpr double label_step = 1.15;

/// Length of the part of a line that lies inside a box.
double length_inside(const Rect& box, Vec2 from, Vec2 to);

} // namespace mw
