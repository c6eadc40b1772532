#include "acoustics/chain.h"

#include "base/expect.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace mw {
namespace {
constexpr double pi = std::numbers::pi;
// Longest piece of tube: |sigma L / c| stays below 0.7 up to 6 kHz, where five terms of the series are exact to 1e-8.
constexpr double piece_cm = 0.6;

std::complex<double> to_std(Complex z) { return {z.re, z.im}; }
Complex from_std(std::complex<double> z) { return {z.real(), z.imag()}; }

// cosh(k L) and sinh(k L) / (k L) as polynomials of L^2: coefficients k^2n / (2n)! and k^2n / (2n + 1)!.
struct Series {
  explicit Series(Complex k2) {
    constexpr double even[] = {2, 24, 720, 40320}, odd[] = {6, 120, 5040, 362880};
    Complex power = k2;
    for (std::size_t n = 0; n < 4; ++n, power = power * k2) {
      cosh[n] = (1 / even[n]) * power;
      sinh_ratio[n] = (1 / odd[n]) * power;
    }
  }
  static Complex sum(const std::array<Complex, 4>& c, double l2) {
    const Complex inner = c[0] + l2 * (c[1] + l2 * (c[2] + l2 * c[3]));
    return Complex{1, 0} + l2 * inner;
  }
  std::array<Complex, 4> cosh, sinh_ratio;
};
} // namespace

Chain::Chain(const AreaFunction& tube, const TubePhysics& physics) : physics_(physics) {
  MW_EXPECT(!tube.sections.empty());
  links_.reserve(tube.sections.size());
  for (std::size_t i = 0; i < tube.sections.size(); ++i) {
    const double length = tube.sections[i].length_mm / 10, area = std::max(tube.sections[i].area_cm2, closed_area_cm2);
    const int pieces = std::max(1, static_cast<int>(std::ceil(length / piece_cm)));
    const double l = length / pieces;
    links_.push_back({l * l, l * area, l / area, pieces, tube.side_volume_cm3 > 0 && i == tube.side_at_section});
  }
  lip_area_ = std::max(tube.sections.back().area_cm2, closed_area_cm2);
  side_volume_ = tube.side_volume_cm3;
  side_length_ = tube.side_length_cm;
}

// Closed side tube of volume V and length l seen from the main tube, in the units of the chain: V tanh(x) / x, x = k l.
Complex Chain::side_admittance(Complex k2) const {
  const std::complex<double> x = std::sqrt(to_std(k2)) * side_length_;
  return from_std(side_volume_ * std::tanh(x) / x);
}

// Load impedance at the lips times (beta + jw) / (rho c^2): what turns the pressure term into a flow term.
Complex Chain::lip_load(Complex jw, Complex wall) const {
  const double r = std::sqrt(lip_area_ / pi), c = physics_.sound_speed;
  if (physics_.lips == LipEnd::open) return {};
  if (physics_.lips == LipEnd::mass) return (0.8 * r / (c * c * lip_area_)) * (jw * wall);
  // Resistance and mass in parallel: piston in an infinite baffle (Flanagan 1972).
  constexpr double resistance = 128 / (9 * pi * pi);
  const Complex x = (8 * r / (3 * pi * c)) * jw;
  const Complex below{resistance + x.re, -x.im}; // conjugate of R + jwX
  const Complex z = (resistance / squared(below)) * (x * below);
  return (1 / (c * lip_area_)) * (z * wall);
}

// Bottom row of the chain matrix, carried from the glottis (0, 1) to the lips: a pressure term p, scaled by
// sigma / (rho c^2 gamma), and a flow term q. No square root of the wave number is needed.
Complex Chain::inverse_transfer(double hz) const {
  const double w = 2 * pi * hz, c = physics_.sound_speed;
  const Complex jw{0, w};
  const double half = std::sqrt(w * physics_.friction / 2); // sqrt(jw friction) = (1 + j) half
  const Complex alpha{half, half};
  const double a = 2 * pi * physics_.wall_resistance, b = std::pow(2 * pi * physics_.wall_resonance, 2),
               w02 = std::pow(pi * physics_.wall_ratio, 2);
  const std::complex<double> wall_term = to_std(jw) * w02 / ((to_std(jw) + a) * to_std(jw) + b);
  const Complex wall = alpha + from_std(wall_term) + jw;    // beta + jw
  const Complex k2 = (1 / (c * c)) * ((alpha + jw) * wall); // (sigma / c)^2

  Complex p{0, 0}, q{1, 0};
  const Complex side = side_volume_ > 0 ? side_admittance(k2) : Complex{};
  const Series series(k2);
  for (const Link& link : links_) {
    const Complex ch = Series::sum(series.cosh, link.length2), sh = Series::sum(series.sinh_ratio, link.length2);
    for (int i = 0; i < link.pieces; ++i) {
      const Complex next = p * ch + link.length_area * (q * sh);
      q = link.length_over_area * (p * (k2 * sh)) + q * ch;
      p = next;
    }
    if (link.side_branch) p = p + q * side;
  }
  return p * lip_load(jw, wall) + q;
}

} // namespace mw
