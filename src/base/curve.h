#pragma once

#include "base/vec.h"

#include <span>

namespace mw {

/// 0 below 0, 1 above 1, q^2 (3 - 2 q) between.
double smooth_step(double q);
/// Contact law: 0 for d <= -k, d for d >= k, (d + k)^2 / 4k between (continuous first derivative).
double soft_clamp(double d, double k);
/// Minimum-jerk ramp 0..1 with 0 speed and acceleration at both ends; q clipped to 0..1 (Flash & Hogan 1985, from memory).
double ramp(double q);
/// The q in 0..1 at which ramp(q) = y.
double ramp_inverse(double y);

/// `n` samples of the natural cubic spline through `points`, centripetal parameter (|dP|^0.5); `closed` joins the ends
/// with continuous second derivatives (first sample = last sample).
Polyline spline_through(std::span<const Vec2> points, int n, bool closed = false);
/// Sample index of spline_through(points, n) that lies at control point `i`.
int sample_of_knot(std::span<const Vec2> points, int i, int n);

/// Samples at equal steps of about `step` along a polyline (linear), both ends kept.
Polyline resample(std::span<const Vec2> line, double step);
/// Length along the line at each of its points, starting at 0.
std::vector<double> arc_lengths(std::span<const Vec2> line);
double length(std::span<const Vec2> line);
/// Point at arc length `s` (clamped).
Vec2 point_at(std::span<const Vec2> line, std::span<const double> arcs, double s);

/// `passes` of [w, 1 - 2w, w] on the inner points, in place; ends fixed. Jacobi: each pass reads the pass before.
void smooth_line(std::span<Vec2> line, int passes, double w = 0.25);
/// Unit normals to the right of travel, (t_y, -t_x); one-sided at the ends.
Polyline right_normals(std::span<const Vec2> line);
/// Signed polygon area (> 0 counter-clockwise), the ring closed from last to first.
double signed_area(std::span<const Vec2> ring);
/// True when no two edges that are not neighbours cross.
bool is_simple(std::span<const Vec2> line, bool closed);

/// Where a point lies against an open polyline.
struct Nearest {
  double distance = 0;  // signed: > 0 to the right of travel
  Vec2 normal{};        // unit, from the line towards the positive side
  Vec2 foot{};
  std::size_t segment = 0;
  double along = 0;     // 0..1 on that segment
  bool beyond_end = false;
};
/// Nearest point of `wall` (at least two points) to `p`; `side` -1 turns the sign over.
Nearest nearest_on(std::span<const Vec2> wall, Vec2 p, double side = 1.0);
/// Smallest distance between two polylines (0 when they cross).
double distance_between(std::span<const Vec2> a, std::span<const Vec2> b);
bool contains(std::span<const Vec2> ring, Vec2 p);

/// Linear interpolation of (xs, ys) at x, clamped to the ends; xs ascending.
double interpolate(std::span<const double> xs, std::span<const double> ys, double x);

} // namespace mw
