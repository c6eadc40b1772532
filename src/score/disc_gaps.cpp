#include "score/disc_gaps.h"

#include "anatomy/places.h"

#include <algorithm>

namespace mw {
namespace {
Polyline palate_at(const Anatomy& anatomy, double velum) {
  double back = 0;
  for (const Vec2 q : anatomy.back_wall) back = std::max(back, q.x);
  const double limit = 74.0 / 77.2 * back; // mm of the adult male: soft palate, not throat
  Polyline out;
  for (const Vec2 q : wall_table(anatomy, velum).point)
    if (q.x < limit) out.push_back(q);
  return out;
}
} // namespace

DiscWalls disc_walls(const Anatomy& anatomy) {
  DiscWalls w;
  w.teeth_and_palate.assign(anatomy.upper_incisor.rbegin(), anatomy.upper_incisor.rend());
  w.teeth_and_palate.insert(w.teeth_and_palate.end(), anatomy.palate.begin() + 1, anatomy.palate.end() - 1);
  w.palate_shut = palate_at(anatomy, 0);
  w.palate_open = palate_at(anatomy, 0.6);
  return w;
}

double tip_gap(const Anatomy& anatomy, const DiscWalls& walls, const Pose& pose) {
  return nearest_on(walls.teeth_and_palate, {pose.tip_x, pose.tip_y}).distance - anatomy.tip_radius;
}

double body_gap(const Anatomy& anatomy, const DiscWalls& walls, const Pose& pose, bool velum_open) {
  const Vec2 centre{pose.body_x, pose.body_y};
  return nearest_on(velum_open ? walls.palate_open : walls.palate_shut, centre).distance - body_radius(anatomy, centre);
}

} // namespace mw
