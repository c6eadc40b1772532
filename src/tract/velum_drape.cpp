#include "tract/work.h"

#include <algorithm>
#include <cmath>

// The soft palate gives way to the tongue: as a whole before the tongue is built, with its free end after.
namespace mw {
namespace {
// Body disc overlap (mm) that is left to the tongue's own contact before the velum yields, and mm per unit of opening.
constexpr double free_overlap = 2.2, overlap_per_opening = 16.0;
constexpr std::size_t first_free = 16; // centreline sample where the free end starts, full 14 samples on
constexpr double ramp_samples = 14;
constexpr double deepest = 12; // mm inside the tongue that still counts as contact
constexpr double clearance = 0.02, clearance_depth = 6; // mm: no sample of the under face stays inside the tongue

double free_share(std::size_t i) {
  return i <= first_free ? 0.0 : std::min(static_cast<double>(i - first_free) / ramp_samples, 1.0);
}

// One round of the draping; false when nothing touched.
bool drape_once(const BoxedLine& back, VelumSamples& velum) {
  std::array<double, velum_samples> push{};
  std::array<Vec2, velum_samples> normal{};
  bool touched = false;
  // the smoothing below spreads a push to two neighbours, so their normals are needed too
  for (std::size_t i = first_free - 2; i < velum_samples; ++i) {
    const Nearest near = back.nearest(velum.centre[i], 1, deepest);
    normal[i] = near.normal;
    if (near.distance > 1e100 || near.beyond_end) continue;
    push[i] = soft_clamp(velum.radius[i] - 0.4 - near.distance, 0.4) * free_share(i);
    touched = touched || push[i] > 0;
  }
  if (!touched) return false;
  for (int pass = 0; pass < 2; ++pass) {
    double before = push[0];
    for (std::size_t i = 1; i + 1 < velum_samples; ++i) {
      const double own = push[i];
      push[i] = 0.25 * before + 0.5 * own + 0.25 * push[i + 1];
      before = own;
    }
  }
  for (std::size_t i = 0; i < velum_samples; ++i) velum.centre[i] += normal[i] * push[i];
  return true;
}

void stay_out(const BoxedLine& back, std::span<Vec2> points) {
  for (Vec2& p : points) {
    if (back.outside(p, clearance)) continue;
    const Nearest near = back.nearest(p, 1, clearance_depth);
    if (near.distance < clearance && near.distance > -clearance_depth && !near.beyond_end)
      p += near.normal * (clearance - near.distance);
  }
}
} // namespace

double yielded_velum(const Anatomy& anatomy, const Pose& pose, VelumSamples& scratch) {
  double opening = pose.velum;
  const Vec2 body(pose.body_x, pose.body_y);
  const double radius = body_radius(anatomy, body);
  for (int round = 0; round < 2 && opening > 0; ++round) {
    set_velum_centre(anatomy, opening, scratch);
    set_velum_under(scratch);
    double least = 1e300;
    for (std::size_t i = 8; i < velum_samples; ++i) {
      const Vec2 d = scratch.under[i] - body;
      least = std::min(least, d.x * d.x + d.y * d.y);
    }
    const double overlap = radius - std::sqrt(least);
    opening = std::max(0.0, opening - soft_clamp(overlap - free_overlap, 1.0) / overlap_per_opening);
  }
  return opening;
}

void keep_off_throat(const FixedParts& fixed, VelumSamples& velum) {
  const auto keep_off = [&](Vec2& p) {
    if (fixed.throat.far(p)) return;
    const Nearest near = fixed.throat.nearest(p);
    if (near.distance < velum_wall_softness)
      p += near.normal * (soft_clamp(near.distance, velum_wall_softness) - near.distance);
  };
  for (Vec2& p : velum.cap) keep_off(p);
  for (Vec2& p : velum.upper) keep_off(p);
}

void drape_velum(const FixedParts& fixed, const BoxedLine& tongue_back, VelumSamples& velum) {
  bool moved = false;
  for (int round = 0; round < 3; ++round) {
    if (!drape_once(tongue_back, velum)) break;
    moved = true;
  }
  if (moved) {
    set_velum_faces(velum);
    keep_off_throat(fixed, velum);
  }
  stay_out(tongue_back, velum.under);
  stay_out(tongue_back, velum.cap);
}

} // namespace mw
