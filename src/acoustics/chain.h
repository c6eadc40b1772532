#pragma once

#include "acoustics/tube.h"

#include <vector>

namespace mw {

/// A complex number without the special cases of std::complex: the inner loop of the tube is all products.
struct Complex {
  double re = 0, im = 0;
};
inline Complex operator*(Complex a, Complex b) { return {a.re * b.re - a.im * b.im, a.re * b.im + a.im * b.re}; }
inline Complex operator*(double a, Complex b) { return {a * b.re, a * b.im}; }
inline Complex operator+(Complex a, Complex b) { return {a.re + b.re, a.im + b.im}; }
inline double squared(Complex a) { return a.re * a.re + a.im * a.im; }

/// The chain of two-ports from glottis to lips, made once per tube and evaluated at many frequencies.
class Chain {
public:
  Chain(const AreaFunction& tube, const TubePhysics& physics);
  [[nodiscard]] Complex inverse_transfer(double hz) const;

private:
  struct Link {
    double length2, length_area, length_over_area; // of one piece, cm
    int pieces;                                    // equal pieces short enough for the power series
    bool side_branch;                              // the side tube joins at the lip end of this link
  };
  [[nodiscard]] Complex side_admittance(Complex k2) const;
  [[nodiscard]] Complex lip_load(Complex jw, Complex wall) const;

  TubePhysics physics_;
  std::vector<Link> links_;
  double lip_area_ = 1, side_volume_ = 0, side_length_ = 0;
};

} // namespace mw
