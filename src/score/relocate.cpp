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

std::span<const Vec2> wall_before(const DiscWalls& walls, const Pose& pose, Disc disc) {
  return (disc == Disc::tip ? walls.teeth_and_palate : pose.velum > 0.5 ? walls.palate_open : walls.palate_shut).points;
}

/// Moves the disc away from or towards its nearest wall point until the opening is met; the wall bends, so the nearest
/// point wanders and six rounds are taken (what is left is below 0.02 mm).
void settle(const Anatomy& anatomy, Pose& pose, Disc disc, double opening) {
  const DiscWalls& walls = disc_walls(anatomy);
  for (int round = 0; round < 6; ++round) {
    const Vec2 centre = centre_of(pose, disc);
    const Vec2 away = centre - nearest_on(wall_before(walls, pose, disc), centre).foot;
    if (glm::length(away) < 1e-6) return; // the centre lies in the wall: no direction to go
    put(pose, disc, centre + glm::normalize(away) * (opening - disc_opening(anatomy, pose, disc)));
  }
}

double clamp_place(const Anatomy& anatomy, Disc disc, double u) {
  // tip: from between the teeth to as far as it curls back; body: palate to uvula (mm of the adult male's wall)
  return disc == Disc::tip ? std::clamp(u, 0.5 * anatomy.jaw_x, 30 * anatomy.jaw_x)
                           : std::clamp(u, 14 * anatomy.jaw_x, 96 * anatomy.jaw_x);
}
} // namespace

double disc_opening(const Anatomy& anatomy, const Pose& pose, Disc disc) {
  const DiscWalls& walls = disc_walls(anatomy);
  return disc == Disc::tip ? tip_gap(anatomy, walls, pose) : body_gap(anatomy, walls, pose, pose.velum > 0.5);
}

void slide_to(const Anatomy& anatomy, Pose& pose, Disc disc, double place_mm) {
  const WallTable& wall = wall_table(anatomy, pose.velum);
  const double opening = disc_opening(anatomy, pose, disc), to = clamp_place(anatomy, disc, place_mm);
  const Vec2 step = wall_point(wall, to) - wall_point(wall, place_of(anatomy, pose, disc));
  put(pose, disc, centre_of(pose, disc) + step);
  settle(anatomy, pose, disc, opening);
}

void slide_along(const Anatomy& anatomy, Pose& pose, Disc disc, double mm) {
  slide_to(anatomy, pose, disc, place_of(anatomy, pose, disc) + mm);
}

void open_to(const Anatomy& anatomy, Pose& pose, Disc disc, double mm) { settle(anatomy, pose, disc, mm); }

void move_jaw(const Anatomy& anatomy, Pose& pose, double jaw_opening) {
  const Vec2 rest = jaw_transform(anatomy, pose.jaw_opening, pose.jaw_forward).to_jaw({pose.tip_x, pose.tip_y});
  pose.jaw_opening = jaw_opening;
  put(pose, Disc::tip, jaw_transform(anatomy, jaw_opening, pose.jaw_forward).to_skull(rest));
}

} // namespace mw
