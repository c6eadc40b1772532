#include "acoustics/sections.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace mw {
namespace {
enum class Region { mouth, fan, throat };
struct Ray {
  Vec2 from, along;
  Region region;
};

constexpr int mouth_lines = 13, fan_lines = 17, throat_lines = 17;
double between(double a, double b, int i, int n) { return a + (b - a) * i / (n - 1); }

// Lines of the male grid (mm): x -3..35, a fan from grid_centre at 90..-2 degrees, y from 6 below the centre to the
// folds.
std::vector<Ray> grid_of(const Anatomy& anatomy, double glottis_y) {
  const Vec2 centre = anatomy.grid_centre;
  const double k = anatomy.jaw_x;
  std::vector<Ray> rays;
  rays.reserve(mouth_lines + fan_lines + throat_lines);
  for (int i = 0; i < mouth_lines; ++i)
    rays.push_back({{between(-3 * k, centre.x - 3 * k, i, mouth_lines), -60}, {0, 1}, Region::mouth});
  for (int i = 0; i < fan_lines; ++i) {
    const double angle = between(90, -2, i, fan_lines) * std::numbers::pi / 180;
    rays.push_back({centre, {std::cos(angle), std::sin(angle)}, Region::fan});
  }
  for (int i = 0; i < throat_lines; ++i)
    rays.push_back({{centre.x + 2, between(centre.y - 6 * k, glottis_y + 1, i, throat_lines)}, {1, 0}, Region::throat});
  return rays;
}

// Where lines meet a curve, as distances along the ray.
struct Hits {
  std::array<double, 64> at{};
  std::size_t count = 0;
  void add(double distance) {
    if (count < at.size()) at[count++] = distance;
  }
};

struct Crossing { // walks one ray along the points of a curve
  const Ray& ray;
  Hits& hits;
  double side = 0, along = 0;
  bool started = false;
  void visit(Vec2 p) {
    const Vec2 r = p - ray.from;
    const double s = ray.along.x * r.y - ray.along.y * r.x, l = glm::dot(ray.along, r);
    if (started && side * s <= 0 && side != s) hits.add(along + side / (side - s) * (l - along));
    side = s;
    along = l;
    started = true;
  }
};

void meet(const Ray& ray, Hits& hits, std::initializer_list<const Polyline*> pieces) {
  Crossing crossing{ray, hits};
  for (const Polyline* piece : pieces)
    for (const Vec2 p : *piece) crossing.visit(p);
}

// Tongue side and wall side of a line. In front (lips, teeth) the first wall counts; further back, a wall that the
// tongue has passed by more than 3 mm (the free end of the soft palate) does not.
std::optional<std::array<double, 2>> ends_of(const Hits& inner, Hits& outer, bool front) {
  if (outer.count == 0) return std::nullopt;
  const auto walls = std::span(outer.at).first(outer.count);
  std::ranges::sort(walls);
  const double limit = front ? walls.front() + 0.5 : walls.back();
  std::optional<double> in;
  for (const double a : std::span(inner.at).first(inner.count))
    if (a < limit && (!in || a > *in)) in = a;
  if (front) return std::array{in.value_or(walls.front()), walls.front()};
  const double foot = in.value_or(walls.front());
  const auto wall = std::ranges::find_if(walls, [&](double b) { return b > foot - 3.0; });
  return std::array{std::min(foot, *wall), *wall};
}
} // namespace

std::vector<CrossLine> cross_lines(const Anatomy& anatomy, const Outline& o) {
  std::vector<CrossLine> lines;
  lines.reserve(mouth_lines + fan_lines + throat_lines);
  for (const Ray& ray : grid_of(anatomy, o.glottis_y)) {
    Hits inner, outer;
    meet(ray, inner, {&o.dorsum, &o.tip_cap, &o.underside});
    for (const Polyline* piece :
         {&o.mouth_floor, &o.epiglottis_back, &o.epiglottis_cap, &o.larynx_front, &o.lower_incisor_line})
      meet(ray, inner, {piece});
    meet(ray, outer, {&anatomy.palate});
    meet(ray, outer, {&o.velum_under, &o.velum_cap});
    meet(ray, outer, {&anatomy.back_wall});
    meet(ray, outer, {&o.larynx_back});
    meet(ray, outer, {&anatomy.upper_incisor});
    if (ray.region == Region::mouth) {
      meet(ray, inner, {&o.lower_lip_line});
      meet(ray, outer, {&o.upper_lip_line});
    }
    const bool front = ray.region == Region::mouth && ray.from.x < 1.5 * anatomy.tongue_scale;
    if (const auto ends = ends_of(inner, outer, front))
      lines.push_back({ray.from + (*ends)[0] * ray.along, ray.from + (*ends)[1] * ray.along});
  }
  return lines;
}

Midline midline(const std::vector<CrossLine>& lines) {
  Midline mid;
  for (const CrossLine& line : lines) mid.point.push_back(0.5 * (line.inner + line.outer));
  smooth_line(mid.point, 3);
  const std::size_t n = lines.size();
  mid.width.resize(n);
  for (std::size_t i = 0; i < n; ++i) {
    const Vec2 across = lines[i].outer - lines[i].inner;
    const Vec2 along = mid.point[std::min(i + 1, n - 1)] - mid.point[i == 0 ? 0 : i - 1];
    const double length = glm::length(across);
    // a line that leans against the midline measures too much; never less than half
    const double lean = length > 1e-6 ? std::abs(cross(across / length, glm::normalize(along))) : 1.0;
    mid.width[i] = length * std::clamp(lean, 0.5, 1.0);
  }
  return mid;
}

} // namespace mw
