#include "paint/gl/stroke.h"

#include "base/curve.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace mw::gl {
namespace {

constexpr double shortest_px = 1e-3; // shorter pieces have no direction worth the name

Polyline without_repeats(const Ring& line) {
  Polyline out;
  for (const Vec2 p : line.points)
    if (out.empty() || glm::length(p - out.back()) > shortest_px) out.push_back(p);
  if (line.closed && out.size() > 1 && glm::length(out.front() - out.back()) <= shortest_px) out.pop_back();
  return out;
}

Vec2 right_of(Vec2 a, Vec2 b) {
  const Vec2 t = glm::normalize(b - a);
  return {-t.y, t.x};
}

// Points of an arc about `centre` from the offset `from` by `angle` (radians), ends left out.
void add_arc(Polyline& out, Vec2 centre, Vec2 from, double angle) {
  const double radius = glm::length(from);
  const double step = 2 * std::acos(std::clamp(1 - 0.1 / std::max(radius, 0.1), -1.0, 1.0));
  const int n = static_cast<int>(std::ceil(std::abs(angle) / std::max(step, 0.05)));
  for (int i = 1; i < n; ++i) {
    const double q = angle * i / n, c = std::cos(q), s = std::sin(q);
    out.push_back(centre + Vec2{c * from.x - s * from.y, s * from.x + c * from.y});
  }
}

// One corner of one side. The outer side turns by an arc. The inner side meets in a point when both pieces are long
// enough; else it goes through the corner itself, which keeps every part of the outline turning the same way.
void add_corner(Polyline& out, Vec2 before, Vec2 at, Vec2 after, double half) {
  const Vec2 n0 = right_of(before, at) * half, n1 = right_of(at, after) * half;
  const double turn = std::atan2(cross(n0, n1), glm::dot(n0, n1));
  if (turn < 0 || turn > 3.1) { // a turn right round is outside on both sides
    out.push_back(at + n0);
    add_arc(out, at, n0, turn < 0 ? turn : turn - 2 * std::numbers::pi);
    out.push_back(at + n1);
    return;
  }
  const double tangent = std::tan(turn / 2), room = std::min(glm::length(at - before), glm::length(after - at));
  if (half * tangent <= room) {
    out.push_back(at + (n0 + n1) / (1 + glm::dot(n0, n1) / (half * half)));
    return;
  }
  out.insert(out.end(), {at + n0, at, at + n1});
}

void add_cap(Polyline& out, Vec2 before, Vec2 at, double half) {
  const Vec2 n = right_of(before, at) * half;
  out.push_back(at + n);
  add_arc(out, at, n, -std::numbers::pi);
  out.push_back(at - n);
}

// One side of the line, walked forwards.
void add_side(Polyline& out, const Polyline& p, double half) {
  for (std::size_t i = 1; i + 1 < p.size(); ++i) add_corner(out, p[i - 1], p[i], p[i + 1], half);
}

Ring dot(Vec2 at, double half) {
  Ring ring{{at + Vec2{half, 0}}, true};
  add_arc(ring.points, at, {half, 0}, -2 * std::numbers::pi);
  return ring;
}

void add_open(Rings& out, Polyline p, double half) {
  Ring ring{{}, true};
  add_side(ring.points, p, half);
  add_cap(ring.points, p[p.size() - 2], p.back(), half);
  std::reverse(p.begin(), p.end());
  add_side(ring.points, p, half);
  add_cap(ring.points, p[p.size() - 2], p.back(), half);
  out.push_back(std::move(ring));
}

void add_closed(Rings& out, Polyline p, double half) {
  for (int side = 0; side < 2; ++side) {
    Ring ring{{}, true};
    const std::size_t n = p.size();
    for (std::size_t i = 0; i < n; ++i) add_corner(ring.points, p[(i + n - 1) % n], p[i], p[(i + 1) % n], half);
    out.push_back(std::move(ring));
    std::reverse(p.begin(), p.end());
  }
}

} // namespace

Rings outline_of_stroke(const Rings& lines, double width_px) {
  Rings out;
  const double half = width_px / 2;
  for (const auto& line : lines) {
    Polyline p = without_repeats(line);
    if (p.empty()) continue;
    if (p.size() == 1) out.push_back(dot(p.front(), half));
    else if (line.closed && p.size() > 2) add_closed(out, std::move(p), half);
    else add_open(out, std::move(p), half);
  }
  return out;
}

Rings dash(const Rings& lines, const std::vector<double>& dashes_px) {
  double period = 0;
  for (const double d : dashes_px) period += d;
  if (dashes_px.empty() || period <= 0) return lines;
  Rings out;
  for (const auto& line : lines) {
    Polyline p = line.points;
    if (line.closed) p.push_back(p.front());
    std::size_t at = 0;
    double left = dashes_px[0];
    bool on = true;
    Polyline piece{p.front()};
    for (std::size_t i = 1; i < p.size(); ++i) {
      Vec2 from = p[i - 1];
      for (double rest = glm::length(p[i] - from); rest > 0;) {
        const double go = std::min(rest, left);
        from = go == rest ? p[i] : from + (p[i] - from) * (go / rest);
        rest -= go, left -= go;
        if (on) piece.push_back(from);
        if (left > 0) continue;
        // the next dash or gap begins here
        if (on) out.push_back({std::move(piece), false});
        on = !on;
        piece = {from};
        at = (at + 1) % dashes_px.size();
        left = std::max(dashes_px[at], 1e-6);
      }
    }
    if (on && piece.size() > 1) out.push_back({std::move(piece), false});
  }
  return out;
}

} // namespace mw::gl
