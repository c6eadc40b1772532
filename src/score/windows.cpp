#include "score/movement.h"
#include "score/planning.h"

#include <algorithm>
#include <cmath>

namespace mw {
namespace {
constexpr TierPace paces[tier_count] = {
    {.time_s = 0.160, .room = 1.9, .room_both = 1.2, .top_speed = 170}, // jaw
    {.time_s = 0.120, .room = 1.35, .room_both = 1.2, .top_speed = 330}, // lips
    {.time_s = 0.120, .room = 1.6, .room_both = 1.6, .top_speed = 420}, // tip
    {.time_s = 0.120, .room = 1.6, .room_both = 1.2, .top_speed = 420}, // blade
    {.time_s = 0.140, .room = 1.7, .room_both = 1.2, .top_speed = 330}, // body
};
constexpr double both_limit = 1.6, one_limit = 2.0; // times the room that the speed cap may still ask for
constexpr double least_room_s = 0.04, shortest_ramp_s = 0.045;
constexpr double inner_beta = 0.30; // largest beta of a closure where it hands over inside a chain
constexpr double far_s = 9.0;

/// Size (mm) of the movement between the vowels at t and the target, each channel by its weight.
double distance_from_base(const TierView& view, const Draft& q, double t) {
  std::array<double, tier_width> from{};
  for (std::size_t c = 0; c < view.channels.size(); ++c)
    if (view.channels[c].size) from[c] = base_at(view.base, view.channels[c].value, t);
  if (view.tier == Tier::tip) {
    const auto jaw = jaw_transform(view.anatomy, base_at(view.base, &Pose::jaw_opening, t));
    const Vec2 tip = jaw.to_skull({from[0], from[1]});
    from[0] = tip.x;
    from[1] = tip.y;
  }
  double sum = 0;
  for (std::size_t c = 0; c < view.channels.size(); ++c)
    if (view.channels[c].size) sum += std::pow(q.weight[c] * (q.target[c] - from[c]), 2);
  return std::sqrt(sum);
}

bool is_own_obstruent(const TierView& view, const Draft& q) { return q.primary && view.row(q).velum_weight > 0; }

/// Length of one outer ramp of a chain: the movement's own time, the room up to the neighbouring chain, the speed cap.
double ramp_length(const TierView& view, const Draft& q, double t, const Draft* neighbour, double room_s, bool edge) {
  const double mm = distance_from_base(view, q, t);
  double time = move_time(view.tier, mm, view.row(q).time_scale);
  if (edge) {
    const double room = std::max(room_s, least_room_s);
    const bool both = neighbour != nullptr && is_own_obstruent(view, q) && is_own_obstruent(view, *neighbour);
    const TierPace& pace = pace_of(view.tier);
    const double limit = both ? both_limit * room : neighbour != nullptr && neighbour->primary ? one_limit * room : far_s;
    time = std::max(std::min(time, (both ? pace.room_both : pace.room) * room),
                    std::min(fastest_time(view.tier, mm), limit));
  }
  return std::max(time, shortest_ramp_s);
}

/// Length (mm) of the closing movement along the direction of contact.
double way(const TierView& view, const Draft& q, double t) {
  if (view.tier == Tier::lips) return base_at(view.base, &Pose::lip_opening, t) - q.target[0];
  if (q.curve == nullptr) return 15.0 * view.anatomy.tongue_scale;
  const double w = q.weight[0];
  const double x = w * q.target[0] + (1 - w) * base_at(view.base, &Pose::body_x, t);
  return q.curve->height(x) - base_at(view.base, &Pose::body_y, t);
}

/// A closure of lips or body is made when the commanded overlap begins: early in the ramp when the way is short.
double contact_share(const TierView& view, const Draft& q, double t) {
  double overlap = view.tier == Tier::lips ? -q.target[0] : q.curve != nullptr ? -q.curve->opening : 2.5;
  overlap = std::max(0.5, overlap);
  const double left = 1 - overlap / std::max(way(view, q, t), overlap);
  return std::clamp(1 - ramp_inverse(std::clamp(left, 0.3, 0.95)), 0.2, 0.5);
}

Effect effect_of(const TierView& view, const Draft& q) {
  if (!q.primary) return other_effect;
  return view.row(q).manner.find("fric") != std::string::npos ? fricative_effect : closure_effect;
}

/// Effect of both ramps; returns the dip.
double set_effect(const TierView& view, Draft& q, bool first, bool last) {
  const Effect effect = effect_of(view, q);
  q.beta_in = q.beta_out = effect.beta;
  const bool by_contact = q.primary && view.holds_closed(q) && (view.tier == Tier::lips || view.tier == Tier::body);
  if (!by_contact) return effect.dip;
  q.beta_in = contact_share(view, q, q.effective_from_s);
  q.beta_out = contact_share(view, q, q.effective_to_s);
  // inside a chain the way starts at the neighbour's posture, not at the vowel
  if (!first) q.beta_in = std::min(q.beta_in, inner_beta);
  if (!last) q.beta_out = std::min(q.beta_out, inner_beta);
  return 0.9 * std::min(q.beta_in, q.beta_out);
}

void set_plateau(Draft& q, double dip) {
  const double stretch = q.effective_to_s - q.effective_from_s;
  const double needed = std::max((q.beta_in + q.beta_out - dip) * 0.5 * (q.closing_s + q.opening_s), 1e-6);
  const double shorter = std::min(1.0, std::max(stretch / needed, 0.6));
  q.closing_s *= shorter;
  q.opening_s *= shorter;
  q.gap_s = dip * 0.5 * (q.closing_s + q.opening_s);
  q.hold_from_s = q.effective_from_s + q.beta_in * q.closing_s;
  q.hold_to_s = q.effective_to_s - q.beta_out * q.opening_s;
  if (q.hold_to_s >= q.hold_from_s - q.gap_s) return;
  const double middle = 0.5 * (q.hold_from_s + q.hold_to_s);
  q.hold_from_s = middle + 0.5 * q.gap_s;
  q.hold_to_s = middle - 0.5 * q.gap_s;
}
} // namespace

const TierPace& pace_of(Tier tier) { return paces[index_of(tier)]; }

double move_time(Tier tier, double mm, double scale) {
  return pace_of(tier).time_s * scale * std::clamp(0.65 + 0.035 * mm, 0.65, 1.5);
}

void set_windows(const TierView& view, DraftChain& chain, const Draft* last, const Draft* next) {
  for (std::size_t i = 0; i < chain.size(); ++i) {
    Draft& q = chain[i];
    const bool first_one = i == 0, last_one = i + 1 == chain.size();
    const double room_in = last != nullptr ? q.effective_from_s - last->effective_to_s : far_s;
    const double room_out = next != nullptr ? next->effective_from_s - q.effective_to_s : 1e9;
    q.closing_s = ramp_length(view, q, q.effective_from_s, last, room_in, first_one);
    q.opening_s = ramp_length(view, q, q.effective_to_s, next, room_out, last_one);
    set_plateau(q, set_effect(view, q, first_one, last_one));
  }
}

} // namespace mw
