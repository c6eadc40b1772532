#include "score/plan.h"

#include "score/planning.h"

namespace mw {

Result<Score> plan(const SegmentTrack& track, std::shared_ptr<const Anatomy> anatomy) {
  const auto table = read_targets(*anatomy);
  if (!table) return table.error();
  return plan(track, std::move(anatomy), **table);
}

Result<Score> plan(const SegmentTrack& track, std::shared_ptr<const Anatomy> anatomy, const TargetTable& table) {
  auto units = make_units(track, *anatomy, table);
  if (!units) return units.error();
  auto plan = std::make_shared<ScorePlan>();
  plan->anatomy = anatomy;
  plan->units = std::move(*units);
  plan->speech_end_s = plan->units.empty() ? lead_s : plan->units.back().end_s;
  plan->duration_s = track.duration_s;
  set_effective(plan->units, *anatomy);
  auto base = make_base(plan->units, *anatomy, table, plan->speech_end_s);
  if (!base) return base.error();
  plan->base = std::move(*base);
  for (const Tier tier : all_tiers)
    plan->chains[index_of(tier)] = make_chains(tier, plan->units, plan->base, *anatomy);
  plan->velum = make_velum(plan->units);
  plan->glottis = make_glottis(plan->units);
  plan->larynx = make_larynx(plan->units);
  plan->overlays = make_overlays(plan->units, *anatomy);
  Score score;
  score.gestures = make_gestures(*plan);
  score.duration_s = track.duration_s;
  score.plan = std::move(plan);
  return score;
}

} // namespace mw
