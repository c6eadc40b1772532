#include "acoustics/chain.h"

#include "base/expect.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace mw {
namespace {
constexpr double pi = std::numbers::pi;
// Longest piece of tube: |sigma L / c| stays below 0.7 up to 6 kHz, where five terms of the series are exact to 1e-8.
constexpr double piece_cm = 0.6;

std::complex<double> to_std(Complex z) { return {z.re, z.im}; }
Complex from_std(std::complex<double> z) { return {z.real(), z.imag()}; }

// cosh(x) and sinh(x) / x of u = x^2.
Complex cosh_of(Complex u) {
  constexpr double c[] = {1.0 / 3628800, 1.0 / 40320, 1.0 / 720, 1.0 / 24, 1.0 / 2, 1.0};
  Complex sum{c[0], 0};
  for (int i = 1; i < 6; ++i) sum = u * sum + Complex{c[i], 0};
  return sum;
}
Complex sinh_ratio_of(Complex u) {
  constexpr double c[] = {1.0 / 39916800, 1.0 / 362880, 1.0 / 5040, 1.0 / 120, 1.0 / 6, 1.0};
  Complex sum{c[0], 0};
  for (int i = 1; i < 6; ++i) sum = u * sum + Complex{c[i], 0};
  return sum;
}
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
  const Complex wall = alpha + from_std(wall_term) + jw;  // beta + jw
  const Complex k2 = (1 / (c * c)) * ((alpha + jw) * wall); // (sigma / c)^2

  Complex p{0, 0}, q{1, 0};
  const Complex side = side_volume_ > 0 ? side_admittance(k2) : Complex{};
  for (const Link& link : links_) {
    const Complex u = link.length2 * k2, ch = cosh_of(u), sh = sinh_ratio_of(u);
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
