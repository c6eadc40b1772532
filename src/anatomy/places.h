#pragma once

#include "anatomy/anatomy.h"

namespace mw {

/// Soft palate at one opening, before it yields to the tongue: under face, round end, upper face (48, 7, 48 points).
struct VelumShape {
  Polyline centre;
  std::vector<double> radius;
  Polyline under, cap, upper;
};
VelumShape velum_shape(const Anatomy& anatomy, double velum);

/// The upper wall from incisor edge along palate, soft palate and throat, by arc length u (mm), at one velum opening.
struct WallTable {
  std::vector<double> u;
  Polyline point, normal; // normal towards the airway
  std::array<double, 4> landmarks{}; // u of: incisor edge, end of hard palate, uvula end, glottis
};
/// Tables are built once per speaker and opening (rounded to 0.01) and shared.
const WallTable& wall_table(const Anatomy& anatomy, double velum = 0);
Vec2 wall_point(const WallTable& table, double u);
Vec2 wall_normal(const WallTable& table, double u);

/// Disc centre for a constriction: wall place u, opening (mm, negative = contact). tract-model.md section 8.
Vec2 tip_goal(const Anatomy& anatomy, double u, double opening, double velum = 0);
Vec2 body_goal(const Anatomy& anatomy, double u, double opening, double velum = 0);

/// Place on a scale that all speakers share: 0..1 hard palate, 1..2 soft palate, 2..3 throat wall to the glottis.
double normalised_place(const WallTable& table, double u);
/// The way back; clamped to 0..3.
double place_of_normalised(const WallTable& table, double z);

/// A point against the wall table's nearest sample: its u, the distance along the normal and the offset along the wall.
struct WallSpot {
  double u = 0, distance = 0, offset = 0;
};
WallSpot locate_on_wall(const WallTable& table, Vec2 p);

/// IPA place ("dental", "alveolar", ..., "glottal") at a wall arc length of this speaker; normalised by landmarks so that
/// it holds for every speaker.
std::string_view place_name(const Anatomy& anatomy, const WallTable& table, double u);

} // namespace mw
