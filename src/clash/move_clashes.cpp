#include "clash/move_clashes.h"

#include "base/text.h"
#include "clash/features.h"
#include "clash/sequence.h"
#include "clash/tell.h"
#include "score/plan.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace mw {

namespace {

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

// tract-model.md section 11: thresholds that mark few sounds of ordinary prose.
constexpr std::array<double, 3> tug_levels{1.3, 1.5, 1.8};
constexpr std::array<double, 3> return_levels{1.25, 1.45, 1.7};
constexpr std::array<double, 3> switch_levels{1.15, 2.0, 3.5};
// A sound of a weak syllable is made lightly and yields: the th of "the" is no rival to the next s. Without these factors every "the s..." and "in the" would be marked.
constexpr double weak_switch = .4, weak_tug = .75;
// Inside one syllable the second constriction is the end of the same stroke: no full turn.
constexpr double same_syllable_return = .8;
constexpr double other_weight = .45;  // of a tier that does not make the sound's own constriction
constexpr double made_s = .060;       // the parts of both moves in which the constrictions still count as made
constexpr double switch_s = .33;      // like sounds of the tip within a third of a second
constexpr double peak_over_mean = 1.875; // minimum jerk
constexpr double least_way_mm = 1.5;     // a pull below this is not put into words

int level_of(double value, const std::array<double, 3>& levels) {
  return value >= levels[2] ? 3 : value >= levels[1] ? 2 : 1;
}

double scale_of(const TierRow& row, const Anatomy& anatomy) {
  return row.tier == Tier::lips ? anatomy.lip_scale : row.tier == Tier::jaw ? anatomy.jaw_y : anatomy.tongue_scale;
}

/// Everything the finders look at.
struct Scene {
  Teller teller;
  const ScorePlan& plan;
  [[nodiscard]] const Unit& unit(const Move& move) const { return plan.units[move.unit]; }
  [[nodiscard]] std::string ipa(std::size_t segment) const { return to_ipa(teller.track.segments[segment].sound); }
};

double weight_of(const Unit& unit, Tier tier, double Pose::*value) {
  for (const TierChannel& channel : channels_of(tier))
    if (channel.value == value && channel.weight) return unit.target.*channel.weight;
  return 0;
}

/// How far the two sounds want the value apart, in mm of an adult male, counting only what both insist on.
double way_of(const Scene& scene, const TierRow& row, const Pull& pull, const Move& p, const Move& q) {
  const auto insists = [&](const Move& m) {
    return weight_of(scene.unit(m), row.tier, pull.value) * (m.primary ? 1.0 : other_weight);
  };
  const double apart = scene.unit(q).target.pose.*pull.value - scene.unit(p).target.pose.*pull.value;
  return std::min(insists(p), insists(q)) * pull.mm * apart / scale_of(row, *scene.plan.anatomy);
}

/// Peak speed needed to leave p's place in time for q's, over the comfortable one.
double speed_need(const Scene& scene, const TierRow& row, const Move& p, const Move& q) {
  double squares = 0;
  for (std::size_t i = 0; i < row.pull_count; ++i) {
    const double way = way_of(scene, row, row.pulls[i], p, q);
    squares += way * way;
  }
  const double time = std::max(q.effective_from_s - p.effective_to_s, 0.0) + made_s;
  return peak_over_mean * std::sqrt(squares) / time / row.comfortable_mm_s;
}

bool same_syllable(const Scene& scene, const Move& p, const Move& q) {
  const Segment &a = scene.teller.track.segments[scene.unit(p).segment], &b = scene.teller.track.segments[scene.unit(q).segment];
  return a.word == b.word && a.syllable == b.syllable;
}

std::string seconds(double s) { return to_text(std::round(s * 100) / 100, 2) + " seconds"; }

int weak_count(const Scene& scene, const Move& p, const Move& q) {
  const auto weak = [&](const Move& m) { return in_weak_syllable(scene.teller.track, scene.unit(m).segment) ? 1 : 0; };
  return weak(p) + weak(q);
}

double middle(const Move& m) { return (m.effective_from_s + m.effective_to_s) / 2; }

Clash clash_between(const Scene& scene, ClashKind kind, const Move& p, const Move& q, double value,
                    const std::array<double, 3>& levels) {
  Clash clash;
  clash.kind = kind;
  clash.level = level_of(value, levels);
  clash.strength = value;
  clash.start_s = std::max(0.0, p.out.start);
  clash.end_s = std::max(clash.start_s + 1e-3, q.in.end);
  clash.segments = {scene.unit(p).segment, scene.unit(q).segment};
  return clash;
}

/// "at the end of ‘kettles’"; over a word border "from ‘red’ into ‘rag’".
std::string where_of(const Scene& scene, std::size_t a, std::size_t b) {
  const Segment &p = scene.teller.track.segments[a], &q = scene.teller.track.segments[b];
  const std::string first = scene.teller.word(p.word), second = scene.teller.word(q.word);
  const std::string pair = scene.ipa(a) + " into " + scene.ipa(b);
  if (first.empty() || second.empty()) return pair;
  if (p.word != q.word) return pair + ", from " + first + " into " + second;
  return pair + ", " + (p.slot == q.slot && p.syllable == q.syllable ? scene.teller.place(b) : "in " + first);
}

/// "back and up": where q wants the part, seen from where p holds it; the larger pull first.
std::string direction(const Scene& scene, const TierRow& row, const Move& p, const Move& q) {
  std::vector<std::pair<double, std::string_view>> ways;
  for (std::size_t i = 0; i < row.pull_count; ++i) {
    const Pull& pull = row.pulls[i];
    const double apart = (scene.unit(q).target.pose.*pull.value - scene.unit(p).target.pose.*pull.value) * pull.mm;
    ways.emplace_back(std::abs(apart), apart > 0 ? pull.more : pull.less);
  }
  std::stable_sort(ways.begin(), ways.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
  std::string text(ways[0].second);
  if (ways.size() > 1 && ways[1].first >= least_way_mm && ways[1].first > .4 * ways[0].first)
    text += " and " + std::string(ways[1].second);
  return text;
}

std::string_view verb(Articulator articulator, std::string_view one, std::string_view many) {
  return articulator == Articulator::lips ? many : one;
}

std::string tug_feel(const Scene& scene, const TierRow& row, const Move& p, const Move& q) {
  const std::string a = scene.ipa(scene.unit(p).segment), b = scene.ipa(scene.unit(q).segment);
  const std::string part(learner_name(row.articulator));
  if (p.primary && q.primary) return "slide straight from " + a + " to " + b + " in one move, with no stop between.";
  if (p.primary) return "make " + a + " lightly and let the " + part + " go early, before " + b + " starts.";
  return "hold " + a + "; let only the " + part + " go.";
}

Clash tell_tug(const Scene& scene, const TierRow& row, const Move& p, const Move& q, double value) {
  Clash clash = clash_between(scene, ClashKind::tug, p, q, value, tug_levels);
  const std::string part(learner_name(row.articulator)), a = scene.ipa(clash.segments[0]), b = scene.ipa(clash.segments[1]);
  clash.articulators = {row.articulator};
  clash.title = "Tug on the " + part;
  clash.where = where_of(scene, clash.segments[0], clash.segments[1]);
  clash.text = a + " still holds the " + part + " when " + b + " already calls " +
               std::string(verb(row.articulator, "it ", "them ")) + direction(scene, row, p, q) + ".";
  clash.feel = tug_feel(scene, row, p, q);
  return clash;
}

Clash tell_return(const Scene& scene, const TierRow& row, const Move& p, const Move& q, double value) {
  Clash clash = clash_between(scene, ClashKind::quick_return, p, q, value, return_levels);
  const std::string part(learner_name(row.articulator)), a = scene.ipa(clash.segments[0]), b = scene.ipa(clash.segments[1]);
  clash.articulators = {row.articulator};
  clash.title = "Quick return of the " + part;
  clash.where = where_of(scene, clash.segments[0], clash.segments[1]);
  clash.text = "The " + part + std::string(verb(row.articulator, " leaves ", " leave ")) + a + " for one vowel and " +
               std::string(verb(row.articulator, "is ", "are ")) + "wanted again for " + b + " after " +
               seconds(middle(q) - middle(p)) + "; an easy turn takes about " + seconds(row.period_s) + ".";
  clash.feel = "say it at half speed and count the two touches; then keep both light.";
  return clash;
}

/// A full touch: stop, nasal, tap, affricate, lateral. Narrow channels (s, ð) are left and found again with less way.
bool touches(const Unit& unit) {
  const std::string& manner = unit.target.manner;
  return manner.find("fricative") == std::string::npos && manner != "approximant";
}

/// Vowels said between two units.
std::size_t vowels_between(const Scene& scene, const Move& p, const Move& q) {
  std::vector<std::size_t> seen;
  for (std::size_t i = p.unit + 1; i < q.unit; ++i)
    if (scene.plan.units[i].vowel && (seen.empty() || seen.back() != scene.plan.units[i].segment))
      seen.push_back(scene.plan.units[i].segment);
  return seen.size();
}

void find_on_tier(const Scene& scene, const TierRow& row, std::vector<Clash>& found) {
  const Move* p = nullptr;
  std::size_t p_chain = 0;
  const auto& chains = scene.plan.chains[index_of(row.tier)];
  for (std::size_t c = 0; c < chains.size(); ++c)
    for (const Move& q : chains[c].moves) {
      const Move* before = std::exchange(p, &q);
      const std::size_t chain_before = std::exchange(p_chain, c);
      if (!before || scene.unit(*before).segment == scene.unit(q).segment) continue;
      if (chain_before == c) {
        const double need = speed_need(scene, row, *before, q) * (weak_count(scene, *before, q) > 0 ? weak_tug : 1);
        if (need > tug_levels[0])
          found.push_back(tell_tug(scene, row, *before, q, need));
        continue;
      }
      if (row.period_s <= 0 || !before->primary || !q.primary) continue;
      if (!touches(scene.unit(*before)) || !touches(scene.unit(q))) continue;
      const double turn = row.period_s / std::max(middle(q) - middle(*before), 1e-3) *
                          (same_syllable(scene, *before, q) ? same_syllable_return : 1);
      if (turn > return_levels[0] && vowels_between(scene, *before, q) == 1)
        found.push_back(tell_return(scene, row, *before, q, turn));
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

bool same_sound(const Scene& scene, const Move& p, const Move& q) {
  const auto key = [&](const Move& m) { return facts_of(scene.teller.track.segments[scene.unit(m).segment].sound).key; };
  return key(p) == key(q);
}

bool tips_apart(const Scene& scene, const Unit& a, const Unit& b) {
  const double dx = a.target.pose.tip_x - b.target.pose.tip_x, dy = a.target.pose.tip_y - b.target.pose.tip_y;
  return std::hypot(dx, dy) / scene.plan.anatomy->tongue_scale > 2; // mm
}

Clash tell_switch(const Scene& scene, const Move& p, const Move& q, double value) {
  Clash clash = clash_between(scene, ClashKind::near_twins, p, q, value, switch_levels);
  clash.strength = value * .6; // on the scale of the pulls of the pattern, whose levels begin at 0.74, 1.15 and 2.3
  const SoundFacts a = facts_of(scene.teller.track.segments[clash.segments[0]].sound);
  const SoundFacts b = facts_of(scene.teller.track.segments[clash.segments[1]].sound);
  clash.articulators = {Articulator::tip};
  clash.title = "Near twins: " + a.ipa + " and " + b.ipa;
  clash.where = where_of(scene, clash.segments[0], clash.segments[1]);
  clash.text = a.ipa + " and " + b.ipa + " follow each other within " + seconds(middle(q) - middle(p)) +
               " and are close neighbours on the tip: " + difference_clause(a, b) + ".";
  clash.feel = feel_of_difference(a, b);
  return clash;
}

void find_switches(const Scene& scene, std::vector<Clash>& found) {
  const Move* before = nullptr;
  for (const Chain& chain : scene.plan.chains[index_of(Tier::tip)])
    for (const Move& q : chain.moves) {
      if (!q.primary || scene.unit(q).target.manner == "affricate") continue;
      const Move* p = std::exchange(before, &q);
      if (!p || scene.unit(*p).segment == scene.unit(q).segment) continue;
      const TipFamily a = family_of(scene.unit(*p)), b = family_of(scene.unit(q));
      const int weak = weak_count(scene, *p, q);
      const double value = switch_s / std::max(middle(q) - middle(*p), 1e-3) *
                           (weak == 0 ? 1 : weak == 1 ? weak_switch : weak_switch / 2);
      if (a == TipFamily::none || a != b || same_sound(scene, *p, q) || !tips_apart(scene, scene.unit(*p), scene.unit(q))) continue;
      if (value > switch_levels[0]) found.push_back(tell_switch(scene, *p, q, value));
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

void tell_runs(const Scene& scene, std::vector<Clash>& clashes) {
  for (Clash& clash : clashes) {
    if (clash.kind != ClashKind::quick_return || clash.segments.size() < 3) continue;
    const std::string part(learner_name(clash.articulators.front()));
    std::vector<std::string> sounds;
    for (std::size_t segment : clash.segments) sounds.push_back(scene.ipa(segment));
    clash.where = where_of(scene, clash.segments.front(), clash.segments.back());
    clash.text = "The " + part + std::string(verb(clash.articulators.front(), " is ", " are ")) + "wanted for " +
                 listed(sounds) + " with one short vowel between each, faster than an easy turn.";
    clash.feel = "say it at half speed and count the touches; then keep all of them light.";
  }
}

} // namespace

std::vector<Clash> move_clashes(const Pronunciation& pronunciation, const SegmentTrack& track, const Score& score) {
  if (!score.plan) return {};
  const Scene scene{{pronunciation, track}, *score.plan};
  std::vector<Clash> found;
  for (const TierRow& row : tier_table) find_on_tier(scene, row, found);
  found = runs_joined(std::move(found));
  tell_runs(scene, found);
  find_switches(scene, found);
  return joined(std::move(found));
}

} // namespace mw
