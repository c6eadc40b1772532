#include "base/curve.h"

#include "base/expect.h"

#include <algorithm>
#include <cmath>

namespace mw {
namespace {
// Solves the tridiagonal system of a cubic spline for its second derivatives (Thomas algorithm); natural ends.
std::vector<Vec2> natural_second(std::span<const double> t, std::span<const Vec2> p) {
  const std::size_t n = p.size();
  std::vector<Vec2> m(n, Vec2(0));
  if (n < 3) return m;
  std::vector<double> c(n, 0);
  std::vector<Vec2> d(n, Vec2(0));
  for (std::size_t i = 1; i + 1 < n; ++i) {
    const double h0 = t[i] - t[i - 1], h1 = t[i + 1] - t[i];
    const Vec2 rhs = 6.0 * ((p[i + 1] - p[i]) / h1 - (p[i] - p[i - 1]) / h0);
    const double b = 2 * (h0 + h1) - h0 * c[i - 1];
    c[i] = h1 / b;
    d[i] = (rhs - h0 * d[i - 1]) / b;
  }
  for (std::size_t i = n - 2; i >= 1; --i) m[i] = d[i] - c[i] * m[i + 1];
  return m;
}

// The periodic case: p.front() == p.back(); one unknown fewer, solved with the Sherman-Morrison correction.
std::vector<Vec2> periodic_second(std::span<const double> t, std::span<const Vec2> p) {
  const std::size_t n = p.size() - 1;
  std::vector<double> lower(n), diagonal(n), upper(n);
  std::vector<Vec2> rhs(n);
  for (std::size_t i = 0; i < n; ++i) {
    const double h0 = i == 0 ? t[n] - t[n - 1] : t[i] - t[i - 1], h1 = t[i + 1] - t[i];
    const Vec2 before = i == 0 ? p[n - 1] : p[i - 1];
    lower[i] = h0;
    diagonal[i] = 2 * (h0 + h1);
    upper[i] = h1;
    rhs[i] = 6.0 * ((p[i + 1] - p[i]) / h1 - (p[i] - before) / h0);
  }
  const double corner_low = upper[n - 1], corner_up = lower[0], gamma = -diagonal[0];
  std::vector<double> main = diagonal;
  main[0] -= gamma;
  main[n - 1] -= corner_low * corner_up / gamma;
  const auto solve = [&](auto d) {
    std::vector<double> c(n);
    c[0] = upper[0] / main[0];
    d[0] = d[0] / main[0];
    for (std::size_t i = 1; i < n; ++i) {
      const double b = main[i] - lower[i] * c[i - 1];
      c[i] = upper[i] / b;
      d[i] = (d[i] - lower[i] * d[i - 1]) / b;
    }
    for (std::size_t i = n - 1; i-- > 0;) d[i] = d[i] - c[i] * d[i + 1];
    return d;
  };
  std::vector<double> u(n, 0.0);
  u[0] = gamma;
  u[n - 1] = corner_low;
  const std::vector<Vec2> x = solve(rhs);
  const std::vector<double> z = solve(u);
  const double scale = 1 + z[0] + corner_up * z[n - 1] / gamma;
  const Vec2 factor = (x[0] + corner_up * x[n - 1] / gamma) / scale;
  std::vector<Vec2> m(n + 1);
  for (std::size_t i = 0; i < n; ++i) m[i] = x[i] - factor * z[i];
  m[n] = m[0];
  return m;
}

std::vector<double> centripetal(std::span<const Vec2> p) {
  std::vector<double> t(p.size(), 0.0);
  for (std::size_t i = 1; i < p.size(); ++i) t[i] = t[i - 1] + std::max(std::sqrt(glm::distance(p[i], p[i - 1])), 1e-6);
  return t;
}

bool cross_properly(Vec2 a, Vec2 b, Vec2 c, Vec2 d) {
  const double s1 = cross(b - a, c - a), s2 = cross(b - a, d - a), s3 = cross(d - c, a - c), s4 = cross(d - c, b - c);
  return ((s1 > 0 && s2 < 0) || (s1 < 0 && s2 > 0)) && ((s3 > 0 && s4 < 0) || (s3 < 0 && s4 > 0));
}

double distance_to_segment(Vec2 p, Vec2 a, Vec2 b) {
  const Vec2 ab = b - a;
  const double l2 = glm::dot(ab, ab);
  const double t = l2 > 0 ? std::clamp(glm::dot(p - a, ab) / l2, 0.0, 1.0) : 0.0;
  return glm::distance(p, a + t * ab);
}
} // namespace

double smooth_step(double q) {
  q = std::clamp(q, 0.0, 1.0);
  return q * q * (3 - 2 * q);
}

double soft_clamp(double d, double k) { return d <= -k ? 0.0 : d >= k ? d : (d + k) * (d + k) / (4 * k); }

double ramp(double q) {
  q = std::clamp(q, 0.0, 1.0);
  return q * q * q * (10.0 + q * (6.0 * q - 15.0));
}

double ramp_inverse(double y) {
  double a = 0, b = 1;
  for (int i = 0; i < 30; ++i) {
    const double c = 0.5 * (a + b);
    (ramp(c) < y ? a : b) = c;
  }
  return 0.5 * (a + b);
}

Polyline spline_through(std::span<const Vec2> points, int n, bool closed) {
  MW_EXPECT(points.size() >= 2 && n >= 2);
  Polyline p(points.begin(), points.end());
  if (closed) p.push_back(p.front());
  const auto t = centripetal(p);
  const auto m = closed ? periodic_second(t, p) : natural_second(t, p);
  Polyline out(static_cast<std::size_t>(n));
  std::size_t i = 0;
  for (int k = 0; k < n; ++k) {
    const double x = k == n - 1 ? t.back() : t.back() * k / (n - 1);
    while (i + 2 < p.size() && x > t[i + 1]) ++i;
    const double h = t[i + 1] - t[i], a = (t[i + 1] - x) / h, b = (x - t[i]) / h;
    out[static_cast<std::size_t>(k)] =
        a * p[i] + b * p[i + 1] + ((a * a * a - a) * m[i] + (b * b * b - b) * m[i + 1]) * (h * h / 6);
  }
  return out;
}

int sample_of_knot(std::span<const Vec2> points, int i, int n) {
  const auto t = centripetal(points);
  return static_cast<int>(std::lround(t[static_cast<std::size_t>(i)] / t.back() * (n - 1)));
}

std::vector<double> arc_lengths(std::span<const Vec2> line) {
  std::vector<double> s(line.size(), 0.0);
  for (std::size_t i = 1; i < line.size(); ++i) s[i] = s[i - 1] + glm::distance(line[i], line[i - 1]);
  return s;
}

double length(std::span<const Vec2> line) { return line.empty() ? 0.0 : arc_lengths(line).back(); }

Vec2 point_at(std::span<const Vec2> line, std::span<const double> arcs, double s) {
  if (s <= arcs.front()) return line.front();
  if (s >= arcs.back()) return line.back();
  const auto i = static_cast<std::size_t>(std::upper_bound(arcs.begin(), arcs.end(), s) - arcs.begin());
  const double h = arcs[i] - arcs[i - 1];
  return glm::mix(line[i - 1], line[i], h > 0 ? (s - arcs[i - 1]) / h : 0.0);
}

Polyline resample(std::span<const Vec2> line, double step) {
  const auto s = arc_lengths(line);
  const int n = std::max(2, static_cast<int>(std::nearbyint(s.back() / step)) + 1);
  Polyline out(static_cast<std::size_t>(n));
  for (int k = 0; k < n; ++k) out[static_cast<std::size_t>(k)] = point_at(line, s, s.back() * k / (n - 1));
  return out;
}

void smooth_line(std::span<Vec2> line, int passes, double w) {
  for (int pass = 0; pass < passes; ++pass) {
    Vec2 before = line[0];
    for (std::size_t i = 1; i + 1 < line.size(); ++i) {
      const Vec2 own = line[i];
      line[i] = w * before + (1 - 2 * w) * own + w * line[i + 1];
      before = own;
    }
  }
}

Polyline right_normals(std::span<const Vec2> line) {
  const std::size_t n = line.size();
  Polyline out(n);
  for (std::size_t i = 0; i < n; ++i) {
    const Vec2 t = i == 0 ? line[1] - line[0] : i + 1 == n ? line[n - 1] - line[n - 2] : 0.5 * (line[i + 1] - line[i - 1]);
    const double l = std::max(glm::length(t), 1e-9);
    out[i] = {t.y / l, -t.x / l};
  }
  return out;
}

double signed_area(std::span<const Vec2> ring) {
  double sum = 0;
  for (std::size_t i = 0; i < ring.size(); ++i) sum += cross(ring[i], ring[(i + 1) % ring.size()]);
  return 0.5 * sum;
}

bool is_simple(std::span<const Vec2> line, bool closed) {
  const std::size_t n = line.size(), edges = closed ? n : n - 1;
  for (std::size_t i = 0; i < edges; ++i)
    for (std::size_t j = i + 2; j < edges; ++j) {
      if (closed && i == 0 && j == edges - 1) continue;
      if (cross_properly(line[i], line[(i + 1) % n], line[j], line[(j + 1) % n])) return false;
    }
  return true;
}

Nearest nearest_on(std::span<const Vec2> wall, Vec2 p, double side) {
  Nearest best;
  double best2 = 1e300;
  const std::size_t segments = wall.size() - 1;
  for (std::size_t i = 0; i < segments; ++i) {
    const Vec2 ab = wall[i + 1] - wall[i];
    const double t = std::clamp(glm::dot(p - wall[i], ab) / glm::dot(ab, ab), 0.0, 1.0);
    const Vec2 dv = p - (wall[i] + t * ab);
    const double d2 = glm::dot(dv, dv);
    if (d2 < best2) {
      best2 = d2;
      best.segment = i;
      best.along = t;
      best.foot = p - dv;
    }
  }
  const auto tangent = [&](std::size_t i) { return glm::normalize(wall[i + 1] - wall[i]); };
  // at a vertex the mean tangent of both neighbours decides the side
  Vec2 t = tangent(best.segment);
  if (best.along <= 1e-9 && best.segment > 0) t += tangent(best.segment - 1);
  if (best.along >= 1 - 1e-9 && best.segment + 1 < segments) t += tangent(best.segment + 1);
  t = glm::normalize(t);
  const Vec2 n = Vec2(t.y, -t.x) * side;
  const Vec2 dv = p - best.foot;
  const double d = std::sqrt(best2), sign = glm::dot(dv, n) >= 0 ? 1.0 : -1.0;
  best.distance = d * sign;
  best.normal = d > 1e-6 ? dv / d * sign : n;
  best.beyond_end = (best.segment == 0 && best.along <= 0) || (best.segment == segments - 1 && best.along >= 1);
  return best;
}

double distance_between(std::span<const Vec2> a, std::span<const Vec2> b) {
  double best = 1e300;
  for (std::size_t i = 0; i + 1 < a.size(); ++i)
    for (std::size_t j = 0; j + 1 < b.size(); ++j) {
      if (cross_properly(a[i], a[i + 1], b[j], b[j + 1])) return 0;
      best = std::min({best, distance_to_segment(a[i], b[j], b[j + 1]), distance_to_segment(a[i + 1], b[j], b[j + 1]),
                       distance_to_segment(b[j], a[i], a[i + 1]), distance_to_segment(b[j + 1], a[i], a[i + 1])});
    }
  return best;
}

bool contains(std::span<const Vec2> ring, Vec2 p) {
  bool inside = false;
  for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++)
    if ((ring[i].y > p.y) != (ring[j].y > p.y) &&
        p.x < (ring[j].x - ring[i].x) * (p.y - ring[i].y) / (ring[j].y - ring[i].y) + ring[i].x)
      inside = !inside;
  return inside;
}

double interpolate(std::span<const double> xs, std::span<const double> ys, double x) {
  if (x <= xs.front()) return ys.front();
  if (x >= xs.back()) return ys.back();
  const auto i = static_cast<std::size_t>(std::upper_bound(xs.begin(), xs.end(), x) - xs.begin());
  const double h = xs[i] - xs[i - 1];
  return h > 0 ? ys[i - 1] + (ys[i] - ys[i - 1]) * (x - xs[i - 1]) / h : ys[i];
}

} // namespace mw
