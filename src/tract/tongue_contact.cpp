#include "tract/work.h"

#include <algorithm>
#include <cmath>

// The last steps of a tongue build: contact with the walls, under side, area.
namespace mw {
namespace {
// Overlaps deeper than these (mm) are no contact but a point on the other side of the wall.
constexpr double upper_depth = 12, lower_depth = 8;
constexpr double lower_softness = 0.35; // teeth and floor are met more sharply than the palate

double norm(Vec2 v) { return std::sqrt(v.x * v.x + v.y * v.y); }

double push_of(const Nearest& near, double softness, double depth) {
  if (near.distance >= softness || near.distance < -depth || (near.beyond_end && near.distance < 0)) return 0;
  return soft_clamp(near.distance, softness) - near.distance;
}

void push_from_lower(const TongueTask& task, Vec2& p) {
  const FixedWall& lower = task.walls->fixed->lower;
  const Vec2 q = task.jaw.to_jaw(p);
  if (lower.far(q)) return;
  const Nearest near = lower.nearest(q);
  if (near.distance >= lower_softness || near.distance < -lower_depth || near.beyond_end) return;
  p = task.jaw.to_skull(q + near.normal * (soft_clamp(near.distance, lower_softness) - near.distance));
}
} // namespace

void push_from_walls(const TongueTask& task, std::span<Vec2> points) {
  const Walls& walls = *task.walls;
  const FixedWall& throat = walls.fixed->throat;
  const double throat_x = 50 * task.anatomy->palate_step;
  const Vec2 uvula = walls.upper[walls.upper_count - 1];
  for (Vec2& p : points) {
    if (p.x > -6 && p.x < 85 && !walls.far_from_upper(p)) {
      const Nearest near = walls.nearest_upper(p);
      if (const double push = push_of(near, contact_softness, upper_depth); push != 0) {
        // the free end of the velum yields to the tongue
        const double firm = std::clamp((norm(near.foot - uvula) - 1.0) / 9.0, 0.0, 1.0);
        p += near.normal * (firm < 1 ? push * std::pow(firm, 0.8) : push);
      }
    }
    if (p.x > throat_x && p.x < 95 && !throat.far(p)) {
      const Nearest near = throat.nearest(p);
      p += near.normal * push_of(near, contact_softness, upper_depth);
    }
    if (p.x < task.lower_x_max - 1 && p.x > task.lower_x_min - 6) push_from_lower(task, p);
  }
}

namespace {
// Raises points round the edge of the lower teeth by `depth`, fading out 8 mm to either side and towards the tip.
void raise_round_edge(std::span<Vec2> line, Vec2 edge, double depth, double foremost, double k) {
  for (Vec2& p : line) {
    const double h = std::fabs(p.x - edge.x) / (8.0 * k), bump = std::clamp(1 - h * h, 0.0, 1.0);
    p.y += depth * bump * bump * std::clamp((p.x - foremost) / (1.5 * k), 0.0, 1.0);
  }
}

// A tip on its way out between the teeth: an under side that runs deep through the lower incisor is first carried over its
// edge, so that contact then pushes it back and not out in front. Nothing happens while it lies less than about half a
// millimetre too low; that much rest_on_teeth mends.
void lift_over_teeth(const TongueTask& task, TongueBuild& b) {
  const double k = task.anatomy->tongue_scale;
  const Vec2 edge = task.incisor_edge;
  const std::span<Vec2> under = std::span(b.under).first(static_cast<std::size_t>(b.sampling.free + b.sampling.floor));
  double foremost = under[0].x;
  for (int i = 0; i < b.sampling.cap; ++i) foremost = std::min(foremost, b.cap[static_cast<std::size_t>(i)].x);
  if (edge.x <= foremost) return;
  std::size_t i = 0;
  while (i + 1 < under.size() && under[i + 1].x < edge.x) ++i;
  if (i + 1 == under.size() || under[i].x > edge.x) return;
  const double share = (edge.x - under[i].x) / (under[i + 1].x - under[i].x);
  const double height = glm::mix(under[i].y, under[i + 1].y, share);
  const double depth = soft_clamp(edge.y - 0.4 - height, 0.4) * smooth_step((edge.x - foremost) / (3.0 * k));
  if (depth > 0) raise_round_edge(under, edge, depth, foremost, k);
}
} // namespace

// From the free part to the floor: a cubic that leaves the floor along it, a rounded hollow without a corner.
void close_underside(const TongueTask& task, TongueBuild& b) {
  const auto free = static_cast<std::size_t>(b.sampling.free), floor = static_cast<std::size_t>(b.sampling.floor);
  const double k = task.anatomy->tongue_scale;
  const Vec2 p0 = b.under[free - 1], p3 = task.frenulum;
  Vec2 t = p0 - b.under[free - 2];
  t /= std::max(norm(t), 1e-6);
  const double l = norm(p3 - p0);
  const Vec2 p1 = p0 + t * (l * (0.34 + 0.06 * task.raised));
  const Vec2 p2 = p3 + task.floor_back * (l * (0.30 + 0.22 * task.raised)) +
                  task.floor_up * (std::clamp(l - 8 * k, 0.0, 12 * k) * 0.25 * (1 - task.raised));
  for (std::size_t i = 1; i <= floor; ++i) {
    const double h = static_cast<double>(i) / static_cast<double>(floor), o = 1 - h;
    Vec2 p = o * o * o * p0 + 3 * o * o * h * p1 + 3 * o * h * h * p2 + h * h * h * p3;
    b.under[free + i - 1] = p;
  }
  if (b.sampling.stride != 1) return;
  lift_over_teeth(task, b);
  for (std::size_t i = 0; i + 2 < floor; ++i) push_from_lower(task, b.under[free + i]);
}

namespace {
// Lays loops of up to `reach` samples that begin before `last` straight.
void lay_loops_straight(std::span<Vec2> p, std::size_t last, std::size_t reach) {
  const auto left = [&](std::size_t i, std::size_t k) { return cross(p[i + 1] - p[i], p[k] - p[i]) > 0; };
  for (std::size_t i = 0; i < last; ++i)
    for (std::size_t j = std::min(i + reach, p.size() - 2); j >= i + 2; --j) {
      if (left(i, j) == left(i, j + 1) || left(j, i) == left(j, i + 1)) continue;
      for (std::size_t k = i + 1; k <= j; ++k)
        p[k] = glm::mix(p[i], p[j + 1], static_cast<double>(k - i) / static_cast<double>(j + 1 - i));
      break;
    }
}
} // namespace

// A tip squeezed against the floor can fold its under side, a root pulled far forward the foot of the back. A few in a
// thousand random mixes of sounds; no target row.
void uncross(TongueBuild& b) {
  const auto under = static_cast<std::size_t>(b.sampling.free + b.sampling.floor);
  lay_loops_straight(std::span(b.under).first(under), under - 1, under);
  lay_loops_straight(std::span(b.back).first(static_cast<std::size_t>(b.sampling.back)), 40, 8);
}

// A tip put out over the lower incisors rests on their edge: the under side is raised round it.
void rest_on_teeth(const TongueTask& task, TongueBuild& b) {
  constexpr std::size_t cap = fine_sampling.cap, n = cap + fine_sampling.free + fine_sampling.floor;
  const double k = task.anatomy->tongue_scale;
  const Vec2 edge = task.incisor_edge;
  std::array<Vec2, n> line;
  std::copy(b.cap.begin(), b.cap.end(), line.begin());
  std::copy(b.under.begin(), b.under.end(), line.begin() + cap);
  // the part under which the edge can lie: from the foremost point as long as x grows
  std::size_t front = 0;
  for (std::size_t i = 1; i < n; ++i)
    if (line[i].x < line[front].x) front = i;
  std::size_t end = front + 1;
  while (end < n && line[end].x > line[end - 1].x - 0.01) ++end; // pushed up a tooth's face it may stand still
  if (edge.x <= line[front].x || edge.x >= line[end - 1].x) return;
  for (const bool last : {false, true}) {
    std::size_t i = front;
    while (i + 2 < end && line[i + 1].x < edge.x) ++i;
    const double share = (edge.x - line[i].x) / (line[i + 1].x - line[i].x);
    const double under = line[i].y + share * (line[i + 1].y - line[i].y);
    const double depth = soft_clamp(edge.y + 0.25 - under, 0.3) * smooth_step((edge.x - line[front].x) / (3.0 * k));
    if (depth <= 0) return;
    raise_round_edge(std::span(line).subspan(front), edge, depth, line[front].x, k);
    if (last) break;
    const double w = std::min(depth, 1.0);
    std::array<Vec2, n> soft = line;
    smooth_line(std::span(soft).subspan(front), 3);
    for (std::size_t j = front; j < n; ++j) line[j] = (1 - w) * line[j] + w * soft[j];
  }
  std::copy(line.begin(), line.begin() + cap, b.cap.begin());
  std::copy(line.begin() + cap, line.end(), b.under.begin());
}

double outline_area(const TongueTask& task, const TongueBuild& b) {
  const auto n = static_cast<std::size_t>(b.sampling.back);
  double sum = 0;
  const Vec2 first = b.back[0];
  Vec2 before = first;
  const auto add = [&](Vec2 p) {
    sum += cross(before, p);
    before = p;
  };
  for (std::size_t i = 1; i < n; ++i) add(b.back[i]);
  for (std::size_t i = 0; i < static_cast<std::size_t>(b.sampling.cap); ++i) add(b.cap[i]);
  for (std::size_t i = 0; i < static_cast<std::size_t>(b.sampling.free + b.sampling.floor); ++i) add(b.under[i]);
  add(task.jaw.to_skull(task.anatomy->genial));
  add(b.hyoid);
  add(first + Vec2(-3, -4));
  add(first);
  sum *= 0.5;
  // coarse chords miss the bulge of the back between them: the area between cubic and chord is added
  if (b.sampling.stride != 1)
    for (std::size_t i = 1; i + 2 < n; ++i) {
      const Vec2 m0 = (b.back[i + 1] - b.back[i - 1]) / 6.0, m1 = (b.back[i + 2] - b.back[i]) / 6.0;
      const Vec2 chord = b.back[i + 1] - b.back[i];
      sum += 0.3 * (cross(m0, chord) + cross(chord, m1)) - 0.15 * cross(m0, m1);
    }
  return std::fabs(sum);
}

} // namespace mw
