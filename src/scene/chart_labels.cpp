#include "scene/chart_labels.h"

#include "text/shaper.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace mw {
namespace {

// Costs in units of distance (u): a label on a label is never worth it, one outside hardly ever; a point hidden is worse
// than an arrow touched, an arrow touched worse than a longer leader.
constexpr double on_label = 4000, outside = 400, on_box = 90, on_line = 3, on_rule = 0.25, leader_on_label = 150, leader_on_box = 40, leader_on_line = 14, leader_along_rule = 90;
constexpr std::array rings{9.0, 15.0, 23.0, 33.0, 45.0, 60.0, 78.0}; // u, from the point to the label's edge
constexpr int directions = 16, sweeps = 6;
constexpr std::array slides{0.0, -0.9, 0.9}; // of the half width: labels above and below may begin or end at their point
constexpr double led_from = 14; // u: nearer labels need no leader

double shared(const Rect& a, const Rect& b) {
  const double w = std::min(a.right(), b.right()) - std::max(a.x, b.x), h = std::min(a.bottom(), b.bottom()) - std::max(a.y, b.y);
  return w > 0 && h > 0 ? w * h : 0;
}

Vec2 nearest(const Rect& box, Vec2 p) { return {std::clamp(p.x, box.x, box.right()), std::clamp(p.y, box.y, box.bottom())}; }

double side(Vec2 a, Vec2 b, Vec2 p) { return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x); }
bool cross(Vec2 a, Vec2 b, Vec2 c, Vec2 d) { return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0; }

/// A line that lies on another one cannot be seen.
double away_from(Vec2 a, Vec2 b, Vec2 p) {
  const Vec2 d = b - a;
  const double f = std::clamp(glm::dot(p - a, d) / std::max(glm::dot(d, d), 1e-12), 0.0, 1.0);
  return glm::length(p - (a + d * f));
}
bool runs_along(Vec2 a, Vec2 b, Vec2 c, Vec2 d, double within) { return away_from(c, d, a) < within && away_from(c, d, b) < within; }

/// The label whose edge nearest to the point lies `ring` away in this direction, slid along.
PlacedLabel at_place(const LabelWish& wish, Vec2 size, Vec2 direction, double ring, double slide, double u) {
  const Vec2 half = size * 0.5;
  // from the point to the middle: past the half size in this direction, then the ring
  const double reach = std::min(std::abs(direction.x) > 1e-9 ? half.x / std::abs(direction.x) : 1e300, std::abs(direction.y) > 1e-9 ? half.y / std::abs(direction.y) : 1e300);
  const Vec2 middle = wish.point + direction * (reach + ring * u) + Vec2{slide * half.x, 0};
  PlacedLabel out{{middle.x - half.x, middle.y - half.y, size.x, size.y}, middle.x >= wish.point.x, false, wish.point, {}};
  out.to = nearest(out.box, wish.point);
  const double away = glm::length(out.to - wish.point);
  out.led = away > led_from * u;
  if (out.led) out.from = wish.point + (out.to - wish.point) * (7 * u / away);
  return out;
}

struct Placing {
  const std::vector<LabelWish>& wishes;
  const LabelField& field;
  double u;
  std::vector<Vec2> sizes{};
  std::vector<PlacedLabel> placed{};
  std::vector<bool> stands{};

  [[nodiscard]] double cost_of_box(const Rect& box) const {
    const Rect wide = inset(box, -1.5 * u);
    const double off = std::max({field.room.x - box.x, box.right() - field.room.right(), field.room.y - box.y, box.bottom() - field.room.bottom(), 0.0});
    double cost = off > 0 ? outside + off / u : 0;
    for (const Rect& r : field.boxes) cost += shared(wide, r) > 0 ? on_box : 0;
    for (const auto& [a, b] : field.lines) cost += on_line * length_inside(wide, a, b) / u;
    for (const auto& [a, b] : field.rules) cost += on_rule * length_inside(box, a, b) / u;
    return cost;
  }
  [[nodiscard]] double cost_of_leader(const PlacedLabel& label) const {
    if (!label.led) return 0;
    double cost = 0;
    for (const Rect& r : field.boxes) cost += length_inside(r, label.from, label.to) > 0 ? leader_on_box : 0;
    for (const auto& [a, b] : field.lines) cost += cross(label.from, label.to, a, b) ? leader_on_line : 0;
    for (const auto* lines : {&field.lines, &field.rules})
      for (const auto& [a, b] : *lines) cost += runs_along(label.from, label.to, a, b, 3 * u) ? leader_along_rule : 0;
    return cost;
  }
  [[nodiscard]] double cost_among(std::size_t own, const PlacedLabel& label) const {
    double cost = 0;
    for (std::size_t i = 0; i < placed.size(); ++i) {
      if (i == own || !stands[i]) continue;
      const PlacedLabel& other = placed[i];
      if (const double area = shared(inset(label.box, -u), other.box); area > 0) cost += on_label + area / (u * u);
      if (other.led && length_inside(label.box, other.from, other.to) > 0) cost += leader_on_label;
      if (label.led && length_inside(other.box, label.from, label.to) > 0) cost += leader_on_label;
      if (label.led && other.led && cross(label.from, label.to, other.from, other.to)) cost += leader_on_line;
    }
    return cost;
  }
  void place(std::size_t i) {
    double best = 1e300;
    for (const double ring : rings)
      for (int k = 0; k < directions; ++k) {
        const double angle = 2 * std::numbers::pi * k / directions;
        for (const double slide : slides) {
          if (slide != 0 && k % (directions / 2) != directions / 4) continue; // straight above or below only
          const PlacedLabel label = at_place(wishes[i], sizes[i], {std::cos(angle), std::sin(angle)}, ring, slide, u);
          // beside the point reads better than above or below it
          const double near = ring + 3 * std::abs(std::sin(angle));
          if (near >= best) continue;
          const double cost = near + cost_of_box(label.box) + cost_of_leader(label) + cost_among(i, label);
          if (cost < best) best = cost, placed[i] = label;
        }
      }
    stands[i] = true;
  }
};

} // namespace

double length_inside(const Rect& box, Vec2 from, Vec2 to) {
  // clipped against one edge after the other
  double low = 0, high = 1;
  const Vec2 d = to - from;
  const std::array<std::pair<double, double>, 4> edges{std::pair{-d.x, from.x - box.x}, std::pair{d.x, box.right() - from.x}, std::pair{-d.y, from.y - box.y},
                                                       std::pair{d.y, box.bottom() - from.y}};
  for (const auto& [p, q] : edges) {
    if (std::abs(p) < 1e-12) {
      if (q < 0) return 0;
      continue;
    }
    if (p < 0) low = std::max(low, q / p);
    else high = std::min(high, q / p);
  }
  return high > low ? (high - low) * glm::length(d) : 0;
}

std::vector<PlacedLabel> place_labels(const std::vector<LabelWish>& wishes, const LabelField& field, double u) {
  Placing placing{wishes, field, u};
  for (const LabelWish& wish : wishes) {
    double width = 0;
    for (const std::string& line : wish.lines) width = std::max(width, text_width(line, wish.size, wish.bold));
    placing.sizes.push_back({width + 2 * u, wish.size * label_step * static_cast<double>(wish.lines.size())});
  }
  placing.placed.resize(wishes.size());
  placing.stands.assign(wishes.size(), false);
  // one after the other, then each again among all the rest until nothing changes
  for (int sweep = 0; sweep < sweeps; ++sweep) {
    const auto before = placing.placed;
    for (std::size_t i = 0; i < wishes.size(); ++i) placing.place(i);
    const bool rests = std::equal(before.begin(), before.end(), placing.placed.begin(), [](const PlacedLabel& a, const PlacedLabel& b) { return a.box == b.box; });
    if (sweep > 0 && rests) break;
  }
  return std::move(placing.placed);
}

} // namespace mw
