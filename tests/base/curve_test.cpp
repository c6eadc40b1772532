#include "base/curve.h"

#include <cmath>
#include <doctest/doctest.h>
#include <numbers>

using namespace mw;

namespace {
Polyline circle(int n, double r) {
  Polyline ring;
  for (int i = 0; i < n; ++i) {
    const double a = 2 * std::numbers::pi * i / n;
    ring.push_back({r * std::cos(a), r * std::sin(a)});
  }
  return ring;
}
} // namespace

TEST_CASE("curve: an open spline meets its control points and is straight on a straight line") {
  const Polyline line{{0, 0}, {1, 1}, {4, 4}, {9, 9}};
  for (const Vec2 p : spline_through(line, 50)) CHECK(p.x == doctest::Approx(p.y).epsilon(1e-12));
}

TEST_CASE("curve: a closed spline through a circle encloses its area and joins smoothly") {
  const auto ring = spline_through(circle(12, 10), 721, true);
  CHECK(glm::distance(ring.front(), ring.back()) < 1e-9);
  CHECK(signed_area(ring) == doctest::Approx(std::numbers::pi * 100).epsilon(2e-3));
  const Vec2 first = ring[1] - ring[0], last = ring[720] - ring[719];
  CHECK(std::abs(cross(glm::normalize(first), glm::normalize(last))) < 0.02);
}

TEST_CASE("curve: ramp is a minimum-jerk step, its inverse inverts, peak speed 1.875") {
  CHECK(ramp(0.5) == doctest::Approx(0.5));
  CHECK(ramp_inverse(ramp(0.3)) == doctest::Approx(0.3).epsilon(1e-6));
  CHECK((ramp(0.5 + 1e-5) - ramp(0.5 - 1e-5)) / 2e-5 == doctest::Approx(1.875).epsilon(1e-6));
}

TEST_CASE("curve: the airway side of a wall is the right of travel") {
  const Polyline wall{{0, 0}, {10, 0}};
  CHECK(nearest_on(wall, {5, -2}).distance == doctest::Approx(2));
  CHECK(nearest_on(wall, {5, 2}).distance == doctest::Approx(-2));
  CHECK(nearest_on(wall, {-3, 1}).beyond_end);
}

TEST_CASE("curve: a figure of eight is not simple, a circle is") {
  CHECK(is_simple(circle(20, 3), true));
  CHECK_FALSE(is_simple(Polyline{{0, 0}, {2, 2}, {2, 0}, {0, 2}}, true));
}

TEST_CASE("curve: softclamp has no jump in value or slope") {
  for (double at : {-0.9, 0.9}) {
    CHECK(soft_clamp(at - 1e-9, 0.9) == doctest::Approx(soft_clamp(at + 1e-9, 0.9)).epsilon(1e-6));
    const double before = (soft_clamp(at, 0.9) - soft_clamp(at - 1e-6, 0.9)) / 1e-6;
    const double after = (soft_clamp(at + 1e-6, 0.9) - soft_clamp(at, 0.9)) / 1e-6;
    CHECK(before == doctest::Approx(after).epsilon(1e-4));
  }
}
