#pragma once

#include "tract/outline.h"

namespace mw {

/// Coronal cut at `behind_teeth_mm`: palate arch and tongue surface over the half width, mirrored (z from -W to W).
struct FrontSection {
  double behind_teeth_mm = 15;
  Polyline palate, tongue;    // (z, y)
  Polyline tongue_underside;  // only when the cut passes under a raised tip
  bool tongue_present = true;
};
FrontSection front_section(const Anatomy& anatomy, const Outline& outline, const Pose& pose, double behind_teeth_mm);

/// Palate seen from below: x behind the teeth, z from the midline (both halves).
struct PalateMap {
  Polyline arch;                  // outline of the palate (x, z), teeth line
  std::vector<Vec2> grid;         // sample points (x, z)
  std::vector<bool> contact;      // per grid point
};
PalateMap palate_map(const Anatomy& anatomy, const Outline& outline, const Pose& pose);

/// Lips from the front: opening width and height (mm), outlines around (0, 0).
struct LipsFront {
  double width_mm = 0, height_mm = 0, rounding = 0, protrusion_mm = 0;
  bool teeth_on_lip = false; // labiodental
  Polyline outer, inner;
};
LipsFront lips_front(const Anatomy& anatomy, const Pose& pose);

enum class FoldState { closed, creaky, voiced, breathy, voiceless };
FoldState fold_state(const Pose& pose);

} // namespace mw
