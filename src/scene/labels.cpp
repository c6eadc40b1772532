#include "scene/labels.h"

#include "scene/placer.h"

#include <algorithm>
#include <numeric>
#include <cmath>
#include <utility>

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
    case Part::tip: return "tip";
    case Part::blade: return "blade";
    case Part::body: return "back";
    case Part::root: return "root";
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

// Terms as phonetics and anatomy use them (common practice).
std::string_view to_term(Part part) {
  switch (part) {
    case Part::tip: return "apex";
    case Part::blade: return "lamina";
    case Part::body: return "dorsum";
    case Part::root: return "radix";
    case Part::soft_palate: return "velum";
    case Part::throat: return "pharynx";
    case Part::jaw: return "mandible";
    case Part::lower_teeth:
    case Part::upper_teeth: return "incisors";
    case Part::nose: return "nasal cavity";
    case Part::upper_lip:
    case Part::lower_lip:
    case Part::epiglottis:
    case Part::folds:
    case Part::hard_palate:
    case Part::ridge: return "";
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
    case Part::blade: return share_of(o.dorsum, 0.86) + Vec2{0.4, -1.8} * k;
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

std::pair<std::vector<Part>, std::vector<Part>> usual_labels(Labelling labelling) {
  if (labelling == Labelling::none) return {};
  if (labelling == Labelling::three) return {{Part::tip}, {Part::soft_palate, Part::body}};
  if (labelling == Labelling::few) return {{Part::upper_lip, Part::tip, Part::jaw}, {Part::soft_palate, Part::body, Part::root}};
  return {{Part::ridge, Part::upper_lip, Part::upper_teeth, Part::blade, Part::tip, Part::lower_lip, Part::jaw}, {Part::nose, Part::hard_palate, Part::soft_palate, Part::body, Part::root, Part::epiglottis, Part::folds}};
}

namespace {

constexpr double term_share = 0.94, term_step = 1.12; // the term's size, and its line, against the word's

/// Heights of the middles of labels, far enough apart for two lines each, between top and bottom: who stands too low or too
/// high goes to the edge and pushes no more of the others than it must.
std::vector<double> heights_of(const std::vector<Vec2>& points, double top, double bottom, double size) {
  std::vector<double> heights;
  for (const Vec2 p : points) heights.push_back(p.y);
  const double gap = 2.55 * size;
  heights = spread_apart(heights, gap);
  std::vector<std::size_t> order(heights.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return heights[a] < heights[b]; });
  double limit = bottom - 1.2 * size;
  for (auto i = order.rbegin(); i != order.rend(); ++i) limit = (heights[*i] = std::min(heights[*i], limit)) - gap;
  limit = top + 1.2 * size;
  for (const std::size_t i : order) limit = (heights[i] = std::max(heights[i], limit)) + gap;
  return heights;
}

bool do_cross(Vec2 a, Vec2 b, Vec2 c, Vec2 d) {
  const auto side = [](Vec2 p, Vec2 q, Vec2 r) { return (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x); };
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

/// Two leaders that cross change their labels' places; each change makes them shorter together, so it ends.
void part_leaders(std::vector<double>& heights, const std::vector<Vec2>& points, double x) {
  for (bool again = true; again;) {
    again = false;
    for (std::size_t i = 0; i < points.size(); ++i)
      for (std::size_t j = 0; j < i; ++j)
        if (do_cross({x, heights[i]}, points[i], {x, heights[j]}, points[j])) std::swap(heights[i], heights[j]), again = true;
  }
}

void draw_label(Canvas& canvas, const Theme& theme, Part part, Vec2 point, Vec2 at, bool at_left, double size, double u) {
  const Vec2 end = at + Vec2{(at_left ? 5 : -5) * u, 0};
  const MarkId id{"label", std::string{to_text(part)}};
  canvas.line(id, end, point, with_alpha(theme.halo, 0.8), 3.2 * u);
  canvas.line(id, end, point, theme.ink, 1.1 * u);
  canvas.circle(id, point, 2.4 * u, theme.ink, theme.halo, u);
  const Anchor anchor = at_left ? Anchor::end : Anchor::start;
  const double half = to_term(part).empty() ? 0 : term_step * size / 2;
  canvas.text_middle(id, at - Vec2{0, half}, to_text(part), {size, theme.ink, false, anchor, 3.5 * u, theme.halo});
  if (half > 0) canvas.text_middle({"label-term", std::string{to_term(part)}}, at + Vec2{0, half}, to_term(part), {term_share * size, theme.quiet, false, anchor, 3.5 * u, theme.halo});
}

} // namespace

std::vector<Mark> draw_labels(const MouthPicture& mouth, const Outline& outline, const Anatomy& anatomy, const Theme& theme, const std::vector<Part>& left, const std::vector<Part>& right,
                              const LabelColumns& columns, double size, double u) {
  Canvas canvas;
  for (const bool at_left : {true, false}) {
    const auto& parts = at_left ? left : right;
    std::vector<Vec2> points;
    for (const Part part : parts) points.push_back(mouth.frame(point_of(outline, mouth.section, anatomy, part)));
    const double x = at_left ? columns.left_x : columns.right_x;
    auto heights = heights_of(points, columns.top, at_left ? columns.left_bottom : columns.right_bottom, size);
    part_leaders(heights, points, x + (at_left ? 5 : -5) * u);
    for (std::size_t i = 0; i < parts.size(); ++i) draw_label(canvas, theme, parts[i], points[i], {x, heights[i]}, at_left, size, u);
  }
  return std::move(canvas.marks);
}

} // namespace mw
