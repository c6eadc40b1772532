#include "score/disc_gaps.h"
#include "score/planning.h"

#include "anatomy/places.h"

#include <algorithm>
#include <cmath>

namespace mw {
namespace {
// a vowel's lips, jaw or root count as moving from this change on (mm)
constexpr double least_vowel_move = 1.0;

/// Openings as degrees, from the allowed openings of tract-model.md section 8.
Degree degree_of(double opening_mm) {
  if (opening_mm <= 0.05) return Degree::closed;
  return opening_mm < 2.3 ? Degree::critical : opening_mm <= 5.1 ? Degree::narrow : Degree::open;
}

Degree degree_of(const Target& row) {
  const auto& m = row.manner;
  if (m.find("fricative") != std::string::npos) return Degree::critical;
  return m == "approximant" ? Degree::narrow : Degree::closed;
}

/// Places that two articulators share, or that the tables name more finely than the chart, as each one's own place.
std::string place_of(const Target& row, Tier tier) {
  if (tier == Tier::lips) return row.place == "labiodental" ? "labiodental" : "bilabial";
  if (row.manner == "click" && tier == Tier::body) return "velar";
  struct Name { std::string_view table, chart; };
  constexpr Name names[] = {{"interdental", "dental"}, {"alveolo-palatal", "postalveolar"},
                            {"palatal (bunched)", "palatal"}, {"labial-velar", "velar"}};
  for (const auto& name : names)
    if (name.table == row.place) return std::string(name.chart);
  return row.place;
}

Articulator articulator_of(Tier tier, const Target& row) {
  switch (tier) {
  case Tier::jaw: return Articulator::jaw;
  case Tier::lips: return Articulator::lips;
  case Tier::tip:
  case Tier::blade: return Articulator::tip;
  case Tier::body: break;
  }
  return row.place == "pharyngeal" || row.place == "epiglottal" ? Articulator::root : Articulator::body;
}

/// Onset, reached, release, offset in order: ramps that overlap meet in one apex.
void set_times(Gesture& g, Ramp in, Ramp out) {
  g.onset_s = in.start;
  g.reached_s = in.end;
  g.release_s = out.start;
  g.offset_s = std::max(out.end, in.end);
  if (g.release_s < g.reached_s) g.reached_s = g.release_s = 0.5 * (g.reached_s + g.release_s);
  g.onset_s = std::min(g.onset_s, g.reached_s);
}

Gesture start(Articulator articulator, const Unit& u) {
  Gesture g;
  g.articulator = articulator;
  g.segment = u.segment;
  return g;
}

struct Maker {
  const ScorePlan& plan;
  const DiscWalls& walls;
  std::vector<Gesture> out;
  std::size_t chains = 0;

  [[nodiscard]] std::optional<double> opening(Tier tier, const Target& row, const Pose& pose) const {
    switch (tier) {
    case Tier::jaw: return pose.jaw_opening;
    case Tier::lips: return pose.lip_opening;
    case Tier::tip:
    case Tier::blade: return tip_gap(*plan.anatomy, walls, pose);
    case Tier::body: break;
    }
    if (articulator_of(tier, row) == Articulator::root) return {};
    return body_gap(*plan.anatomy, walls, pose, row.pose.velum > 0.5);
  }
  /// Where a tongue body that is not at its own constriction stands.
  [[nodiscard]] std::string nearest_place(const Pose& pose) const {
    const auto& table = wall_table(*plan.anatomy);
    const auto at = locate_on_wall(table, {pose.body_x, pose.body_y});
    return std::string(place_name(*plan.anatomy, table, at.u));
  }

  void add_move(Tier tier, const Move& m) {
    const Unit& u = plan.units[m.unit];
    Pose pose = u.target.pose;
    for (std::size_t c = 0; c < channels_of(tier).size(); ++c) pose.*channels_of(tier)[c].value = m.target[c];
    Gesture g = start(articulator_of(tier, u.target), u);
    set_times(g, m.in, m.out);
    g.effective_from_s = m.effective_from_s;
    g.effective_to_s = m.effective_to_s;
    g.primary = m.primary && tier != Tier::jaw;
    g.opening_mm = opening(tier, u.target, pose);
    const bool own = m.primary || tier != Tier::body;
    g.place = own ? place_of(u.target, tier) : nearest_place(pose);
    const bool by_manner = (tier == Tier::lips && u.target.primary == Primary::lips) ||
                           (tier == Tier::tip && u.target.primary == Primary::tip) ||
                           (tier == Tier::body && m.primary);
    g.degree = by_manner ? degree_of(u.target) : tier == Tier::jaw ? Degree::open : degree_of(*g.opening_mm);
    g.chain = chains;
    out.push_back(std::move(g));
  }

  void add_vowel(std::size_t k, Articulator articulator, double opening_mm, const std::vector<Ramp>& ramps) {
    const Unit& u = plan.units[plan.base.units[k]];
    Gesture g = start(articulator, u);
    set_times(g, ramps[k], ramps[k + 1]);
    g.effective_from_s = u.start_s + 0.3 * u.length(); // the stretch the base ramps aim at
    g.effective_to_s = u.start_s + 0.5 * u.length();
    g.primary = articulator == Articulator::body;
    g.vowel = true;
    g.place = u.vowel ? u.symbol : "ə"; // the schwa under a syllabic consonant
    g.degree = articulator == Articulator::body || articulator == Articulator::lips ? degree_of(opening_mm) : Degree::open;
    g.opening_mm = opening_mm;
    g.chain = chains;
    out.push_back(std::move(g));
  }

  void add_vowels() {
    const Base& b = plan.base;
    for (std::size_t k = 0; k < b.units.size(); ++k) {
      if (b.units[k] == Base::no_unit) continue;
      const Pose &from = b.keys[k], &to = b.keys[k + 1];
      add_vowel(k, Articulator::body, body_gap(*plan.anatomy, walls, to, false), b.ramps);
      const double lips = std::hypot(to.lip_opening - from.lip_opening, to.lip_protrusion - from.lip_protrusion);
      if (lips > least_vowel_move) add_vowel(k, Articulator::lips, to.lip_opening, b.lip_ramps);
      if (std::abs(to.jaw_opening - from.jaw_opening) > least_vowel_move)
        add_vowel(k, Articulator::jaw, to.jaw_opening, b.ramps);
      if (std::abs(to.root - from.root) > least_vowel_move) {
        add_vowel(k, Articulator::root, 0, b.ramps);
        out.back().opening_mm.reset();
      }
      ++chains;
    }
  }

  void add_valve(Articulator articulator, const Valve& v) {
    const Unit& u = plan.units[v.unit];
    Gesture g = start(articulator, u);
    set_times(g, v.in, v.out);
    g.effective_from_s = g.reached_s;
    g.effective_to_s = g.release_s;
    g.primary = articulator == Articulator::glottis && u.target.primary == Primary::glottis;
    g.vowel = u.vowel;
    g.place = articulator == Articulator::velum ? "uvular" : "glottal"; // the soft palate's port opens beside the uvula
    g.degree = Degree::open;
    if (articulator == Articulator::velum && v.value == 0) g.degree = Degree::closed;
    if (articulator != Articulator::velum && u.target.pose.glottis < 0.5)
      g.degree = u.target.pose.glottis < 0.1 ? Degree::closed : Degree::narrow;
    g.chain = chains++;
    out.push_back(std::move(g));
  }
};
} // namespace

std::string_view to_text(Degree degree) {
  switch (degree) {
  case Degree::closed: return "closed";
  case Degree::critical: return "critical";
  case Degree::narrow: return "narrow";
  case Degree::open: return "open";
  }
  return "";
}

std::vector<Gesture> make_gestures(const ScorePlan& plan) {
  Maker maker{plan, disc_walls(*plan.anatomy), {}, 0};
  for (const Tier tier : all_tiers) {
    if (tier == Tier::blade) continue; // the blade goes with the tip
    for (const Chain& chain : plan.chains[index_of(tier)]) {
      for (const Move& m : chain.moves) maker.add_move(tier, m);
      ++maker.chains;
    }
  }
  maker.add_vowels();
  for (const auto& v : plan.velum) maker.add_valve(Articulator::velum, v);
  for (const auto& v : plan.glottis) maker.add_valve(Articulator::glottis, v);
  for (const auto& v : plan.larynx) maker.add_valve(Articulator::larynx, v);
  std::ranges::stable_sort(maker.out, [](const Gesture& a, const Gesture& b) {
    return a.onset_s != b.onset_s ? a.onset_s < b.onset_s : a.articulator < b.articulator;
  });
  return std::move(maker.out);
}

} // namespace mw
