#include "acoustics/sections.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

namespace mw {
namespace {
enum class Region { mouth, fan, throat };
struct Ray {
  Vec2 from{}, along{};
  Region region = Region::mouth;
};

constexpr int mouth_lines = 13, fan_lines = 17, throat_lines = 17;
constexpr std::size_t line_count = mouth_lines + fan_lines + throat_lines;
double between(double a, double b, int i, int n) { return a + (b - a) * i / (n - 1); }

// Lines of the male grid (mm): x -3..35, a fan from grid_centre at 90..-2 degrees, y from 6 below the centre to the
// folds.
std::array<Ray, line_count> grid_of(const Anatomy& anatomy, double glottis_y) {
  const Vec2 centre = anatomy.grid_centre;
  const double k = anatomy.jaw_x;
  std::array<Ray, line_count> rays;
  std::size_t at = 0;
  for (int i = 0; i < mouth_lines; ++i)
    rays[at++] = {{between(-3 * k, centre.x - 3 * k, i, mouth_lines), -60}, {0, 1}, Region::mouth};
  for (int i = 0; i < fan_lines; ++i) {
    const double angle = between(90, -2, i, fan_lines) * std::numbers::pi / 180;
    rays[at++] = {centre, {std::cos(angle), std::sin(angle)}, Region::fan};
  }
  for (int i = 0; i < throat_lines; ++i)
    rays[at++] = {{centre.x + 2, between(centre.y - 6 * k, glottis_y + 1, i, throat_lines)}, {1, 0}, Region::throat};
  return rays;
}

// Walls on one ray, as distances along it. More than a few meet none: the rest are left out.
struct Walls {
  std::array<double, 32> at{};
  std::size_t count = 0;
  void add(double distance) {
    if (count < at.size()) at[count++] = distance;
  }
  [[nodiscard]] std::span<const double> all() const { return std::span(at).first(count); }
};

// All rays of a grid at once. A piece of a curve is set only against the few rays it can cross: the uprights and levels
// between its ends, and the rays of the fan between their directions.
class Grid {
public:
  Grid(const Anatomy& anatomy, double glottis_y)
      : rays_(grid_of(anatomy, glottis_y)), mouth_step_(rays_[1].from.x - rays_[0].from.x),
        throat_step_(rays_[first_throat + 1].from.y - rays_[first_throat].from.y) {}
  [[nodiscard]] std::span<const Ray> rays() const { return rays_; }

  // Calls hit(ray index, distance along it) wherever the pieces, laid end to end, cross a ray.
  template <typename Hit> void meet(std::initializer_list<const Polyline*> pieces, bool lips, Hit hit) const {
    std::optional<Place> before;
    for (const Polyline* piece : pieces)
      for (const Vec2 p : *piece) {
        const Place here = place_of(p, lips, before ? before->fan : 0);
        if (before) {
          meet_level(before->at, p, before->mouth, here.mouth, mouth_lines, 0, hit);
          if (!lips) {
            meet_fan(*before, here, hit);
            meet_level(before->at, p, before->throat, here.throat, throat_lines, first_throat, hit);
          }
        }
        before = here;
      }
  }

private:
  static constexpr std::size_t first_fan = mouth_lines, first_throat = mouth_lines + fan_lines;
  // Where a point lies among the rays: counted in uprights of the mouth and in levels of the throat; the first ray of the
  // fan below it, seen through the fan's centre if it lies behind that.
  struct Place {
    Vec2 at{};
    double mouth = 0, throat = 0;
    std::size_t fan = 0;
    bool behind = false;
  };

  [[nodiscard]] Place place_of(Vec2 p, bool lips, std::size_t near) const {
    Place place{.at = p, .mouth = (p.x - rays_[0].from.x) / mouth_step_};
    if (lips) return place;
    place.throat = (p.y - rays_[first_throat].from.y) / throat_step_;
    Vec2 r = p - rays_[first_fan].from;
    place.behind = r.x < 0;
    if (place.behind) r = -r;
    const auto above = [&](std::size_t k) { return cross(rays_[first_fan + k].along, r) > 0; };
    while (near > 0 && above(near - 1)) --near;
    while (near < fan_lines && !above(near)) ++near;
    place.fan = near;
    return place;
  }

  template <typename Hit> void try_ray(Vec2 p, Vec2 q, std::size_t i, Hit& hit) const {
    const Ray& ray = rays_[i];
    const Vec2 a = p - ray.from, b = q - ray.from;
    const double side = cross(ray.along, a), after = cross(ray.along, b);
    if (side * after > 0 || side == after) return;
    const double along = glm::dot(ray.along, a);
    hit(i, along + side / (side - after) * (glm::dot(ray.along, b) - along));
  }

  // Uprights of the mouth or levels of the throat, which stand at equal steps; a, b: the ends counted in them.
  template <typename Hit>
  void meet_level(Vec2 p, Vec2 q, double a, double b, int count, std::size_t first, Hit& hit) const {
    // a hair wider than the piece, so that rounding loses none
    const double low = std::max(std::min(a, b) - 1e-6, 0.0), high = std::min(std::max(a, b) + 1e-6, count - 1.0);
    if (low > high) return;
    int i = static_cast<int>(low);
    if (i < low) ++i;
    for (; i <= high; ++i) try_ray(p, q, first + static_cast<std::size_t>(i), hit);
  }

  template <typename Hit> void meet_fan(const Place& from, const Place& to, Hit& hit) const {
    std::size_t low = 0, high = fan_lines; // a piece across the centre's upright may meet any
    if (from.behind == to.behind) {
      low = std::min(from.fan, to.fan);
      high = std::max(from.fan, to.fan);
      if (low > 0) --low; // a point on a ray counts on both sides
    }
    for (std::size_t i = low; i < high; ++i) try_ray(from.at, to.at, first_fan + i, hit);
  }

  std::array<Ray, line_count> rays_;
  double mouth_step_ = 1, throat_step_ = 1;
};

// The highest crossing of the tongue's side that lies below the wall.
struct Inner {
  double limit = 0, best = 0;
  bool found = false;
  void add(double distance) {
    if (distance >= limit || (found && distance <= best)) return;
    best = distance;
    found = true;
  }
};

// Tongue side and wall side of a line. In front (lips, teeth) the first wall counts; further back, a wall that the
// tongue has passed by more than 3 mm (the free end of the soft palate) does not.
std::array<double, 2> ends_of(const Inner& inner, std::span<const double> walls, bool front) {
  const double foot = inner.found ? inner.best : walls.front();
  if (front) return {foot, walls.front()};
  const auto wall = std::ranges::find_if(walls, [&](double b) { return b > foot - 3.0; });
  return {std::min(foot, *wall), *wall};
}
} // namespace

void cross_lines_into(const Anatomy& anatomy, const Outline& o, std::vector<CrossLine>& lines) {
  const Grid grid(anatomy, o.glottis_y);
  std::array<Walls, line_count> outer;
  const auto wall = [&](std::size_t ray, double distance) { outer[ray].add(distance); };
  grid.meet({&anatomy.palate, &o.velum_under, &o.velum_cap}, false, wall); // one wall: no line slips through the joint
  for (const Polyline* piece : {&anatomy.back_wall, &o.larynx_back, &anatomy.upper_incisor})
    grid.meet({piece}, false, wall);
  grid.meet({&o.upper_lip_line}, true, wall);
  const auto is_front = [&](const Ray& ray) {
    return ray.region == Region::mouth && ray.from.x < 1.5 * anatomy.tongue_scale;
  };
  std::array<Inner, line_count> inner;
  for (std::size_t i = 0; i < line_count; ++i) {
    std::sort(outer[i].at.begin(), outer[i].at.begin() + static_cast<std::ptrdiff_t>(outer[i].count));
    if (const auto walls = outer[i].all(); !walls.empty())
      inner[i].limit = is_front(grid.rays()[i]) ? walls.front() + 0.5 : walls.back();
  }
  const auto tongue = [&](std::size_t ray, double distance) { inner[ray].add(distance); };
  grid.meet({&o.dorsum, &o.tip_cap, &o.underside}, false, tongue);
  for (const Polyline* piece :
       {&o.mouth_floor, &o.epiglottis_back, &o.epiglottis_cap, &o.larynx_front, &o.lower_incisor_line})
    grid.meet({piece}, false, tongue);
  grid.meet({&o.lower_lip_line}, true, tongue);
  lines.clear();
  for (std::size_t i = 0; i < line_count; ++i) {
    if (outer[i].count == 0) continue;
    const Ray& ray = grid.rays()[i];
    const auto ends = ends_of(inner[i], outer[i].all(), is_front(ray));
    lines.push_back({ray.from + ends[0] * ray.along, ray.from + ends[1] * ray.along});
  }
}

std::vector<CrossLine> cross_lines(const Anatomy& anatomy, const Outline& outline) {
  std::vector<CrossLine> lines;
  cross_lines_into(anatomy, outline, lines);
  return lines;
}

void midline_into(const std::vector<CrossLine>& lines, Midline& mid) {
  mid.point.clear();
  for (const CrossLine& line : lines) mid.point.push_back(0.5 * (line.inner + line.outer));
  const std::size_t n = lines.size();
  mid.width.assign(n, 0.0);
  if (n < 2) return;
  smooth_line(mid.point, 3);
  for (std::size_t i = 0; i < n; ++i) {
    const Vec2 across = lines[i].outer - lines[i].inner;
    const Vec2 along = mid.point[std::min(i + 1, n - 1)] - mid.point[i == 0 ? 0 : i - 1];
    const double length = glm::length(across);
    // a line that leans against the midline measures too much; never less than half
    const double lean = length > 1e-6 ? std::abs(cross(across / length, glm::normalize(along))) : 1.0;
    mid.width[i] = length * std::clamp(lean, 0.5, 1.0);
  }
}

Midline midline(const std::vector<CrossLine>& lines) {
  Midline mid;
  midline_into(lines, mid);
  return mid;
}

} // namespace mw
