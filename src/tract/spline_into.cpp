#include "tract/work.h"

#include <algorithm>
#include <cmath>

namespace mw {
namespace {
constexpr std::size_t most = 40;

// Centripetal parameter: the square root of each chord.
std::array<double, most> parameters(std::span<const Vec2> p) {
  MW_EXPECT(p.size() >= 2 && p.size() <= most);
  std::array<double, most> t{};
  for (std::size_t i = 1; i < p.size(); ++i)
    t[i] = t[i - 1] + std::max(std::sqrt(glm::distance(p[i], p[i - 1])), 1e-6);
  return t;
}
} // namespace

void spline_into(std::span<const Vec2> p, std::size_t samples, Polyline& out) {
  const std::size_t n = p.size();
  const auto t = parameters(p);
  // second derivatives, 0 at both ends (Thomas algorithm)
  std::array<double, most> c{};
  std::array<Vec2, most> m{};
  for (std::size_t i = 1; i + 1 < n; ++i) {
    const double h0 = t[i] - t[i - 1], h1 = t[i + 1] - t[i], b = 2 * (h0 + h1) - h0 * c[i - 1];
    c[i] = h1 / b;
    m[i] = (6.0 * ((p[i + 1] - p[i]) / h1 - (p[i] - p[i - 1]) / h0) - h0 * m[i - 1]) / b;
  }
  m[n - 1] = Vec2(0);
  for (std::size_t i = n - 1; i-- > 1;) m[i] -= c[i] * m[i + 1];
  out.resize(samples);
  std::size_t i = 0;
  for (std::size_t k = 0; k < samples; ++k) {
    const double x = t[n - 1] * static_cast<double>(k) / static_cast<double>(samples - 1);
    while (i + 2 < n && x > t[i + 1]) ++i;
    const double h = t[i + 1] - t[i], a = (t[i + 1] - x) / h, b = (x - t[i]) / h;
    out[k] = a * p[i] + b * p[i + 1] + ((a * a * a - a) * m[i] + (b * b * b - b) * m[i + 1]) * (h * h / 6);
  }
}

int knot_sample(std::span<const Vec2> points, std::size_t i, std::size_t samples) {
  const auto t = parameters(points);
  return static_cast<int>(std::lround(t[i] / t[points.size() - 1] * static_cast<double>(samples - 1)));
}

} // namespace mw
