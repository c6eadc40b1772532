#include "clash/move_clashes.h"

#include "clash/features.h"
#include "clash/move_parts.h"
#include "clash/sequence.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace mw {

namespace {

constexpr std::array<TierRow, 4> tier_table{{
    {Tier::lips, Articulator::lips, 150, .155,
     {{{&Pose::lip_opening, 1, "apart", "together"},
       {&Pose::lip_protrusion, 1, "forward", "back"},
       {&Pose::lip_tuck, 8, "in under the teeth", "out from under the teeth"}}}, 3},
    {Tier::tip, Articulator::tip, 170, .155,
     {{{&Pose::tip_x, 1, "back", "forward"}, {&Pose::tip_y, 1, "up", "down"}, {&Pose::tip_curl, .06, "to curl up", "to lie flat"}}}, 3},
    {Tier::body, Articulator::body, 130, .170,
     {{{&Pose::body_x, 1, "back", "forward"}, {&Pose::body_y, 1, "up", "down"}, {}}}, 2},
    {Tier::jaw, Articulator::jaw, 90, 0, {{{&Pose::jaw_opening, 1, "open", "shut"}, {}, {}}}, 1},
}};

double scale_of(const TierRow& row, const Anatomy& anatomy) {
  return row.tier == Tier::lips ? anatomy.lip_scale : row.tier == Tier::jaw ? anatomy.jaw_y : anatomy.tongue_scale;
}

double weight_of(const Unit& unit, Tier tier, double Pose::*value) {
  for (const TierChannel& channel : channels_of(tier))
    if (channel.value == value && channel.weight) return unit.target.*channel.weight;
  return 0;
}

// A sound of a weak syllable is made lightly and yields: the th of "the" is no rival to the next s. Without these factors every "the s..." and "in the" would be marked.
constexpr double weak_switch = .4, weak_tug = .75;
// Inside one syllable the second constriction is the end of the same stroke: no full turn.
constexpr double same_syllable_return = .8;
constexpr double other_weight = .45;  // of a tier that does not make the sound's own constriction
constexpr double made_s = .060;       // the parts of both moves in which the constrictions still count as made
constexpr double switch_s = .33;      // like sounds of the tip within a third of a second
constexpr double peak_over_mean = 1.875; // minimum jerk

/// Peak speed needed to leave p's place in time for q's, over the comfortable one.
double speed_need(const MoveView& view, const TierRow& row, const Move& p, const Move& q) {
  double squares = 0;
  for (std::size_t i = 0; i < row.pull_count; ++i) {
    const double way = way_of(view, row, row.pulls[i], p, q);
    squares += way * way;
  }
  const double time = std::max(q.effective_from_s - p.effective_to_s, 0.0) + made_s;
  return peak_over_mean * std::sqrt(squares) / time / row.comfortable_mm_s;
}

bool same_syllable(const MoveView& view, const Move& p, const Move& q) {
  const Segment &a = view.teller.track.segments[view.unit(p).segment], &b = view.teller.track.segments[view.unit(q).segment];
  return a.word == b.word && a.syllable == b.syllable;
}

int weak_count(const MoveView& view, const Move& p, const Move& q) {
  const auto weak = [&](const Move& m) { return in_weak_syllable(view.teller.track, view.unit(m).segment) ? 1 : 0; };
  return weak(p) + weak(q);
}

/// A full touch: stop, nasal, tap, affricate, lateral. Narrow channels (s, ð) are left and found again with less way.
bool touches(const Unit& unit) {
  const std::string& manner = unit.target.manner;
  return manner.find("fricative") == std::string::npos && manner != "approximant";
}

/// Vowels said between two units.
std::size_t vowels_between(const MoveView& view, const Move& p, const Move& q) {
  std::vector<std::size_t> seen;
  for (std::size_t i = p.unit + 1; i < q.unit; ++i)
    if (view.plan.units[i].vowel && (seen.empty() || seen.back() != view.plan.units[i].segment))
      seen.push_back(view.plan.units[i].segment);
  return seen.size();
}

void find_on_tier(const MoveView& view, const TierRow& row, std::vector<Clash>& found) {
  const Move* p = nullptr;
  std::size_t p_chain = 0;
  const auto& chains = view.plan.chains[index_of(row.tier)];
  for (std::size_t c = 0; c < chains.size(); ++c)
    for (const Move& q : chains[c].moves) {
      const Move* before = std::exchange(p, &q);
      const std::size_t chain_before = std::exchange(p_chain, c);
      if (!before || view.unit(*before).segment == view.unit(q).segment) continue;
      if (chain_before == c) {
        const double need = speed_need(view, row, *before, q) * (weak_count(view, *before, q) > 0 ? weak_tug : 1);
        if (need > tug_levels[0])
          found.push_back(tell_tug(view, row, *before, q, need));
        continue;
      }
      if (row.period_s <= 0 || !before->primary || !q.primary) continue;
      if (!touches(view.unit(*before)) || !touches(view.unit(q))) continue;
      const double turn = row.period_s / std::max(middle(q) - middle(*before), 1e-3) *
                          (same_syllable(view, *before, q) ? same_syllable_return : 1);
      if (turn > return_levels[0] && vowels_between(view, *before, q) == 1)
        found.push_back(tell_return(view, row, *before, q, turn));
    }
}

// --- like but different on the tip: s and ʃ, s and θ, l and r within a third of a second ---

enum class TipFamily { none, hiss, liquid };

TipFamily family_of(const Unit& unit) {
  const std::string& manner = unit.target.manner;
  if (unit.target.place == "interdental") return TipFamily::hiss;
  if (unit.target.jaw_weight >= .9 && manner.find("fric") != std::string::npos) return TipFamily::hiss;
  return manner == "lateral" || manner == "approximant" ? TipFamily::liquid : TipFamily::none;
}

bool same_sound(const MoveView& view, const Move& p, const Move& q) {
  const auto key = [&](const Move& m) { return facts_of(view.teller.track.segments[view.unit(m).segment].sound).key; };
  return key(p) == key(q);
}

bool tips_apart(const MoveView& view, const Unit& a, const Unit& b) {
  const double dx = a.target.pose.tip_x - b.target.pose.tip_x, dy = a.target.pose.tip_y - b.target.pose.tip_y;
  return std::hypot(dx, dy) / view.plan.anatomy->tongue_scale > 2; // mm
}

void find_switches(const MoveView& view, std::vector<Clash>& found) {
  const Move* before = nullptr;
  for (const Chain& chain : view.plan.chains[index_of(Tier::tip)])
    for (const Move& q : chain.moves) {
      if (!q.primary || view.unit(q).target.manner == "affricate") continue;
      const Move* p = std::exchange(before, &q);
      if (!p || view.unit(*p).segment == view.unit(q).segment) continue;
      const TipFamily a = family_of(view.unit(*p)), b = family_of(view.unit(q));
      const int weak = weak_count(view, *p, q);
      const double value = switch_s / std::max(middle(q) - middle(*p), 1e-3) *
                           (weak == 0 ? 1 : weak == 1 ? weak_switch : weak_switch / 2);
      if (a == TipFamily::none || a != b || same_sound(view, *p, q) || !tips_apart(view, view.unit(*p), view.unit(q))) continue;
      if (value > switch_levels[0]) found.push_back(tell_switch(view, *p, q, value));
    }
}

/// One pair of sounds that tugs at several parts is one clash: told of the strongest, naming all.
std::vector<Clash> joined(std::vector<Clash> found) {
  std::stable_sort(found.begin(), found.end(), [](const Clash& a, const Clash& b) { return a.strength > b.strength; });
  std::vector<Clash> kept;
  for (Clash& clash : found) {
    const auto same = std::find_if(kept.begin(), kept.end(), [&](const Clash& k) {
      return k.kind == clash.kind && k.segments == clash.segments;
    });
    if (same == kept.end()) { kept.push_back(std::move(clash)); continue; }
    same->articulators.insert(same->articulators.end(), clash.articulators.begin(), clash.articulators.end());
  }
  return kept;
}

/// Returns that follow each other are one run: the middle sound of two belongs to both.
std::vector<Clash> runs_joined(std::vector<Clash> found) {
  std::vector<Clash> kept;
  for (Clash& clash : found) {
    const auto same = std::find_if(kept.begin(), kept.end(), [&](const Clash& k) {
      return k.kind == ClashKind::quick_return && clash.kind == ClashKind::quick_return &&
             k.articulators == clash.articulators && k.segments.back() == clash.segments.front();
    });
    if (same == kept.end()) { kept.push_back(std::move(clash)); continue; }
    same->segments.push_back(clash.segments.back());
    same->end_s = clash.end_s;
    same->strength = std::max(same->strength, clash.strength) + .15; // a run leaves no time to recover (our own choice)
    same->level = level_of(same->strength, return_levels);
  }
  return kept;
}

} // namespace

/// How far the two sounds want the value apart, in mm of an adult male, counting only what both insist on.
double way_of(const MoveView& view, const TierRow& row, const Pull& pull, const Move& p, const Move& q) {
  const auto insists = [&](const Move& m) {
    return weight_of(view.unit(m), row.tier, pull.value) * (m.primary ? 1.0 : other_weight);
  };
  const double apart = view.unit(q).target.pose.*pull.value - view.unit(p).target.pose.*pull.value;
  return std::min(insists(p), insists(q)) * pull.mm * apart / scale_of(row, *view.plan.anatomy);
}

std::vector<Clash> move_clashes(const Pronunciation& pronunciation, const SegmentTrack& track, const Score& score) {
  if (!score.plan) return {};
  const MoveView view{{pronunciation, track}, *score.plan};
  std::vector<Clash> found;
  for (const TierRow& row : tier_table) find_on_tier(view, row, found);
  found = runs_joined(std::move(found));
  tell_runs(view, found);
  find_switches(view, found);
  return joined(std::move(found));
}

} // namespace mw
