#include "anatomy/places.h"

#include "anatomy/velum.h"

#include <algorithm>
#include <cmath>
#include <memory>
#include <mutex>

namespace mw {
namespace {
// IPA places by normalised wall coordinate: 0..1 hard palate, 1..2 soft palate, 2..3 throat wall down to the glottis.
// Limits lie midway between the drawn constrictions of neighbouring places in the three speakers' target rows.
struct PlaceRow {
  double end;
  std::string_view name;
};
constexpr std::array places{
    PlaceRow{0.15, "dental"},   PlaceRow{0.275, "alveolar"}, PlaceRow{0.36, "postalveolar"}, PlaceRow{0.50, "retroflex"},
    PlaceRow{0.86, "palatal"},  PlaceRow{1.35, "velar"},     PlaceRow{2.0, "uvular"},        PlaceRow{2.55, "pharyngeal"},
    PlaceRow{2.88, "epiglottal"}, PlaceRow{1e9, "glottal"},
};

double nearest_u(const WallTable& table, Vec2 p) {
  std::size_t best = 0;
  double least = glm::distance(table.point[0], p);
  for (std::size_t i = 1; i < table.point.size(); ++i)
    if (const double distance = glm::distance(table.point[i], p); distance < least) best = i, least = distance;
  return table.u[best];
}

WallTable build_wall(const Anatomy& anatomy, double opening) {
  const VelumShape velum = velum_shape(anatomy, opening);
  // palate, under face, first half of the round end, and the throat from there down, as one line of 1 mm steps
  Polyline line = anatomy.palate;
  line.insert(line.end(), velum.under.begin() + 3, velum.under.end());
  line.insert(line.end(), velum.cap.begin(), velum.cap.begin() + 4);
  for (const Vec2 q : anatomy.back_wall)
    if (q.y < velum.cap[3].y - 1.0) line.push_back(q);
  WallTable table;
  table.point = resample(line, 1.0);
  table.u = arc_lengths(table.point);
  // normals of the smoothed direction, so that goals do not jump at the joints
  const std::size_t n = table.point.size();
  Polyline t(n);
  for (std::size_t i = 1; i + 1 < n; ++i) t[i] = 0.5 * (table.point[i + 1] - table.point[i - 1]);
  t[0] = table.point[1] - table.point[0];
  t[n - 1] = table.point[n - 1] - table.point[n - 2];
  smooth_line(t, 6);
  for (const Vec2 q : t) table.normal.push_back(Vec2(q.y, -q.x) / glm::length(q));
  double back = anatomy.back_wall.front().x;
  for (const Vec2 q : anatomy.back_wall) back = std::max(back, q.x);
  table.landmarks = {0.0, nearest_u(table, anatomy.palate.back()), nearest_u(table, velum.cap[3]),
                     nearest_u(table, {back, anatomy.glottis_y})};
  return table;
}

Vec2 at_u(const WallTable& table, const Polyline& values, double u) {
  return point_at(values, table.u, u);
}
} // namespace

const WallTable& wall_table(const Anatomy& anatomy, double velum) {
  static std::mutex guard;
  static std::map<std::pair<std::string, long>, std::unique_ptr<const WallTable>> known;
  const long step = std::lround(std::clamp(velum, 0.0, 1.0) * 100);
  const std::lock_guard lock(guard);
  auto& table = known[{anatomy.id, step}];
  if (!table) table = std::make_unique<const WallTable>(build_wall(anatomy, static_cast<double>(step) / 100));
  return *table;
}

Vec2 wall_point(const WallTable& table, double u) { return at_u(table, table.point, u); }

Vec2 wall_normal(const WallTable& table, double u) { return glm::normalize(at_u(table, table.normal, u)); }

Vec2 tip_goal(const Anatomy& anatomy, double u, double opening, double velum) {
  const WallTable& table = wall_table(anatomy, velum);
  return wall_point(table, u) + wall_normal(table, u) * (opening + anatomy.tip_radius);
}

Vec2 body_goal(const Anatomy& anatomy, double u, double opening, double velum) {
  const WallTable& table = wall_table(anatomy, velum);
  const Vec2 p = wall_point(table, u), n = wall_normal(table, u);
  // the radius depends on the centre: eight rounds settle it far below a micrometre
  Vec2 centre = p + n * (opening + anatomy.body_radius);
  for (int round = 0; round < 8; ++round) centre = p + n * (opening + body_radius(anatomy, centre));
  return centre;
}

double normalised_place(const WallTable& table, double u) {
  constexpr std::array<double, 4> marks{0, 1, 2, 3};
  return interpolate(table.landmarks, marks, u);
}

double place_of_normalised(const WallTable& table, double z) {
  constexpr std::array<double, 4> marks{0, 1, 2, 3};
  return interpolate(marks, table.landmarks, z);
}

WallSpot locate_on_wall(const WallTable& table, Vec2 p) {
  std::size_t best = 0;
  for (std::size_t i = 1; i < table.point.size(); ++i)
    if (glm::distance(table.point[i], p) < glm::distance(table.point[best], p)) best = i;
  const Vec2 d = p - table.point[best], n = table.normal[best];
  return {table.u[best], glm::dot(d, n), glm::dot(d, Vec2(-n.y, n.x))};
}

std::string_view place_name(const Anatomy&, const WallTable& table, double u) {
  const double z = normalised_place(table, u);
  return std::find_if(places.begin(), places.end(), [&](const PlaceRow& row) { return z < row.end; })->name;
}

} // namespace mw
