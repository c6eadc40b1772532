#pragma once

#include <array>
#include <cstddef>
#include <optional>

namespace mw::app {

/// How brightly a clash is lit: fades in, stays at least a third of a second of wall time, fades out (visual design,
/// section 9). A part never goes off and on within a second.
struct Glow {
  std::optional<std::size_t> clash; // lit or fading
  double level = 0;                 // 0..1
  double held_s = 0;                // since it was lit
  int part = -1;                    // of the mouth that it lights; see lit_part
  std::array<double, 9> dark_s = long_dark(); // since each part went off
  static constexpr std::array<double, 9> long_dark() { std::array<double, 9> out{}; out.fill(1e9); return out; }
  bool operator==(const Glow&) const = default;
};

inline constexpr double glow_in_s = 0.150, glow_hold_s = 0.350, glow_out_s = 0.250, glow_calm_s = 1.0;

/// The glow after so much wall time, when `wanted` is the clash under the playhead (none: none). `at_once`: standing still.
/// `part`: what the wanted clash lights; one that went off less than a second ago stays dark until then (-1: no part).
Glow glow_on(Glow glow, std::optional<std::size_t> wanted, double wall_s, bool at_once, int part = -1);
/// Whether it still changes by itself.
bool is_fading(const Glow& glow, std::optional<std::size_t> wanted);

/// A switch that goes on and off in 200 ms of wall time (spotlight, cover, blank).
inline constexpr double fade_s = 0.200;
double fade_on(double level, bool wanted, double wall_s, bool at_once);

} // namespace mw::app
