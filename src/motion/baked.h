#pragma once

#include "score/plan.h"

#include <cstdint>

namespace mw {

/// Items in order of time and which of them are under way when: `edges` cut time into cells, each cell has a short range
/// of indices, ascending.
struct Timeline {
  std::vector<double> edges;
  std::vector<std::uint32_t> first; // per cell: where its indices begin in `items`; one more at the end
  std::vector<std::uint32_t> items;
  [[nodiscard]] std::size_t cell(double t) const;
  [[nodiscard]] std::span<const std::uint32_t> live(double t) const;
};
/// Item i is live while spans[i].start < t < spans[i].end.
Timeline make_timeline(const std::vector<Ramp>& spans);

/// A sum of ramps from posture to posture on some channels.
template <std::size_t width> struct BaseTrack {
  std::vector<std::array<double, width>> keys;
  std::vector<Ramp> ramps;
  Timeline cells;                                // of the ramps
  std::vector<std::uint32_t> from, to;           // per cell: first ramp not finished, one past the last ramp begun
};
inline constexpr std::array base_channels{&Pose::jaw_opening, &Pose::jaw_forward, &Pose::body_x, &Pose::body_y, &Pose::root,
                                          &Pose::epiglottis,  &Pose::larynx, &Pose::tip_x,  &Pose::tip_y,
                                          &Pose::tip_curl,    &Pose::blade,  &Pose::sides,  &Pose::groove};
inline constexpr std::array lip_base_channels{&Pose::lip_opening, &Pose::lip_protrusion, &Pose::lip_rounding,
                                              &Pose::lip_tuck};

/// A move ready to be evaluated: weights, weighted targets, ramps on both axes (axis 1: height of the tip, which goes round
/// the upper incisors; axis 0: everything else).
struct BakedMove {
  std::size_t chain = 0;
  std::array<Ramp, 2> in{}, out{};
  std::array<double, tier_width> weight{}, pull{};
  const DorsalCurve* curve = nullptr;
};
struct TierTrack {
  std::vector<BakedMove> moves;
  Timeline timeline;
};
struct ValveTrack {
  std::vector<Valve> valves;
  Timeline timeline;
};
struct OverlayTrack {
  std::vector<Overlay> overlays;
  Timeline timeline;
};

/// Ramps by channel, sorted for search.
struct BakedMotion {
  std::shared_ptr<const Anatomy> anatomy;
  BaseTrack<base_channels.size()> base;
  BaseTrack<lip_base_channels.size()> lips;
  std::array<TierTrack, tier_count> tiers;
  ValveTrack velum, glottis, larynx;
  OverlayTrack overlays;
  double rest_velum = 0, rest_glottis = 0;
  double duration_s = 0;
};

} // namespace mw
