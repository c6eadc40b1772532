#include "acoustics/sections.h"
#include "acoustics/side_ways.h"
#include "acoustics/tube.h"
#include "tract/sides.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace mw {
namespace {
// Area = alpha d^beta (cm, cm2), d the width on the midline; by path fraction from the lips. One table for all sounds,
// halfway between a smooth rule and the regression on Story, Titze & Hoffman 1996 and Fant 1960 (tract-model.md 9).
constexpr std::array path{0.0, 0.06, 0.14, 0.28, 0.42, 0.52, 0.64, 0.78, 0.88, 0.94, 1.0};
constexpr std::array alphas{2.5, 2.1, 2.35, 2.15, 1.85, 1.58, 1.22, 1.26, 0.72, 0.34, 0.48};
constexpr std::array betas{1.2, 1.1, 1.25, 1.45, 1.28, 1.30, 1.58, 1.25, 1.25, 1.03, 1.0};
// Where the same regions lie in the adult male, whose tract the table's path is.
constexpr std::array male_shares{0.0, 0.2902, 0.4504, 0.6043, 0.8349, 1.0};
constexpr double narrowest_cm = 1e-3;
constexpr int lip_sections = 4;
constexpr double under_tip_width_cm = 1.8; // mean width of the space under the tip

// A short throat is not the back of a long mouth: the path runs through each region at the speaker's own proportions.
double male_fraction(const Anatomy& anatomy, double fraction) {
  const auto& own = anatomy.path_shares;
  const std::array shares{0.0, own[0], own[1], own[2], own[3], 1.0};
  return interpolate(shares, male_shares, fraction);
}

// Alpha holds the width across the mouth: it scales with the speaker's width to the power that keeps its unit.
double area_of(double fraction, double width_mm, double speaker_width) {
  const double beta = interpolate(path, betas, fraction);
  const double alpha = interpolate(path, alphas, fraction) * std::pow(speaker_width, 2 - beta);
  return alpha * std::pow(std::max(width_mm / 10, narrowest_cm), beta);
}

// Opening between the lips: an ellipse (cm2).
double lip_area(const Anatomy& anatomy, const Pose& pose) {
  return std::numbers::pi / 4 * lip_width(anatomy, pose) * std::max(pose.lip_opening, 0.0) / 100;
}

// The space under an overhanging tip, behind its foremost point.
struct UnderTip {
  double area_cm2 = 0, depth_cm = 0, mouth_x = 0;
};
UnderTip under_tip(const Outline& o) {
  const auto foremost = std::ranges::min_element(o.tip_cap, {}, &Vec2::x);
  UnderTip space{.mouth_x = foremost->x};
  Polyline ring(foremost, o.tip_cap.end());
  ring.insert(ring.end(), o.underside.begin(), o.underside.end());
  const double innermost = std::ranges::max_element(ring, {}, &Vec2::x)->x;
  // back along the floor to below the mouth of the space: lower teeth (lingual face) and floor
  std::vector<double> xs, ys;
  for (auto i = static_cast<std::ptrdiff_t>(o.lower_incisor_line.size()) / 2 - 1; i >= 0; --i) {
    xs.push_back(o.lower_incisor_line[static_cast<std::size_t>(i)].x);
    ys.push_back(o.lower_incisor_line[static_cast<std::size_t>(i)].y);
  }
  for (std::size_t i = 1; i < o.mouth_floor.size(); ++i) {
    xs.push_back(o.mouth_floor[i].x);
    ys.push_back(o.mouth_floor[i].y);
  }
  const double top = ring.front().y;
  for (std::size_t i = o.mouth_floor.size(); i-- > 0;)
    if (o.mouth_floor[i].x < o.frenulum.x && o.mouth_floor[i].x > space.mouth_x) ring.push_back(o.mouth_floor[i]);
  ring.push_back({space.mouth_x, std::min(interpolate(xs, ys, space.mouth_x), top)});
  space.area_cm2 = std::abs(signed_area(ring)) / 100;
  space.depth_cm = (innermost - space.mouth_x) / 10;
  return space;
}

// Smallest distance between the tongue near a point and the upper wall, mm.
double wall_gap(const Outline& outline, Vec2 near, double reach) {
  double gap = reach;
  for (const Polyline* piece : {&outline.dorsum, &outline.tip_cap})
    for (const Vec2 p : *piece) {
      if (glm::distance(p, near) > reach) continue;
      const Nearest wall = nearest_on(outline.upper_wall, p);
      if (!wall.beyond_end) gap = std::min(gap, std::max(wall.distance, 0.0));
    }
  return gap;
}

// A contact may fall between two lines of the grid: the narrow section it lies in is shut. It is looked for at the
// section's middle and on the narrower line itself, which a raised tip may have left far from the smoothed midline.
void shut_contacts(AreaFunction& tube, const Outline& outline, const std::vector<CrossLine>& lines, const Midline& mid) {
  constexpr double narrow = 3.0, reach = 4.0, touching = 0.05; // mm
  for (std::size_t i = 0; i + 1 < mid.point.size(); ++i) {
    const CrossLine& line = lines[mid.width[i] < mid.width[i + 1] ? i : i + 1];
    if (std::min(mid.width[i], mid.width[i + 1]) < narrow &&
        (wall_gap(outline, 0.5 * (mid.point[i] + mid.point[i + 1]), reach) <= touching ||
         wall_gap(outline, 0.5 * (line.inner + line.outer), reach) <= touching))
      tube.sections[mid.point.size() - 2 - i].area_cm2 = closed_area_cm2;
  }
}

void add_side_branch(AreaFunction& tube, const Anatomy& anatomy, const Outline& outline, const Polyline& mid) {
  const UnderTip space = under_tip(outline);
  tube.side_volume_cm3 = std::max(under_tip_width_cm * anatomy.width * space.area_cm2, 1e-3);
  tube.side_length_cm = std::max(space.depth_cm, 0.2);
  // it joins where the midline passes the foremost point of the tip; the midline runs from the lips
  const auto joint = std::ranges::find_if(mid, [&](Vec2 p) { return p.x >= space.mouth_x; });
  const auto from_lips = joint == mid.end() ? 0 : joint - mid.begin();
  const auto last = static_cast<std::ptrdiff_t>(mid.size()) - 2; // sections between points of the midline
  tube.side_at_section = static_cast<std::size_t>(std::clamp<std::ptrdiff_t>(last - from_lips, 0, last));
}
} // namespace

AreaFunction area_function(const Anatomy& anatomy, const Outline& outline, const Pose& pose) {
  AreaFunction tube;
  const std::vector<CrossLine> lines = cross_lines(anatomy, outline);
  const Midline mid = midline(lines);
  const std::size_t n = mid.point.size();
  if (n < 2) return tube;
  const double lip_length = std::max(mid.point.front().x - outline.lip_edge_x, 2.0); // mm
  const std::vector<double> arcs = arc_lengths(mid.point);
  const double whole = arcs.back() + lip_length;
  std::vector<double> area(n);
  for (std::size_t i = 0; i < n; ++i) {
    const double fraction = male_fraction(anatomy, (arcs[i] + lip_length) / whole);
    area[i] = area_of(fraction, mid.width[i], anatomy.width);
  }
  const auto add = [&](double length_mm, double area_cm2) {
    tube.sections.push_back({tube.tract_length_mm, length_mm, std::max(area_cm2, closed_area_cm2)});
    tube.tract_length_mm += length_mm;
  };
  tube.sections.reserve(n + lip_sections);
  for (std::size_t i = n - 1; i-- > 0;) add(arcs[i + 1] - arcs[i], 0.5 * (area[i] + area[i + 1]));
  for (int i = 0; i < lip_sections; ++i) add(lip_length / lip_sections, lip_area(anatomy, pose));
  shut_contacts(tube, outline, lines, mid);
  lay_side_ways(tube, anatomy, outline, pose, mid);
  add_side_branch(tube, anatomy, outline, mid.point);
  return tube;
}

} // namespace mw
