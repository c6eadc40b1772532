#include "score/movement.h"

#include <algorithm>
#include <cmath>

namespace mw {
namespace {
constexpr double own_share = 0.65, other_share = 0.85; // a hand-over takes this share of a full movement
constexpr double shortest_s = 0.03;
constexpr double twice_squeezed_share = 0.5;
constexpr double short_approximant_s = 0.045;
constexpr double most_time = 1.2;                      // nor more than this many times what it needs

/// Who keeps its time in a hand-over: sibilants, other fricatives, approximants, stops.
double rank_of(const Unit& unit) {
  const Target& row = unit.target;
  if (row.jaw_weight >= 0.9) return 1.0;
  if (row.manner.find("fric") != std::string::npos) return 0.6;
  if (row.manner != "approximant") return 0.0;
  // a very short one would be over before it is reached
  return unit.length() < short_approximant_s ? 0.6 : 0.4;
}

/// Size (mm) of the change of posture from p to q, the vowel's share counted in (the tip has none).
double change(const TierView& view, const Draft& p, const Draft& q) {
  const double onset = view.units[q.unit].start_s;
  double sum = 0;
  for (std::size_t c = 0; c < view.channels.size(); ++c) {
    if (!view.channels[c].size) continue;
    const double vowel = view.tier == Tier::tip
                             ? 0.0
                             : (p.weight[c] - q.weight[c]) * base_at(view.base, view.channels[c].value, onset);
    sum += std::pow(q.weight[c] * q.target[c] - p.weight[c] * p.target[c] + vowel, 2);
  }
  return std::sqrt(sum);
}

/// Too little time between two constrictions: what is lacking is taken from both, by rank.
Ramp squeeze(const TierView& view, const Draft& p, Draft& q, Ramp r, double lack, Ramp earlier) {
  const double rank_p = rank_of(view.units[p.unit]), rank_q = rank_of(view.units[q.unit]);
  double from_p = p.primary == q.primary ? std::clamp(0.5 + 0.6 * (rank_q - rank_p), 0.25, 0.75)
                                         : (q.primary ? 1.0 : 0.0);
  // a closure that has already given time to the sound before it gives less to the one after
  if (p.squeezed && view.holds_closed(p) && p.primary && q.primary) from_p = std::min(from_p, twice_squeezed_share);
  q.squeezed = from_p < 0.5;
  r.start -= from_p * lack;
  r.end += (1 - from_p) * lack;
  const double late = q.primary && rank_q >= rank_p ? q.hold_to_s : view.units[q.unit].end_s + 0.01;
  r.start = std::max({r.start, earlier.end - p.gap_s, earlier.start + 0.02});
  r.end = std::max({std::min(r.end, late + q.gap_s), r.start + shortest_s, earlier.end});
  return r;
}

/// The squeezed gesture leaves p's posture only as far as the speed cap allows: a new target with p's weights.
void cut_back(const TierView& view, const Draft& p, Draft& q, double time_s) {
  const double t = *q.turn_s;
  std::array<double, tier_width> vowel{}, from{}, to{};
  for (std::size_t c = 0; c < view.channels.size(); ++c) {
    vowel[c] = base_at(view.base, view.channels[c].value, t);
    from[c] = p.weight[c] * p.target[c] + (1 - p.weight[c]) * vowel[c];
    to[c] = q.weight[c] * q.target[c] + (1 - q.weight[c]) * vowel[c];
  }
  if (view.tier == Tier::body && p.curve != nullptr) from[1] = p.curve->height(from[0]);
  double sum = 0;
  for (std::size_t c = 0; c < view.channels.size(); ++c)
    if (view.channels[c].size) sum += std::pow(to[c] - from[c], 2);
  const double share = std::min(1.0, time_s / std::max(fastest_time(view.tier, std::sqrt(sum)), 1e-9));
  for (std::size_t c = 0; c < view.channels.size(); ++c) {
    if (p.weight[c] == 0) continue;
    q.target[c] = (from[c] + share * (to[c] - from[c]) - (1 - p.weight[c]) * vowel[c]) / p.weight[c];
  }
  q.weight = p.weight;
}
} // namespace

Ramp hand_over(const TierView& view, const Draft& p, Draft& q, Ramp earlier) {
  const double mm = change(view, p, q);
  const double need = std::max(move_time(view.tier, mm) * (p.primary && q.primary ? own_share : other_share),
                               fastest_time(view.tier, mm));
  Ramp r{p.effective_to_s - p.beta_out * need, q.effective_from_s + q.beta_in * need};
  const double lack = need - (r.end - r.start);
  if (lack > 0) r = squeeze(view, p, q, r, lack, earlier);
  else if (r.end - r.start > most_time * need) {
    if (view.holds_closed(q)) r.start = r.end - most_time * need; // a closure comes late, anything else early
    else r.end = r.start + most_time * need;
  }
  if (p.turn_s) r = {*p.turn_s, q.effective_from_s + q.beta_in * (q.effective_from_s - *p.turn_s) / (1 - q.beta_in)};
  if (q.turn_s) {
    r = {p.effective_to_s - p.beta_out * (*q.turn_s - p.effective_to_s) / (1 - p.beta_out), *q.turn_s};
    r.start = std::min(r.start, r.end - shortest_s);
    cut_back(view, p, q, r.end - r.start);
  }
  // whatever the squeeze: ramps keep their order and take some time
  r.start = std::max(r.start, earlier.start);
  r.end = std::max({r.end, earlier.end, r.start + shortest_s});
  return r;
}

} // namespace mw
