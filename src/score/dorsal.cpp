#include "score/dorsal.h"

#include "anatomy/places.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <mutex>
#include <tuple>

namespace mw {
namespace {
constexpr std::size_t terms = 8;
using Row = std::array<double, terms>;

/// Least squares by Householder reflections; rows.size() >= terms. Columns are scaled to unit length first.
Row solve_least_squares(std::vector<Row> a, std::vector<double> b) {
  const std::size_t m = a.size();
  Row scale{};
  for (std::size_t k = 0; k < terms; ++k) {
    for (const auto& row : a) scale[k] += row[k] * row[k];
    scale[k] = std::sqrt(scale[k]);
    for (auto& row : a) row[k] /= scale[k];
  }
  for (std::size_t k = 0; k < terms; ++k) {
    double norm = 0;
    for (std::size_t i = k; i < m; ++i) norm += a[i][k] * a[i][k];
    norm = std::copysign(std::sqrt(norm), a[k][k]);
    std::vector<double> v(m, 0.0);
    for (std::size_t i = k; i < m; ++i) v[i] = a[i][k];
    v[k] += norm;
    double vv = 0;
    for (std::size_t i = k; i < m; ++i) vv += v[i] * v[i];
    const auto reflect = [&](auto&& at) {
      double dot = 0;
      for (std::size_t i = k; i < m; ++i) dot += v[i] * at(i);
      for (std::size_t i = k; i < m; ++i) at(i) -= 2 * dot / vv * v[i];
    };
    for (std::size_t j = k; j < terms; ++j) reflect([&](std::size_t i) -> double& { return a[i][j]; });
    reflect([&](std::size_t i) -> double& { return b[i]; });
  }
  Row x{};
  for (std::size_t k = terms; k-- > 0;) {
    double rest = b[k];
    for (std::size_t j = k + 1; j < terms; ++j) rest -= a[k][j] * x[j];
    x[k] = rest / a[k][k];
  }
  for (std::size_t k = 0; k < terms; ++k) x[k] /= scale[k];
  return x;
}

double polynomial(const Row& c, double q) {
  double y = 0;
  for (const double k : c) y = y * q + k;
  return y;
}

/// Disc centres that keep the opening along the palate, those that do not advance left out (mm).
std::vector<Vec2> centres_along(const Anatomy& anatomy, double opening, double velum) {
  std::vector<Vec2> centres;
  double furthest = -std::numeric_limits<double>::infinity();
  for (int u = 24; u <= 64; ++u) {
    const Vec2 c = body_goal(anatomy, u * anatomy.jaw_x, opening, velum);
    if (centres.empty() || std::max(furthest, c.x) - furthest > 0.05) centres.push_back(c);
    furthest = std::max(furthest, c.x);
  }
  return centres;
}

DorsalCurve build(const Anatomy& anatomy, Vec2 disc, double row_velum) {
  // a nasal is judged against the soft palate it meets in speech, 0.6 open
  const double velum = row_velum > 0.5 ? 0.6 : row_velum;
  DorsalCurve curve;
  curve.opening = std::numeric_limits<double>::infinity();
  for (const Vec2 w : wall_table(anatomy, velum).point) curve.opening = std::min(curve.opening, glm::distance(w, disc));
  curve.opening -= body_radius(anatomy, disc);
  curve.centre_x = 45 * anatomy.jaw_x;
  curve.unit_x = 10 * anatomy.jaw_x;
  const auto centres = centres_along(anatomy, curve.opening, velum);
  MW_EXPECT(centres.size() > terms);
  curve.first_x = centres.front().x;
  curve.last_x = centres.back().x;
  std::vector<Row> powers;
  std::vector<double> heights;
  for (const Vec2 c : centres) {
    Row row{};
    row.back() = 1;
    for (std::size_t k = terms - 1; k-- > 0;) row[k] = row[k + 1] * ((c.x - curve.centre_x) / curve.unit_x);
    powers.push_back(row);
    heights.push_back(c.y);
  }
  curve.coefficients = solve_least_squares(std::move(powers), std::move(heights));
  curve.shift = disc.y - curve.height(disc.x);
  return curve;
}
} // namespace

double DorsalCurve::height(double x) const {
  return polynomial(coefficients, (std::clamp(x, first_x, last_x) - centre_x) / unit_x) + shift;
}

bool follows_the_palate(const Target& target) {
  if (target.manner == "click") return true; // its back closure
  if (target.primary != Primary::body) return false;
  return target.place == "velar" || target.place == "palatal" || target.place == "labial-velar" ||
         target.place == "palatal (bunched)";
}

const DorsalCurve& dorsal_curve(const Anatomy& anatomy, const Target& row) {
  using Key = std::tuple<std::string, double, double, double>;
  static std::mutex lock;
  static std::map<Key, std::unique_ptr<const DorsalCurve>> known; // grows with the rows in use only
  const Key key{anatomy.id, row.pose.body_x, row.pose.body_y, row.pose.velum};
  const std::lock_guard guard(lock);
  auto& curve = known[key];
  if (!curve) curve = std::make_unique<const DorsalCurve>(build(anatomy, {row.pose.body_x, row.pose.body_y}, row.pose.velum));
  return *curve;
}

} // namespace mw
