#pragma once

#include <cstddef>
#include <optional>

namespace mw::app {

/// How brightly a clash is lit: fades in, stays at least a third of a second of wall time, fades out (visual design,
/// section 9). A part never goes off and on within a second.
struct Glow {
  std::optional<std::size_t> clash; // lit or fading
  double level = 0;                 // 0..1
  double held_s = 0;                // since it was lit
  bool operator==(const Glow&) const = default;
};

inline constexpr double glow_in_s = 0.150, glow_hold_s = 0.350, glow_out_s = 0.250;

/// The glow after so much wall time, when `wanted` is the clash under the playhead (none: none). `at_once`: standing still.
Glow glow_on(Glow glow, std::optional<std::size_t> wanted, double wall_s, bool at_once);
/// Whether it still changes by itself.
bool is_fading(const Glow& glow, std::optional<std::size_t> wanted);

/// A switch that goes on and off in 200 ms of wall time (spotlight, cover, blank).
inline constexpr double fade_s = 0.200;
double fade_on(double level, bool wanted, double wall_s, bool at_once);

} // namespace mw::app
