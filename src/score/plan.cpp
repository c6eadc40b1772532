#include "score/plan.h"

#include "score/planning.h"

#include <algorithm>

namespace mw {

Result<Score> plan(const SegmentTrack& track, std::shared_ptr<const Anatomy> anatomy, const PostureShift& posture) {
  const auto table = read_targets(*anatomy);
  if (!table) return table.error();
  return plan(track, std::move(anatomy), **table, posture);
}

namespace {
/// What the valves pull away from, in this posture.
void set_valve_rests(ScorePlan& plan, const PostureShift& posture) {
  plan.rest_velum = std::clamp(plan.rest_velum + posture.of(&Pose::velum), 0.0, 1.0);
  plan.rest_glottis = std::clamp(plan.rest_glottis + posture.of(&Pose::glottis), 0.0, 1.0);
}
} // namespace

Result<Score> plan(const SegmentTrack& track, std::shared_ptr<const Anatomy> anatomy, const TargetTable& table,
                   const PostureShift& posture) {
  auto units = make_units(track, *anatomy, table);
  if (!units) return units.error();
  auto plan = std::make_shared<ScorePlan>();
  plan->anatomy = anatomy;
  plan->units = std::move(*units);
  for (Unit& unit : plan->units)
    if (unit.vowel) unit.target.pose = in_vowel(*anatomy, unit.target.pose, posture);
  set_valve_rests(*plan, posture);
  plan->speech_end_s = plan->units.empty() ? lead_s : plan->units.back().end_s;
  plan->duration_s = track.duration_s;
  set_effective(plan->units, *anatomy);
  auto base = make_base(plan->units, *anatomy, table, posture, plan->speech_end_s);
  if (!base) return base.error();
  plan->base = std::move(*base);
  for (const Tier tier : all_tiers)
    plan->chains[index_of(tier)] = make_chains(tier, plan->units, plan->base, *anatomy);
  plan->velum = make_velum(plan->units, plan->rest_velum);
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
