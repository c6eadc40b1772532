#pragma once

#include "tract/outline.h"

#include <vector>

namespace mw {

/// One tube section, from the glottis on.
struct TubeSection {
  double from_glottis_mm = 0, length_mm = 0, area_cm2 = 0;
};
struct AreaFunction {
  std::vector<TubeSection> sections; // glottis to lips, lips included
  double tract_length_mm = 0;
  // sublingual side branch; volume 0 = none
  double side_volume_cm3 = 0, side_length_cm = 0;
  std::size_t side_at_section = 0;
};
/// Area function of a pose (tract-model.md section 9).
AreaFunction area_function(const Anatomy& anatomy, const Outline& outline, const Pose& pose);

/// Formants in Hz, lowest first, below 6 kHz. Empty when the tube is closed somewhere.
std::vector<double> formants_hz(const AreaFunction& tube);

} // namespace mw
