#pragma once

#include "tract/outline.h"

#include <memory>
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

/// Area functions of one speaker. Keeps its working memory: no allocation after the first few calls. One per thread.
class AreaMeter {
public:
  explicit AreaMeter(std::shared_ptr<const Anatomy> anatomy);
  ~AreaMeter();
  AreaMeter(AreaMeter&&) noexcept;
  AreaMeter& operator=(AreaMeter&&) noexcept;

  /// As area_function of this speaker. The reference is good until the next call.
  const AreaFunction& measure(const Outline& outline, const Pose& pose);

private:
  struct Work;
  friend AreaFunction area_function(const Anatomy& anatomy, const Outline& outline, const Pose& pose);
  std::shared_ptr<const Anatomy> anatomy_;
  std::unique_ptr<Work> work_;
};

/// Formants in Hz, lowest first, below 6 kHz. Empty when the tube is closed somewhere.
std::vector<double> formants_hz(const AreaFunction& tube);

} // namespace mw
