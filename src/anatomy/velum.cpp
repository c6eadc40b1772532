#include "anatomy/velum.h"

#include "anatomy/monotone.h"
#include "anatomy/places.h"

#include <cmath>
#include <numbers>

namespace mw {
namespace {
constexpr int joints = 8;
// Directions of the seven links, degrees (0 = back, 90 = up), shut and open.
constexpr std::array<double, 7> closed_angles{12, 7, -14, -54, -84, -97, -97};
constexpr std::array<double, 7> open_angles{-34, -50, -62, -71, -78, -84, -88};

std::array<double, joints> link_positions(std::span<const double, 7> lengths) {
  std::array<double, joints> s{};
  for (std::size_t i = 1; i < joints; ++i) s[i] = s[i - 1] + lengths[i - 1];
  return s;
}

Vec2 right_normal(std::span<const Vec2> line, std::size_t i) {
  const std::size_t last = line.size() - 1;
  const Vec2 t = i == 0 ? line[1] - line[0] : i == last ? line[last] - line[last - 1] : 0.5 * (line[i + 1] - line[i - 1]);
  const double l = std::max(glm::length(t), 1e-9);
  return {t.y / l, -t.x / l};
}

// Second derivatives of the spline with not-a-knot ends by Gaussian elimination; eight knots, once per speaker.
std::array<double, joints> spline_second(const std::array<double, joints>& s, const std::array<double, joints>& y) {
  std::array<std::array<double, joints + 1>, joints> a{};
  const auto h = [&](std::size_t i) { return s[i + 1] - s[i]; };
  a[0][0] = h(1), a[0][1] = -(h(0) + h(1)), a[0][2] = h(0);
  a[7][5] = h(6), a[7][6] = -(h(5) + h(6)), a[7][7] = h(5);
  for (std::size_t i = 1; i + 1 < joints; ++i) {
    a[i][i - 1] = h(i - 1), a[i][i] = 2 * (h(i - 1) + h(i)), a[i][i + 1] = h(i);
    a[i][joints] = 6 * ((y[i + 1] - y[i]) / h(i) - (y[i] - y[i - 1]) / h(i - 1));
  }
  for (std::size_t c = 0; c < joints; ++c) {
    std::size_t pivot = c;
    for (std::size_t r = c + 1; r < joints; ++r)
      if (std::fabs(a[r][c]) > std::fabs(a[pivot][c])) pivot = r;
    std::swap(a[c], a[pivot]);
    for (std::size_t r = 0; r < joints; ++r) {
      if (r == c) continue;
      const double f = a[r][c] / a[c][c];
      for (std::size_t k = c; k <= joints; ++k) a[r][k] -= f * a[c][k];
    }
  }
  std::array<double, joints> m{};
  for (std::size_t i = 0; i < joints; ++i) m[i] = a[i][joints] / a[i][i];
  return m;
}
} // namespace

std::vector<std::array<double, 8>> velum_spline_weights(std::span<const double, 7> lengths) {
  const auto s = link_positions(lengths);
  std::vector<std::array<double, 8>> weights(velum_samples);
  for (std::size_t j = 0; j < joints; ++j) {
    std::array<double, joints> y{};
    y[j] = 1;
    const auto m = spline_second(s, y);
    std::size_t i = 0;
    for (std::size_t k = 0; k < velum_samples; ++k) {
      const double x = s[7] * static_cast<double>(k) / (velum_samples - 1);
      while (i < 6 && x > s[i + 1]) ++i;
      const double h = s[i + 1] - s[i], a = (s[i + 1] - x) / h, b = (x - s[i]) / h;
      weights[k][j] = a * y[i] + b * y[i + 1] + ((a * a * a - a) * m[i] + (b * b * b - b) * m[i + 1]) * (h * h / 6);
    }
  }
  return weights;
}

void set_velum_centre(const Anatomy& anatomy, double opening, VelumSamples& velum) {
  // joints by the link angles, which blend linearly with the opening
  std::array<Vec2, joints> joint;
  std::array<double, joints> r{};
  joint[0] = anatomy.velum_start;
  for (std::size_t i = 0; i < 7; ++i) {
    const double angle = (closed_angles[i] + (open_angles[i] - closed_angles[i]) * opening) * std::numbers::pi / 180;
    joint[i + 1] = joint[i] + Vec2(std::cos(angle), std::sin(angle)) * anatomy.velum_lengths[i];
  }
  for (std::size_t i = 0; i < joints; ++i)
    r[i] = anatomy.velum_closed_radius[i] + (anatomy.velum_open_radius[i] - anatomy.velum_closed_radius[i]) * opening;
  // monotone half-thickness between the joints
  const auto s = link_positions(anatomy.velum_lengths);
  std::array<double, 7> d{};
  for (std::size_t i = 0; i < 7; ++i) d[i] = (r[i + 1] - r[i]) / anatomy.velum_lengths[i];
  std::array<double, joints> slope{};
  const auto& h = anatomy.velum_lengths;
  for (std::size_t i = 1; i < 7; ++i) slope[i] = monotone_inner_slope(h[i - 1], h[i], d[i - 1], d[i]);
  slope[0] = monotone_end_slope(h[0], h[1], d[0], d[1]);
  slope[7] = monotone_end_slope(h[6], h[5], d[6], d[5]);
  std::size_t i = 0;
  for (std::size_t k = 0; k < velum_samples; ++k) {
    const double x = s[7] * static_cast<double>(k) / (velum_samples - 1);
    while (i < 6 && x > s[i + 1]) ++i;
    const Hermite w = hermite((x - s[i]) / h[i], h[i]);
    velum.radius[k] = w.p0 * r[i] + w.m0 * slope[i] + w.p1 * r[i + 1] + w.m1 * slope[i + 1];
    Vec2 c(0);
    for (std::size_t j = 0; j < joints; ++j) c += anatomy.velum_weights[k][j] * joint[j];
    velum.centre[k] = c;
  }
}

void set_velum_under(VelumSamples& velum) {
  for (std::size_t i = 0; i < velum_samples; ++i)
    velum.under[i] = velum.centre[i] + right_normal(velum.centre, i) * velum.radius[i];
  smooth_line(velum.under, 10); // removes a small fold at the knee
}

void set_velum_faces(VelumSamples& velum) {
  set_velum_under(velum);
  for (std::size_t i = 0; i < velum_samples; ++i)
    velum.upper[i] = velum.centre[i] - right_normal(velum.centre, i) * velum.radius[i];
  // round end: from the under face through the end to the upper face
  const Vec2 end = velum.centre.back(), n = right_normal(velum.centre, velum_samples - 1);
  const double start = std::atan2(n.y, n.x);
  for (std::size_t i = 0; i < velum_cap_samples; ++i) {
    const double angle = start + std::numbers::pi * static_cast<double>(i + 1) / (velum_cap_samples + 1);
    velum.cap[i] = end + velum.radius.back() * Vec2(std::cos(angle), std::sin(angle));
  }
}

VelumShape velum_shape(const Anatomy& anatomy, double opening) {
  VelumSamples samples;
  set_velum_centre(anatomy, opening, samples);
  set_velum_faces(samples);
  const auto keep_off = [&](Vec2& q) {
    const Nearest near = nearest_on(anatomy.back_wall, q);
    q += near.normal * (soft_clamp(near.distance, velum_wall_softness) - near.distance);
  };
  for (Vec2& q : samples.cap) keep_off(q);
  for (Vec2& q : samples.upper) keep_off(q);
  const auto line = [](const auto& a) { return Polyline(a.begin(), a.end()); };
  return {line(samples.centre), {samples.radius.begin(), samples.radius.end()}, line(samples.under), line(samples.cap),
          line(samples.upper)};
}

} // namespace mw
