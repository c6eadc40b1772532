#pragma once

#include "anatomy/anatomy.h"
#include "score/targets.h"

#include <array>

namespace mw {

/// Height of the tongue-body disc over its backness that keeps one row's opening wherever a vowel pulls the body
/// (tract-model.md section 8): polynomial of degree 7 plus the constant that meets the row exactly.
struct DorsalCurve {
  double opening = 0;            // mm the row's disc stands off the wall; negative: overlap
  double first_x = 0, last_x = 0; // mm, range the curve was fitted on; x is clipped to it
  double centre_x = 45, unit_x = 10;
  std::array<double, 8> coefficients{}; // highest power first
  double shift = 0;
  [[nodiscard]] double height(double x) const;
};

/// Whether the body makes this row's constriction against palate or soft palate, so that it follows a curve.
bool follows_the_palate(const Target& target);

/// The curve of a row on one speaker's palate. Built once per speaker and row, kept for the life of the program; safe to
/// call from any thread.
const DorsalCurve& dorsal_curve(const Anatomy& anatomy, const Target& row);

} // namespace mw
