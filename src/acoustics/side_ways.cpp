#include "acoustics/side_ways.h"

#include "tract/sides.h"

#include <algorithm>
#include <array>
#include <optional>

namespace mw {
namespace {
// A groove of 1 mm and sides down by a tenth count in full; less is on its way there.
constexpr double full_groove = 1.0, full_sides = 0.1;
constexpr double channel_mm = 6.0; // a grooved channel is narrower than this on the midline
constexpr double shut_mm = 3.0;    // a lateral is shut or nearly so on the midline
constexpr double slit_mm = 2.3;    // wider than any friction at the teeth
// The slit under the upper teeth is as wide as the arch of teeth 4 mm behind their edge (adult male 14.6 mm, the two
// middle incisors; tract-model.md section 12, from memory of dental casts).
constexpr double slit_width_mm = 14.6;

// Smallest and largest free area across the tongue between two upright cuts.
std::optional<std::array<double, 2>> channel_between(const Anatomy& anatomy, const Outline& outline, const Pose& pose,
                                                     double from, double to) {
  std::optional<std::array<double, 2>> found;
  constexpr int cuts = 4;
  for (int i = 0; i <= cuts; ++i) {
    const auto area = channel_area_cm2(anatomy, outline, pose, from + (to - from) * i / cuts);
    if (!area) continue;
    if (!found) found = std::array{*area, *area};
    (*found)[0] = std::min((*found)[0], *area);
    (*found)[1] = std::max((*found)[1], *area);
  }
  return found;
}

// Opening (mm) between the edge of the upper teeth and a tongue that lies under it.
std::optional<double> slit_under_teeth(const Anatomy& anatomy, const Outline& outline) {
  const Vec2 edge = anatomy.palate.front();
  double nearest = slit_mm;
  for (const Polyline* piece : {&outline.dorsum, &outline.tip_cap})
    for (const Vec2 p : *piece) nearest = std::min(nearest, glm::distance(p, edge));
  const bool under = std::ranges::any_of(outline.tip_cap, [&](Vec2 p) { return p.x < edge.x; });
  if (!under || nearest >= slit_mm) return std::nullopt;
  return nearest;
}
} // namespace

void lay_side_ways(AreaFunction& tube, const Anatomy& anatomy, const Outline& outline, const Pose& pose, const Midline& mid) {
  const double groove = std::clamp(pose.groove / full_groove, 0.0, 1.0);
  const double sides = std::clamp(-pose.sides / full_sides, 0.0, 1.0);
  const auto slit = slit_under_teeth(anatomy, outline);
  if (groove <= 0 && sides <= 0 && !slit) return;
  const double edge = anatomy.palate.front().x;
  for (std::size_t i = 0; i + 1 < mid.point.size(); ++i) { // from the lips; the tube runs from the glottis
    double& area = tube.sections[mid.point.size() - 2 - i].area_cm2;
    const double from = mid.point[i].x, to = mid.point[i + 1].x, width = std::min(mid.width[i], mid.width[i + 1]);
    if (slit && from < edge && to >= edge) area = std::min(area, *slit * slit_width_mm * anatomy.width / 100);
    if (width > channel_mm || to <= from) continue;
    const auto way = channel_between(anatomy, outline, pose, from, to);
    if (!way) continue;
    if (groove > 0 && (*way)[0] > 0) area += groove * (std::min(area, (*way)[0]) - area);
    if (sides > 0 && width < shut_mm) area = std::max(area, sides * (*way)[1]); // beside the end of the tip all is open
  }
}

} // namespace mw
