#include "score/relocate.h"

#include "anatomy/places.h"
#include "score/disc_gaps.h"

#include <algorithm>

namespace mw {
namespace {
Vec2 centre_of(const Pose& pose, Disc disc) {
  return disc == Disc::tip ? Vec2(pose.tip_x, pose.tip_y) : Vec2(pose.body_x, pose.body_y);
}
void put(Pose& pose, Disc disc, Vec2 centre) {
  (disc == Disc::tip ? pose.tip_x : pose.body_x) = centre.x;
  (disc == Disc::tip ? pose.tip_y : pose.body_y) = centre.y;
}

/// Where along the wall the disc stands, between the wall's samples.
double place_of(const Anatomy& anatomy, const Pose& pose, Disc disc) {
  const WallSpot spot = locate_on_wall(wall_table(anatomy, pose.velum), centre_of(pose, disc));
  return spot.u + spot.offset;
}

Vec2 goal(const Anatomy& anatomy, const Pose& pose, Disc disc, double u, double opening) {
  return disc == Disc::tip ? tip_goal(anatomy, u, opening, pose.velum) : body_goal(anatomy, u, opening, pose.velum);
}

/// The goal's opening is measured at one wall place; the nearest wall may lie beside it where the wall bends, so the
/// disc is moved along the normal until the opening itself is met. Four rounds leave less than 0.02 mm.
void settle(const Anatomy& anatomy, Pose& pose, Disc disc, double u, double opening) {
  put(pose, disc, goal(anatomy, pose, disc, u, opening));
  const Vec2 normal = wall_normal(wall_table(anatomy, pose.velum), u);
  for (int round = 0; round < 4; ++round)
    put(pose, disc, centre_of(pose, disc) + normal * (opening - disc_opening(anatomy, pose, disc)));
}

double clamp_place(const Anatomy& anatomy, Disc disc, double u) {
  // tip: from between the teeth to as far as it curls back; body: palate to uvula (mm of the adult male's wall)
  return disc == Disc::tip ? std::clamp(u, 0.5 * anatomy.jaw_x, 30 * anatomy.jaw_x)
                           : std::clamp(u, 14 * anatomy.jaw_x, 96 * anatomy.jaw_x);
}
} // namespace

double disc_opening(const Anatomy& anatomy, const Pose& pose, Disc disc) {
  const DiscWalls walls = disc_walls(anatomy);
  return disc == Disc::tip ? tip_gap(anatomy, walls, pose) : body_gap(anatomy, walls, pose, pose.velum > 0.5);
}

void slide_to(const Anatomy& anatomy, Pose& pose, Disc disc, double place_mm) {
  settle(anatomy, pose, disc, clamp_place(anatomy, disc, place_mm), disc_opening(anatomy, pose, disc));
}

void slide_along(const Anatomy& anatomy, Pose& pose, Disc disc, double mm) {
  slide_to(anatomy, pose, disc, place_of(anatomy, pose, disc) + mm);
}

void open_to(const Anatomy& anatomy, Pose& pose, Disc disc, double mm) {
  const double step = mm - disc_opening(anatomy, pose, disc);
  const double u = place_of(anatomy, pose, disc);
  const Vec2 normal = wall_normal(wall_table(anatomy, pose.velum), u);
  put(pose, disc, centre_of(pose, disc) + normal * step);
  for (int round = 0; round < 4; ++round)
    put(pose, disc, centre_of(pose, disc) + normal * (mm - disc_opening(anatomy, pose, disc)));
}

void move_jaw(const Anatomy& anatomy, Pose& pose, double jaw_opening) {
  const Vec2 rest = jaw_transform(anatomy, pose.jaw_opening, pose.jaw_forward).to_jaw({pose.tip_x, pose.tip_y});
  pose.jaw_opening = jaw_opening;
  put(pose, Disc::tip, jaw_transform(anatomy, jaw_opening, pose.jaw_forward).to_skull(rest));
}

} // namespace mw
