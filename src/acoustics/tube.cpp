#include "acoustics/tube.h"

#include "acoustics/chain.h"
#include "base/expect.h"

namespace mw {

std::complex<double> inverse_transfer(const AreaFunction& tube, double hz, const TubePhysics& physics) {
  const Chain chain(tube, physics);
  const Complex d = chain.inverse_transfer(hz);
  return {d.re, d.im};
}

AreaFunction tube_from_areas(std::span<const double> areas_cm2, double section_mm) {
  AreaFunction tube;
  for (const double area : areas_cm2) {
    tube.sections.push_back({tube.tract_length_mm, section_mm, area});
    tube.tract_length_mm += section_mm;
  }
  return tube;
}

} // namespace mw
