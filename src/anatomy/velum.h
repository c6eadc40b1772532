#pragma once

#include "anatomy/anatomy.h"

#include <span>

namespace mw {

inline constexpr int velum_samples = 48, velum_cap_samples = 7;

/// The soft palate in memory of fixed size, for the tracer; see VelumShape for the meaning.
struct VelumSamples {
  std::array<Vec2, velum_samples> centre, under, upper;
  std::array<double, velum_samples> radius;
  std::array<Vec2, velum_cap_samples> cap;
};

/// Centreline and half-thickness at one opening (0 shut .. 1 open).
void set_velum_centre(const Anatomy& anatomy, double opening, VelumSamples& velum);
/// Under face alone, from the centreline.
void set_velum_under(VelumSamples& velum);
/// Under face, round end and upper face from the centreline. Round end and upper face may still overlap the back wall:
/// the caller keeps them off with the contact law of velum_wall_softness (mm).
void set_velum_faces(VelumSamples& velum);
inline constexpr double velum_wall_softness = 0.6;

/// Centreline samples as weights of the eight joints (spline through the joints by link length, not-a-knot ends).
std::vector<std::array<double, 8>> velum_spline_weights(std::span<const double, 7> lengths);

} // namespace mw
