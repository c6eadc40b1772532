#include "scene/labels.h"

#include "scene/placer.h"

#include <algorithm>
#include <cmath>

namespace mw {
namespace {

Vec2 mean(const Polyline& line) {
  Vec2 sum{};
  for (const Vec2 p : line) sum += p;
  return line.empty() ? sum : sum / static_cast<double>(line.size());
}
Vec2 share_of(const Polyline& line, double f) { return line[static_cast<std::size_t>(f * static_cast<double>(line.size() - 1))]; }
Vec2 nearest_x(const Polyline& line, double x) {
  return *std::min_element(line.begin(), line.end(), [x](Vec2 a, Vec2 b) { return std::abs(a.x - x) < std::abs(b.x - x); });
}
Vec2 nearest_y(const Polyline& line, double y) {
  return *std::min_element(line.begin(), line.end(), [y](Vec2 a, Vec2 b) { return std::abs(a.y - y) < std::abs(b.y - y); });
}

} // namespace

std::string_view to_text(Part part) {
  switch (part) {
    case Part::upper_lip: return "upper lip";
    case Part::lower_lip: return "lower lip";
    case Part::tip: return "tip of the tongue";
    case Part::body: return "back of the tongue";
    case Part::root: return "root of the tongue";
    case Part::soft_palate: return "soft palate";
    case Part::epiglottis: return "epiglottis";
    case Part::folds: return "vocal folds";
    case Part::throat: return "throat";
    case Part::jaw: return "jaw";
    case Part::lower_teeth: return "lower teeth";
    case Part::upper_teeth: return "upper teeth";
    case Part::ridge: return "alveolar ridge";
    case Part::hard_palate: return "hard palate";
    case Part::nose: return "nose";
  }
  return "";
}

Vec2 point_of(const Outline& o, const Section& s, const Anatomy& anatomy, Part part) {
  const double k = s.scale;
  const HeadWarp warp = head_warp(anatomy);
  switch (part) {
    case Part::upper_lip: return share_of(o.upper_lip_line, 0.45) + Vec2{0.6, 1.7} * k;
    case Part::lower_lip: return share_of(o.lower_lip_line, 0.44) + Vec2{1.0, -1.7} * k;
    case Part::tip: return mean(o.tip_cap) + Vec2{2.2, -0.6} * k;
    case Part::body: return share_of(o.dorsum, 0.56) + Vec2{0, -6} * k;
    case Part::root: return share_of(o.dorsum, 0.22) + Vec2{-5, 0} * k;
    case Part::soft_palate: return mean(s.velum);
    case Part::epiglottis: return mean(o.epiglottis_cap) + Vec2{0, -1.5} * k;
    case Part::folds: return nearest_y(o.larynx_front, o.glottis_y) + Vec2{1, 0} * k;
    case Part::throat: return nearest_y(anatomy.back_wall, -14 * k) + Vec2{-4, 0} * k;
    case Part::jaw: return mean(o.jaw);
    case Part::lower_teeth: return mean(Polyline{o.lower_incisor.begin(), o.lower_incisor.begin() + static_cast<std::ptrdiff_t>(o.lower_incisor.size() / 4)});
    case Part::upper_teeth: return Vec2{-1, 4} * k;
    case Part::ridge: return nearest_x(anatomy.palate, warp(12.6, 0).x) + Vec2{0.2, 0.9} * k;
    case Part::hard_palate: return nearest_x(anatomy.palate, warp(33, 0).x) + Vec2{0, 1.6} * k;
    case Part::nose: return warp(16, 49);
  }
  return {};
}

std::pair<std::vector<Part>, std::vector<Part>> usual_labels(bool few) {
  if (few) return {{Part::upper_lip, Part::tip, Part::jaw}, {Part::soft_palate, Part::body, Part::root}};
  return {{Part::ridge, Part::upper_lip, Part::upper_teeth, Part::tip, Part::lower_lip, Part::jaw}, {Part::nose, Part::hard_palate, Part::soft_palate, Part::body, Part::root, Part::epiglottis, Part::folds}};
}

std::vector<Mark> draw_labels(const MouthPicture& mouth, const Outline& outline, const Anatomy& anatomy, const Theme& theme, const std::vector<Part>& left, const std::vector<Part>& right,
                              double left_x, double right_x, double size, double u) {
  Canvas canvas;
  for (const bool at_left : {true, false}) {
    const auto& parts = at_left ? left : right;
    std::vector<Vec2> points;
    std::vector<double> heights;
    for (const Part part : parts) {
      points.push_back(mouth.frame(point_of(outline, mouth.section, anatomy, part)));
      heights.push_back(points.back().y);
    }
    heights = spread_apart(heights, 1.6 * size); // visual design: 23 u apart at 14.5 u
    for (std::size_t i = 0; i < parts.size(); ++i) {
      const double x = at_left ? left_x : right_x;
      const Vec2 end{x + (at_left ? 5 : -5) * u, heights[i]};
      const MarkId id{"label", std::string{to_text(parts[i])}};
      canvas.line(id, end, points[i], with_alpha(theme.halo, 0.8), 3.2 * u);
      canvas.line(id, end, points[i], theme.ink, 1.1 * u);
      canvas.circle(id, points[i], 2.4 * u, theme.ink, theme.halo, u);
      canvas.text_middle(id, {x, heights[i]}, to_text(parts[i]), {size, theme.ink, false, at_left ? Anchor::end : Anchor::start, 3.5 * u, theme.halo});
    }
  }
  return std::move(canvas.marks);
}

} // namespace mw
