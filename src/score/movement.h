#pragma once

#include "score/plan.h"

namespace mw {

/// Speeds, times and room of one tier (tract-model.md section 10). Fitted to published ranges, no speaker's data.
struct TierPace {
  double time_s;    // for a movement of 10 mm
  double room;      // a ramp may last this many times the stretch between the two constrictions
  double room_both; // the same when both constrictions are the tier's own obstruents
  double top_speed; // mm/s, highest peak speed asked for
};
const TierPace& pace_of(Tier tier);

/// Shares of a ramp: a constriction counts as made from q = 1 - beta of its closing ramp to q = beta of its opening ramp;
/// the opening ramp may start the share `dip` of a ramp before the closing one has ended.
struct Effect {
  double beta, dip;
};
inline constexpr Effect closure_effect{0.225, 0.2}, fricative_effect{0.18, 0.1}, other_effect{0.225, 0.45};

double move_time(Tier tier, double mm, double scale = 1); // seconds
/// Time (s) under which a movement would exceed the tier's top speed.
inline double fastest_time(Tier tier, double mm) { return 1.875 * mm / pace_of(tier).top_speed; }

/// A move while its chain is being settled.
struct Draft : Move {
  double closing_s = 0, opening_s = 0;  // lengths of its ramps
  double beta_in = 0, beta_out = 0;     // effect of its two ramps
  double gap_s = 0;                     // how far the opening ramp may start before the closing one has ended
  double hold_from_s = 0, hold_to_s = 0; // plateau
  bool squeezed = false;                // gave time to the move before it
  std::optional<double> turn_s;         // squeezed between two constrictions: turns here
};
using DraftChain = std::vector<Draft>;

/// What the steps of one tier share.
struct TierView {
  Tier tier;
  std::span<const TierChannel> channels;
  const std::vector<Unit>& units;
  const Base& base;
  const Anatomy& anatomy;
  [[nodiscard]] const Target& row(const Move& m) const { return units[m.unit].target; }
  [[nodiscard]] bool holds_closed(const Move& m) const; // stop, nasal, affricate and their like
};

/// Ramp lengths and plateau of every move of a chain as if it stood alone between the chains around it.
void set_windows(const TierView& view, DraftChain& chain, const Draft* last, const Draft* next);
/// The ramp from p's target to q's inside a chain; `earlier` is the ramp before it.
Ramp hand_over(const TierView& view, const Draft& p, Draft& q, Ramp earlier);

} // namespace mw
