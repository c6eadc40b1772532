#pragma once

#include "acoustics/formants.h"

#include <complex>

namespace mw {

/// What the air meets at the lips.
enum class LipEnd {
  open,      // pressure 0: the ideal end
  mass,      // the added mass of an end correction of 0.8 sqrt(A / pi) (Fant 1960)
  radiating, // piston in a plane wall: mass and radiated power (Flanagan 1972)
};

/// Physics of the tube. The defaults are the speaking tract; all losses 0 and an open end give the lossless textbook
/// tube.
struct TubePhysics {
  double sound_speed = 35000; // cm/s, warm moist air (Fant 1960)
  // Yielding walls and the friction of air, closed form of Sondhi & Schroeter 1987 (constants from memory):
  double wall_ratio =
      406; // Hz, twice the resonance of a closed tract; 406 / 2 = 203 Hz (measured 150-200, Stevens 1998)
  double wall_resonance = 15;  // Hz, of the wall on its own
  double wall_resistance = 65; // Hz, half its damping rate over pi
  double friction = 4;         // 1/s, viscosity and heat: attenuation grows with sqrt(2 pi f friction)
  LipEnd lips = LipEnd::radiating;
};

/// 1 / H, the volume flow at the glottis that gives a unit flow at the lips, at one frequency. The tube has sections.
std::complex<double> inverse_transfer(const AreaFunction& tube, double hz, const TubePhysics& physics = {});

/// Formants (peaks of |H|) of a tube under other physics; as formants_hz else.
std::vector<double> formants_hz(const AreaFunction& tube, const TubePhysics& physics);

/// Smallest area (cm2) that counts as an opening; below it the tube is closed. The area function is floored here.
inline constexpr double closed_area_cm2 = 0.005;

/// A tube of equal cylinders from areas (cm2) in order from the glottis, `section_mm` each, no side branch.
AreaFunction tube_from_areas(std::span<const double> areas_cm2, double section_mm);

} // namespace mw
