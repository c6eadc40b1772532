#pragma once

#include "clash/clash.h"
#include "clash/telling.h"
#include "score/plan.h"

#include <array>

namespace mw {

// What the finders of move clashes (move_clashes.cpp) and their sentences (move_tell.cpp) share.

/// One way an articulator can be pulled: which value, its size in mm for one unit of the value, and the words for more
/// and less of it.
struct Pull {
  double Pose::*value;
  double mm;
  std::string_view more, less;
};

struct TierRow {
  Tier tier;
  Articulator articulator;
  double comfortable_mm_s; // peak speed, about the middle of the published ranges (from memory)
  double period_s;         // shortest comfortable repetition: 1 / (6.5, 6.4, 5.9 a second); 0: none known
  std::array<Pull, 3> pulls;
  std::size_t pull_count;
};

// tract-model.md section 11: thresholds that mark few sounds of ordinary prose.
inline constexpr std::array<double, 3> tug_levels{1.3, 1.5, 1.8};
inline constexpr std::array<double, 3> return_levels{1.25, 1.45, 1.7};
inline constexpr std::array<double, 3> switch_levels{1.15, 2.0, 3.5};

inline int level_of(double value, const std::array<double, 3>& levels) {
  return value >= levels[2] ? 3 : value >= levels[1] ? 2 : 1;
}

/// Everything the finders look at.
struct MoveView {
  Teller teller;
  const ScorePlan& plan;
  [[nodiscard]] const Unit& unit(const Move& move) const { return plan.units[move.unit]; }
  [[nodiscard]] std::string ipa(std::size_t segment) const { return to_ipa(teller.track.segments[segment].sound); }
};

/// How far the two sounds want the value apart, in mm of an adult male, counting only what both insist on.
double way_of(const MoveView& view, const TierRow& row, const Pull& pull, const Move& p, const Move& q);

/// The middle of the stretch in which a move's constriction counts as made, seconds.
inline double middle(const Move& m) { return (m.effective_from_s + m.effective_to_s) / 2; }

Clash tell_tug(const MoveView& view, const TierRow& row, const Move& p, const Move& q, double value);
Clash tell_return(const MoveView& view, const TierRow& row, const Move& p, const Move& q, double value);
/// Like but different on the tip: s and ʃ, s and θ, l and r.
Clash tell_switch(const MoveView& view, const Move& p, const Move& q, double value);
/// Gives returns that were joined to a run their sentence.
void tell_runs(const MoveView& view, std::vector<Clash>& clashes);

} // namespace mw
