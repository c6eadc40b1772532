#include "scene/placer.h"

#include "scene/signs.h"
#include "text/shaper.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

namespace mw {
namespace {

bool within(const Rect& box, double margin, Vec2 p) {
  return p.x > box.x - margin && p.x < box.right() + margin && p.y > box.y - margin && p.y < box.bottom() + margin;
}

Rect box_about(Vec2 centre, Vec2 size) { return {centre.x - size.x / 2, centre.y - size.y / 2, size.x, size.y}; }

void add_line(Polyline& points, Vec2 a, Vec2 b) {
  for (int i = 0; i <= 40; ++i) points.push_back(a + (b - a) * (i / 40.0));
}

Vec2 middle(const Polyline& line) {
  Vec2 sum{};
  for (const Vec2 p : line) sum += p;
  return line.empty() ? sum : sum / static_cast<double>(line.size());
}

Vec2 unit(Vec2 v) { return v / std::max(glm::length(v), 1e-9); }

} // namespace

std::vector<double Pose::*> values_of(Articulator a) {
  switch (a) {
    case Articulator::lips: return {&Pose::lip_opening, &Pose::lip_protrusion, &Pose::lip_rounding, &Pose::lip_tuck};
    case Articulator::tip: return {&Pose::tip_x, &Pose::tip_y, &Pose::tip_curl, &Pose::blade};
    case Articulator::body: return {&Pose::body_x, &Pose::body_y, &Pose::root};
    case Articulator::root: return {&Pose::root, &Pose::body_x};
    case Articulator::velum: return {&Pose::velum};
    case Articulator::jaw: return {&Pose::jaw_opening, &Pose::jaw_forward};
    case Articulator::larynx: return {&Pose::larynx};
    case Articulator::glottis: return {&Pose::glottis};
  }
  return {};
}

double PlacerField::cost(const Rect& box, double margin) const {
  double c = 0;
  for (const Vec2 p : points) c += within(box, margin, p) ? 1 : 0;
  for (const Rect& b : boxes)
    if (box.x - margin < b.right() && b.x < box.right() + margin && box.y - margin < b.bottom() && b.y < box.bottom() + margin) c += 40;
  if (stage.width > 0 && (box.x < stage.x || box.y < stage.y || box.right() > stage.right() || box.bottom() > stage.bottom())) c += 80;
  return c;
}

bool PlacerField::crosses_wall(Vec2 a, Vec2 b) const {
  for (std::size_t i = 0; i + 1 < roof.size(); ++i) {
    const Vec2 p = roof[i], q = roof[i + 1];
    if (glm::distance(p, q) > 60) continue; // the gap between roof and back wall is no wall
    const double a1 = cross(q - p, a - p), b1 = cross(q - p, b - p), p1 = cross(b - a, p - a), q1 = cross(b - a, q - a);
    if ((a1 > 0) != (b1 > 0) && (p1 > 0) != (q1 > 0)) return true;
  }
  return false;
}

PlacerField field_of(const MouthPicture& mouth, Rect stage, const std::vector<Rect>& keep) {
  PlacerField f;
  f.stage = stage;
  f.boxes = keep;
  const auto add = [&](const Polyline& mm) { for (const Vec2 p : mm) f.points.push_back(mouth.frame(p)); };
  add(mouth.band_outer);
  add(mouth.band_inner);
  add(mouth.section.upper_tooth);
  add(mouth.section.lower_tooth);
  for (const Vec2 p : mouth.section.roof_line) f.roof.push_back(mouth.frame(p));
  for (const Vec2 p : mouth.section.velum_line) f.roof.push_back(mouth.frame(p));
  for (const Vec2 p : mouth.section.back_wall)
    if (p.y < 14 * mouth.section.scale) f.roof.push_back(mouth.frame(p));
  return f;
}

PlacedTag place_tag(const PlacerField& field, Vec2 head, Vec2 direction, Vec2 size, double u) {
  const double start = std::atan2(direction.y, direction.x);
  PlacedTag best;
  best.cost = 1e300;
  for (const double ring : {7.0, 16.0, 27.0})
    for (const int turn : {0, 1, -1, 2, -2, 3, -3, 4}) {
      const double a = start + turn * std::numbers::pi / 4;
      const Vec2 e{std::cos(a), std::sin(a)};
      const double reach = std::min(size.x / 2 / std::max(std::abs(e.x), 1e-6), size.y / 2 / std::max(std::abs(e.y), 1e-6));
      const Vec2 centre = head + e * (ring * u + reach);
      const Rect box = box_about(centre, size);
      double cost = field.cost(box, 2 * u) + (field.crosses_wall(head - e * (3 * u), centre) ? 25 : 0);
      if (field.crosses_wall(centre, centre - Vec2{size.x / 2, 0}) || field.crosses_wall(centre, centre + Vec2{size.x / 2, 0})) cost += 4;
      if (cost < best.cost) best = {centre, box, cost};
      if (cost == 0) return best;
    }
  return best;
}

std::vector<TugArrow> place_tug(const MouthPicture& mouth, PlacerField field, const std::array<Vec2, 2>& pulls, const std::array<std::string, 2>& labels, double u, double tag_size) {
  std::vector<TugArrow> out;
  const std::size_t n = mouth.band_outer.size();
  if (n < 4) return out;
  const auto start_at = [&](double share) {
    const auto i = static_cast<std::size_t>(share * static_cast<double>(n - 1));
    return 0.5 * (mouth.band_outer[i] + mouth.band_inner[i]);
  };
  // the sound that wants the part further back starts in the back one; the dorsum runs from the root forward
  const bool first_front = pulls[0].x < pulls[1].x;
  const bool runs_forward = mouth.band_outer.front().x > mouth.band_outer.back().x;
  const double first_share = first_front == runs_forward ? 0.70 : 0.30;
  PlacerField teeth = field; // an arrow's head covers no tooth, and leaves neither mouth nor stage
  teeth.boxes.clear();
  teeth.points.clear();
  for (const Polyline* t : {&mouth.section.upper_tooth, &mouth.section.lower_tooth})
    for (const Vec2 p : *t) teeth.points.push_back(mouth.frame(p));
  for (std::size_t i = 0; i < 2; ++i) {
    const Vec2 from_mm = start_at(i == 0 ? first_share : 1 - first_share), d = unit(pulls[i]);
    Vec2 to{};
    for (double length = 16; length >= 9; length -= 1) { // mm, visual design 7.1.3
      to = mouth.frame(from_mm + d * (length * mouth.section.scale));
      const double r = 6.5 * u;
      const Vec2 ahead = unit(to - mouth.frame(from_mm)) * (2 * u);
      if (teeth.cost({to.x - r, to.y - r, 2 * r, 2 * r}, 0) == 0 && !teeth.crosses_wall(mouth.frame(from_mm), to + ahead)) break;
    }
    out.push_back({mouth.frame(from_mm), to, {}, labels[i]});
    add_line(field.points, out.back().from, to);
  }
  for (TugArrow& arrow : out) {
    const double width = text_width(arrow.label, tag_size * u, true);
    const Vec2 size{std::max(width + 14 * u * tag_size / 19, 1.3 * tag_size * u), 1.37 * tag_size * u};
    arrow.tag = place_tag(field, arrow.to, unit(arrow.to - arrow.from), size, u);
    field.boxes.push_back(arrow.tag.box);
  }
  // no room at the arrows: both tags stand at the stage's edge with leaders
  const double area = out[0].tag.box.width * out[0].tag.box.height;
  if (std::any_of(out.begin(), out.end(), [&](const TugArrow& a) { return a.tag.cost > std::max(40.0, 0.15 * area); }) && field.stage.width > 0) {
    double y = field.stage.y + field.stage.height * 0.42;
    for (TugArrow& arrow : out) {
      const Vec2 size{arrow.tag.box.width, arrow.tag.box.height};
      arrow.tag.centre = {field.stage.x + 6 * u + size.x / 2, y};
      arrow.tag.box = box_about(arrow.tag.centre, size);
      arrow.tag.cost = -1; // marks a leader
      y += size.y + 8 * u;
    }
  }
  return out;
}

std::vector<Mark> draw_tug(const std::vector<TugArrow>& arrows, const Theme& theme, double u, double tag_size) {
  Canvas canvas;
  const bool print = theme.name == "print";
  const Colour casing = print ? from_hex("#FFFFFF") : theme.dark ? theme.clash3 : theme.clash2, ink = print ? from_hex("#000000") : from_hex("#1B1206");
  for (const TugArrow& a : arrows) canvas.arrow({"pull", a.label}, a.from, a.to, {ink, 3 * u, 13 * u, casing, 2.6 * u});
  for (const TugArrow& a : arrows) {
    if (a.tag.cost < 0) {
      canvas.line({"leader", a.label}, a.tag.centre, a.to, theme.halo, 3.2 * u);
      canvas.line({"leader", a.label}, a.tag.centre, a.to, theme.ink, 1.1 * u);
    }
    canvas.box({"tag", a.label}, a.tag.box, 0.37 * tag_size * u, theme.raised, print ? ink : clash_edge(theme), (print ? 1.0 : 1.8) * u);
    canvas.text_middle({"tag", a.label}, a.tag.centre, a.label, {tag_size * u, theme.ink, true, Anchor::middle});
  }
  return std::move(canvas.marks);
}

std::array<Vec2, 2> pulls_of(Tracer& tracer, const TargetTable& targets, const Pose& pose, Articulator articulator, const Sound& a, const Sound& b) {
  const auto place = [&](const Pose& p) { return middle(surface_of(tracer.trace(p), articulator)); };
  const Vec2 now = place(pose);
  std::array<Vec2, 2> shift{};
  const std::array<const Sound*, 2> sounds{&a, &b};
  for (std::size_t i = 0; i < 2; ++i) {
    const auto goal = pose_of(tracer.anatomy(), targets, *sounds[i]);
    if (!goal) continue;
    Pose wanted = pose;
    for (const auto value : values_of(articulator)) wanted.*value = *goal.*value;
    shift[i] = place(wanted) - now;
  }
  Vec2 apart = shift[0] - shift[1];
  if (glm::length(apart) < 0.3) apart = {-1, 0}; // alike: drawn a little apart, front and back
  return {shift[0] + 0.35 * apart, shift[1] - 0.35 * apart};
}

std::vector<double> spread_apart(std::vector<double> heights, double gap) {
  std::vector<std::size_t> order(heights.size());
  std::iota(order.begin(), order.end(), 0u);
  std::stable_sort(order.begin(), order.end(), [&](std::size_t i, std::size_t j) { return heights[i] < heights[j]; });
  for (int round = 0; round < 200; ++round) {
    bool moved = false;
    for (std::size_t i = 0; i + 1 < order.size(); ++i) {
      double &low = heights[order[i]], &high = heights[order[i + 1]];
      const double push = (gap - (high - low)) / 2;
      if (push > 1e-6) low -= push, high += push, moved = true;
    }
    if (!moved) break;
  }
  return heights;
}

} // namespace mw
