#include "motion/baked.h"
#include "motion/motion.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace mw {
namespace {
constexpr double least_jaw_mm = 0.5;                      // tooth contact is never commanded
constexpr std::size_t tip_height_channel = 1;             // of the tip tier
constexpr std::size_t body_height_channel = 1;            // of the body tier

template <std::size_t width>
void set_base(const BaseTrack<width>& track, const std::array<double Pose::*, width>& channels, double t, Pose& pose) {
  const std::size_t cell = track.cells.cell(t);
  const std::size_t from = track.from[cell], to = track.to[cell];
  auto x = track.keys[from];
  for (std::size_t k = from; k < to; ++k) {
    const double share = progress(track.ramps[k], t);
    for (std::size_t c = 0; c < width; ++c) x[c] += share * (track.keys[k + 1][c] - track.keys[k][c]);
  }
  for (std::size_t c = 0; c < width; ++c) pose.*channels[c] = x[c];
}

double activation(const BakedMove& m, std::size_t axis, double t) {
  return progress(m.in[axis], t) - progress(m.out[axis], t);
}

/// Lays the moves of the chains under way over channels first..last of a tier, chain after chain.
void lay_over(const TierTrack& track, Tier tier, std::size_t first, std::size_t last, double t, Pose& pose) {
  const auto channels = channels_of(tier);
  const auto live = track.timeline.live(t);
  for (std::size_t i = 0; i < live.size();) {
    const std::size_t chain = track.moves[live[i]].chain;
    std::array<double, tier_width> share{}, pull{};
    for (; i < live.size() && track.moves[live[i]].chain == chain; ++i) {
      const BakedMove& m = track.moves[live[i]];
      const double a = activation(m, 0, t);
      for (std::size_t c = first; c < last; ++c) {
        const double own = tier == Tier::tip && c == tip_height_channel ? activation(m, 1, t) : a;
        const bool curved = m.curve != nullptr && c == body_height_channel;
        share[c] += own * m.weight[c];
        pull[c] += own * (curved ? m.weight[c] * m.curve->height(pose.body_x) : m.pull[c]);
      }
    }
    for (std::size_t c = first; c < last; ++c) {
      double& x = pose.*channels[c].value;
      x = (1 - share[c]) * x + pull[c];
    }
  }
}
void lay_over(const BakedMotion& m, Tier tier, double t, Pose& pose) {
  lay_over(m.tiers[index_of(tier)], tier, 0, channels_of(tier).size(), t, pose);
}

double through_valves(const ValveTrack& track, double x, double t) {
  for (const std::uint32_t i : track.timeline.live(t)) {
    const Valve& v = track.valves[i];
    x += (progress(v.in, t) - progress(v.out, t)) * (v.value - x);
  }
  return x;
}

double overlay_at(const Overlay& o, double t) {
  const double open = progress(o.in, t) - progress(o.out, t);
  if (o.cycles == 0) return o.amount * open;
  const double phase = (t - o.in.start) / (o.out.end - o.in.start);
  return o.amount * open * std::sin(2 * std::numbers::pi * o.cycles * phase);
}

/// The tip of the base rides on the jaw: from the jaw frame to the skull at the jaw opening of now.
void carry_tip(const Anatomy& anatomy, Pose& pose) {
  const Vec2 tip = jaw_transform(anatomy, pose.jaw_opening, pose.jaw_forward).to_skull({pose.tip_x, pose.tip_y});
  pose.tip_x = tip.x;
  pose.tip_y = tip.y;
}
} // namespace

Pose pose_at(const Motion& motion, double t) {
  MW_EXPECT(motion.baked != nullptr);
  const BakedMotion& m = *motion.baked;
  t = std::clamp(t, 0.0, m.duration_s);
  Pose pose;
  set_base(m.base, base_channels, t, pose);
  set_base(m.lips, lip_base_channels, t, pose);
  lay_over(m, Tier::jaw, t, pose);
  carry_tip(*m.anatomy, pose);
  lay_over(m, Tier::lips, t, pose);
  lay_over(m, Tier::tip, t, pose);
  lay_over(m, Tier::blade, t, pose);
  // the height of the body follows from its backness, whatever moves that
  const TierTrack& body = m.tiers[index_of(Tier::body)];
  lay_over(body, Tier::body, 0, 1, t, pose);
  const auto overlays = m.overlays.timeline.live(t);
  for (const std::uint32_t i : overlays) {
    const Overlay& o = m.overlays.overlays[i];
    if (o.value == &Pose::body_x) pose.body_x += overlay_at(o, t);
  }
  lay_over(body, Tier::body, 1, channels_of(Tier::body).size(), t, pose);
  pose.velum = through_valves(m.velum, m.rest_velum, t);
  pose.glottis = through_valves(m.glottis, m.rest_glottis, t);
  pose.larynx = through_valves(m.larynx, pose.larynx, t);
  for (const std::uint32_t i : overlays) {
    const Overlay& o = m.overlays.overlays[i];
    if (o.value != &Pose::body_x) pose.*o.value += overlay_at(o, t);
  }
  pose.jaw_opening = std::max(pose.jaw_opening, least_jaw_mm);
  return pose;
}

} // namespace mw
