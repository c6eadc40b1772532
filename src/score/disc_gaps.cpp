#include "score/disc_gaps.h"

#include "anatomy/places.h"

#include <algorithm>
#include <limits>
#include <map>
#include <memory>
#include <mutex>
#include <string>

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

DiscWall in_stretches(Polyline points) {
  constexpr std::size_t length = 6; // segments
  DiscWall wall;
  for (std::size_t first = 0; first + 1 < points.size(); first += length) {
    DiscWall::Stretch s{first, std::min(first + length, points.size() - 1) - 1};
    s.centre = points[(s.first + s.last + 1) / 2];
    for (std::size_t i = s.first; i <= s.last + 1; ++i) s.radius = std::max(s.radius, glm::distance(points[i], s.centre));
    wall.stretches.push_back(s);
  }
  wall.points = std::move(points);
  return wall;
}

DiscWalls build(const Anatomy& anatomy) {
  Polyline teeth(anatomy.upper_incisor.rbegin(), anatomy.upper_incisor.rend());
  teeth.insert(teeth.end(), anatomy.palate.begin() + 1, anatomy.palate.end() - 1);
  return {in_stretches(std::move(teeth)), in_stretches(palate_at(anatomy, 0)), in_stretches(palate_at(anatomy, 0.6))};
}

/// The distance that nearest_on gives for the whole wall, to the last bit: only the stretches that can hold the nearest
/// point are searched, and one segment on each side, whose direction it may ask for.
double distance_from(const DiscWall& wall, Vec2 p) {
  constexpr double slack = 1e-6; // mm, far above rounding
  double least = std::numeric_limits<double>::infinity(); // the wall is at least this near
  for (const auto& s : wall.stretches) least = std::min(least, glm::distance(p, s.centre));
  std::size_t first = wall.points.size(), last = 0;
  for (const auto& s : wall.stretches) {
    if (glm::distance(p, s.centre) - s.radius > least + slack) continue;
    first = std::min(first, s.first);
    last = s.last;
  }
  first -= first > 0 ? 1 : 0;
  last += last + 2 < wall.points.size() ? 1 : 0;
  return nearest_on(std::span(wall.points).subspan(first, last - first + 2), p).distance;
}
} // namespace

const DiscWalls& disc_walls(const Anatomy& anatomy) {
  static std::mutex guard;
  static std::map<std::string, std::unique_ptr<const DiscWalls>> known; // no more than there are speakers
  const std::lock_guard lock(guard);
  auto& walls = known[anatomy.id];
  if (!walls) walls = std::make_unique<const DiscWalls>(build(anatomy));
  return *walls;
}

double tip_gap(const Anatomy& anatomy, const DiscWalls& walls, const Pose& pose) {
  return distance_from(walls.teeth_and_palate, {pose.tip_x, pose.tip_y}) - anatomy.tip_radius;
}

double body_gap(const Anatomy& anatomy, const DiscWalls& walls, const Pose& pose, bool velum_open) {
  const Vec2 centre{pose.body_x, pose.body_y};
  return distance_from(velum_open ? walls.palate_open : walls.palate_shut, centre) - body_radius(anatomy, centre);
}

} // namespace mw
