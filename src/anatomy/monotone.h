#pragma once

#include <cmath>

namespace mw {

/// Slope at an inner knot of a monotone cubic (Fritsch and Carlson 1980): harmonic mean of the slopes of both intervals,
/// 0 at an extreme. h = interval lengths, d = chord slopes.
inline double monotone_inner_slope(double h0, double h1, double d0, double d1) {
  if (d0 * d1 <= 0) return 0;
  const double w1 = 2 * h1 + h0, w2 = h1 + 2 * h0;
  return (w1 + w2) / (w1 / d0 + w2 / d1);
}

/// Slope at an end knot: three-point formula, kept from overshooting. Interval 0 is the one at the end.
inline double monotone_end_slope(double h0, double h1, double d0, double d1) {
  const double v = ((2 * h0 + h1) * d0 - h0 * d1) / (h0 + h1);
  if (v * d0 <= 0) return 0;
  if (d0 * d1 <= 0 && std::fabs(v) > 3 * std::fabs(d0)) return 3 * d0;
  return v;
}

/// Weights of a cubic Hermite piece of length h at q = 0..1: value 0, slope 0, value 1, slope 1.
struct Hermite {
  double p0, m0, p1, m1;
};
inline Hermite hermite(double q, double h) {
  const double q2 = q * q, q3 = q2 * q;
  return {2 * q3 - 3 * q2 + 1, h * (q3 - 2 * q2 + q), 3 * q2 - 2 * q3, h * (q3 - q2)};
}

} // namespace mw
