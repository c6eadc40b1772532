#include "tract/contact.h"

#include "base/expect.h"

#include <algorithm>
#include <cmath>

namespace mw {
namespace {
constexpr std::size_t segments_per_box = 8;
constexpr double half_diagonal = 0.70711; // of a cell
// Room round a wall that its cells cover, mm. No contact law acts that far inside or outside a wall (12 mm at most).
constexpr double margin = 20;

Vec2 unit(Vec2 v) { return v / std::sqrt(v.x * v.x + v.y * v.y); }

double box_distance2(Vec2 p, Vec2 low, Vec2 high) {
  const double dx = std::max({low.x - p.x, 0.0, p.x - high.x}), dy = std::max({low.y - p.y, 0.0, p.y - high.y});
  return dx * dx + dy * dy;
}
} // namespace

Nearest resolve(std::span<const Vec2> line, Vec2 p, const Candidate& found, double side) {
  const std::size_t i = found.segment, last = line.size() - 2;
  const Vec2 foot = line[i] + found.along * (line[i + 1] - line[i]), d = p - foot;
  // at a vertex the mean tangent of both neighbours decides the side
  Vec2 t = unit(line[i + 1] - line[i]);
  const bool at_start = found.along <= 1e-9, at_end = found.along >= 1 - 1e-9;
  if (at_start && i > 0) t += unit(line[i] - line[i - 1]);
  if (at_end && i < last) t += unit(line[i + 2] - line[i + 1]);
  t = unit(t);
  const Vec2 n(t.y * side, -t.x * side);
  const double distance = std::sqrt(found.distance2), sign = d.x * n.x + d.y * n.y >= 0 ? 1.0 : -1.0;
  Nearest out;
  out.distance = distance * sign;
  out.normal = distance > 1e-6 ? d * (sign / distance) : n;
  out.foot = foot;
  out.segment = i;
  out.along = found.along;
  out.beyond_end = (i == 0 && found.along <= 0) || (i == last && found.along >= 1);
  return out;
}

void BoxedLine::set(std::span<const Vec2> line, std::size_t first) {
  MW_EXPECT((line.size() - first) / segments_per_box < boxes_.size());
  line_ = line;
  count_ = 0;
  hint_ = 0;
  low_ = high_ = line[first];
  for (std::size_t i = first; i + 1 < line.size(); i += segments_per_box) {
    const std::size_t last = std::min(i + segments_per_box, line.size() - 1);
    Box box{line[i], line[i], static_cast<std::uint32_t>(i), static_cast<std::uint32_t>(last)};
    for (std::size_t k = i + 1; k <= last; ++k) {
      box.low = glm::min(box.low, line[k]);
      box.high = glm::max(box.high, line[k]);
    }
    low_ = glm::min(low_, box.low);
    high_ = glm::max(high_, box.high);
    boxes_[count_++] = box;
  }
}

void BoxedLine::search(Vec2 p, Candidate& best) const {
  const std::size_t start = hint_;
  const auto look = [&](std::size_t k) {
    if (box_distance2(p, boxes_[k].low, boxes_[k].high) > best.distance2) return;
    const double before = best.distance2;
    try_segments(line_, p, boxes_[k].first, boxes_[k].last, best);
    if (best.distance2 < before) hint_ = k;
  };
  look(start);
  for (std::size_t k = 0; k < count_; ++k)
    if (k != start) look(k);
}

Nearest BoxedLine::nearest(Vec2 p, double side, double reach) const {
  Candidate best;
  best.distance2 = reach * reach;
  best.segment = line_.size(); // none yet
  search(p, best);
  if (best.segment < line_.size()) return resolve(line_, p, best, side);
  Nearest none;
  none.distance = 1e150;
  return none;
}

bool BoxedLine::outside(Vec2 p, double by) const { return box_distance2(p, low_, high_) > by * by; }

bool BoxedLine::before_or_below(Vec2 p, double by) const { return p.x < low_.x - by || p.y < low_.y - by; }

FixedWall::FixedWall(Polyline line, double side, std::size_t segments)
    : line_(std::move(line)), side_(side), segments_(segments == 0 ? line_.size() - 1 : segments) {
  MW_EXPECT(segments_ < 255 && segments_ < line_.size());
  Vec2 low = line_.front(), high = line_.front();
  for (std::size_t i = 0; i <= segments_; ++i) {
    low = glm::min(low, line_[i]);
    high = glm::max(high, line_[i]);
  }
  corner_ = Vec2(std::floor(low.x) - margin, std::floor(low.y) - margin);
  columns_ = static_cast<int>(high.x - corner_.x + margin) + 1;
  rows_ = static_cast<int>(high.y - corner_.y + margin) + 1;
  cells_.resize(static_cast<std::size_t>(columns_) * static_cast<std::size_t>(rows_));
  std::vector<double> distance(segments_);
  for (std::size_t k = 0; k < cells_.size(); ++k) {
    const auto column = k % static_cast<std::size_t>(columns_), row = k / static_cast<std::size_t>(columns_);
    const Vec2 centre = corner_ + Vec2(static_cast<double>(column) + 0.5, static_cast<double>(row) + 0.5);
    double least = 1e300;
    for (std::size_t s = 0; s < segments_; ++s) {
      Candidate one;
      try_segments(line_, centre, s, s + 1, one);
      distance[s] = std::sqrt(one.distance2);
      least = std::min(least, distance[s]);
    }
    // a segment can be nearest for some point of the cell only if its distance is within a diagonal of the least
    std::size_t first = segments_, last = 0;
    for (std::size_t s = 0; s < segments_; ++s)
      if (distance[s] <= least + 2 * half_diagonal) {
        first = std::min(first, s);
        last = s + 1;
      }
    Candidate best;
    try_segments(line_, centre, first, last, best);
    cells_[k] = {static_cast<std::uint8_t>(first), static_cast<std::uint8_t>(last),
                 least > contact_softness + half_diagonal && resolve(line_, centre, best, side_).distance > 0};
  }
}

const FixedWall::Cell* FixedWall::cell(Vec2 p) const {
  const double x = p.x - corner_.x, y = p.y - corner_.y;
  if (!(x >= 0 && y >= 0 && x < columns_ && y < rows_)) return nullptr;
  return &cells_[static_cast<std::size_t>(y) * static_cast<std::size_t>(columns_) + static_cast<std::size_t>(x)];
}

void FixedWall::search(Vec2 p, Candidate& best) const {
  if (const Cell* at = cell(p)) try_segments(line_, p, at->first, at->last, best);
  else try_segments(line_, p, 0, segments_, best);
}

Nearest FixedWall::nearest(Vec2 p) const {
  Candidate best;
  search(p, best);
  return resolve(line_, p, best, side_);
}

bool FixedWall::far(Vec2 p) const {
  const Cell* at = cell(p);
  return at == nullptr || at->far;
}

} // namespace mw
