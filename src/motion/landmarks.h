#pragma once

#include "motion/motion.h"

#include <string_view>
#include <vector>

namespace mw {

enum class LandmarkKind { onset, contact_made, reached, release, contact_broken, offset };
std::string_view to_text(LandmarkKind kind); // onset, contact_made, ...

/// A moment of one gesture worth stopping at.
struct Landmark {
  double time_s = 0;
  LandmarkKind kind = LandmarkKind::onset;
  std::size_t gesture = 0; // index into score.gestures
  std::size_t segment = 0;
  Articulator articulator = Articulator::tip;
  bool operator==(const Landmark&) const = default;
};

/// Landmarks of every gesture in order of time. Ends of ramps are exact; contact is where the commanded opening of lips,
/// tip or body passes 0, found by 24 bisections, and only for primary closures that are made.
std::vector<Landmark> landmarks(const Score& score, const Motion& motion);

} // namespace mw
