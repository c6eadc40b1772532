#include "base/text.h"
#include "ipa/inventory.h"
#include "motion/motion.h"
#include "score/plan.h"
#include "support/said.h"
#include "support/speaker.h"
#include "tract/measure.h"

#include <algorithm>
#include <array>
#include <doctest/doctest.h>
#include <map>
#include <random>

// Running speech beyond English: every consonant of the chart between vowels, and words drawn by lot over the whole chart.
// What is judged is what is drawn: in its own stretch of time a sound must show the constriction that its row demands, at
// the place where its own shape has it (tract-model.md section 16, tests 10 and 12, with the drawn gap in place of the discs').

using namespace mw;

namespace {
constexpr std::array<double, 3> syllables_a_second{3.5, 4.8, 6.6}; // careful, normal, fast: tract-model.md section 14
constexpr std::size_t fast = 2;
constexpr int samples = 9;

struct Speaking {
  std::shared_ptr<const Anatomy> anatomy;
  Tracer tracer{anatomy};
  Tracer still{anatomy};
};

struct Made {
  Narrowest at{};
  double port = 0;
  std::vector<Vec2> shut; // middles of the contacts
};
/// The narrowest place between throat wall and the epiglottis or the root behind it.
Narrowest over_larynx(const Outline& outline) {
  Narrowest least{Articulator::root, "epiglottal", 1e9, 0, {}};
  double top = -1e9;
  for (const Vec2 p : outline.epiglottis) top = std::max(top, p.y);
  for (const Polyline* line : {&outline.epiglottis, &outline.dorsum})
    for (const Vec2 p : *line) {
      const auto wall = nearest_on(outline.back_wall, p);
      if (p.y > top || wall.distance >= least.gap_mm) continue;
      least.gap_mm = std::max(wall.distance, 0.0), least.u_mm = -p.y, least.at = p;
    }
  return least;
}
Made made(Speaking& s, Tracer& tracer, const Target& row, const Pose& pose) {
  const Outline& outline = tracer.trace(pose);
  Made m{row.primary == Primary::lips ? Narrowest{} : tongue_gap(*s.anatomy, outline), nasal_port(outline), {}};
  if (row.primary == Primary::lips) m.at.gap_mm = lip_gap(outline);
  else if (row.place == "epiglottal") m.at = over_larynx(outline);
  for (const Contact& c : contacts(*s.anatomy, outline)) m.shut.push_back(0.5 * (c.from + c.to));
  return m;
}

bool shuts(const Unit& u) {
  const auto& manner = u.target.manner;
  return manner == "stop" || manner == "nasal" || manner == "lateral" || manner.ends_with("click") || manner == "implosive" ||
         manner == "ejective" || manner == "lateral fricative" || (manner == "affricate" && u.half != Half::second);
}

/// How far (mm) a constriction may move for its vowels: the back of the tongue gives way by more than a centimetre (the
/// velar stops of "key" and "coo": common practice), the tip hardly.
double room(const Target& row) { return row.place == "velar" ? 20 : row.place == "palatal" || row.place == "uvular" ? 14 : 8; }

struct Tally {
  std::map<std::string, std::pair<int, int>> by_kind; // met, asked
  std::map<std::string, std::vector<std::string>> misses;
  void put(const std::string& kind, bool met, const std::string& where) {
    auto& [good, all] = by_kind[kind];
    ++all, good += met;
    if (!met) misses[kind].push_back(where);
  }
};

void judge(Tally& tally, Speaking& s, const std::string& ipa, std::size_t rate) {
  const auto track = spell_out(test::said(ipa), {.rate = syllables_a_second[rate]});
  const auto score = plan(track, s.anatomy);
  REQUIRE(score.has_value());
  const Motion motion = bake(*score);
  for (const Unit& u : score->plan->units) {
    const Target& row = u.target;
    if (u.vowel || row.place == "glottal" || row.primary == Primary::none) continue;
    const Made own = made(s, s.still, row, row.pose);
    double least = 1e9, most = 0, at = 0, port = 0, sure = 0;
    std::vector<Vec2> shut;
    const bool closed = shuts(u);
    const double from = closed ? u.effective_from : 0.35, to = closed ? u.effective_to : 0.65;
    for (int k = 0; k < samples; ++k) {
      const double t = u.start_s + u.length() * (from + (to - from) * k / (samples - 1));
      const Made m = made(s, s.tracer, row, pose_at(motion, t));
      if (m.at.gap_mm < least) least = m.at.gap_mm, at = m.at.u_mm, sure = t;
      shut.insert(shut.end(), m.shut.begin(), m.shut.end());
      most = std::max(most, m.at.gap_mm), port = std::max(port, m.port);
    }
    const std::string where = ipa + " [" + u.symbol + "] " + s.anatomy->id + " " + std::to_string(rate) + ": " + to_text(least, 2) + ".." + to_text(most, 2) + " mm, own " +
                              to_text(own.at.gap_mm, 2) + ", at " + to_text(at, 0) + ", own " + to_text(own.at.u_mm, 0) + " t " + to_text(sure, 3);
    const bool placed = row.primary == Primary::lips || std::abs(at - own.at.u_mm) < room(row);
    // each closure of its own shape stands somewhere near in running speech
    const bool touched = std::ranges::all_of(own.shut, [&](Vec2 p) {
      return std::ranges::any_of(shut, [&](Vec2 q) { return glm::distance(p, q) < room(row); });
    });
    if (closed) {
      tally.put(row.manner + " made", least <= (rate == fast ? 0.3 : 0.1) + own.at.gap_mm, where);
      tally.put(row.manner + " placed", touched, where);
    } else if (row.manner == "fricative" || row.manner == "affricate") {
      tally.put("friction made", least > 0.05 && least < std::max(own.at.gap_mm + 0.8, row.gap_max.value_or(0)), where);
      tally.put("friction placed", placed, where);
    } else if (row.manner == "approximant") tally.put("approximant made", least > 0.5 && least < own.at.gap_mm + 1.4, where);
    else if (row.manner == "tap" || row.manner == "trill") tally.put(row.manner + " made", least <= own.at.gap_mm + 0.3, where);
    else tally.put("other " + row.manner, least <= own.at.gap_mm + 0.5, where);
    if (row.pose.velum > 0.5) tally.put("nose open", port > 1, where);
  }
}

std::vector<std::string> sounds(bool vowels) {
  std::vector<std::string> out;
  for (const auto& letter : letters())
    if (letter.vowel == vowels) out.push_back(letter.ipa);
  if (!vowels)
    for (const auto& sound : chart_ejectives()) out.push_back(to_ipa(sound));
  return out;
}

void check(const Tally& tally, double percent) {
  for (const auto& [kind, count] : tally.by_kind) {
    std::string misses;
    if (const auto at = tally.misses.find(kind); at != tally.misses.end())
      for (std::size_t k = 0; k < std::min<std::size_t>(at->second.size(), 12); ++k) misses += "\n    " + at->second[k];
    CHECK_MESSAGE(100.0 * count.first / count.second >= percent, kind, " ", count.first, " of ", count.second, misses);
  }
}
} // namespace

TEST_CASE("languages: every consonant of the chart is made between open, front and back vowels") {
  for (const char* id : {"adult-male", "adult-female", "child"}) {
    Tally tally;
    Speaking s{testing::speaker(id)};
    for (const auto& c : sounds(false))
      for (const char* v : {"a", "i", "u"})
        for (std::size_t rate = 0; rate < 3; ++rate) judge(tally, s, "ˈ" + c + v + "." + c + v, rate);
    CHECK(tally.by_kind["stop made"].second > 700);
    check(tally, 99);
  }
}

TEST_CASE("languages: at any moment one whole tongue inside the mouth, whatever sounds follow each other") {
  const auto cs = sounds(false), vs = sounds(true);
  for (const char* id : {"adult-male", "adult-female", "child"}) {
    std::mt19937 random(23);
    const auto any = [&](const std::vector<std::string>& of) { return of[random() % of.size()]; };
    Speaking s{testing::speaker(id)};
    int moments = 0, whole = 0, apart = 0, strained = 0;
    double deepest = 0;
    std::string worst, first_area;
    for (int i = 0; i < 80; ++i) {
      std::string text;
      for (int word = 0; word < 3; ++word) text += (word ? " ˈ" : "ˈ") + any(cs) + any(vs) + "." + any(cs) + any(vs) + (random() % 2 ? any(cs) : "");
      const auto track = spell_out(test::said(text), {.rate = syllables_a_second[random() % 3]});
      const auto score = plan(track, s.anatomy);
      REQUIRE(score.has_value());
      const Motion motion = bake(*score);
      for (double t = 0.1; t < motion.duration_s; t += 0.037) {
        const Outline& o = s.tracer.trace(pose_at(motion, t));
        ++moments;
        CHECK_MESSAGE(is_simple(o.dorsum, false), std::string(id) << " " << text << " at " << t);
        const double depth = penetration(*s.anatomy, o);
        if (depth > deepest) deepest = depth, worst = text + " at " + to_text(t, 3);
        apart += depth <= 0.5;
        whole += std::abs(o.area_error) <= 0.03 || o.strained;
        if (std::abs(o.area_error) > 0.03 && !o.strained && first_area.empty()) first_area = text + " at " + to_text(t, 3);
        strained += o.strained;
      }
    }
    CHECK_MESSAGE(whole == moments, std::string(id) << " " << whole << " of " << moments << ", " << first_area);
    CHECK_MESSAGE(apart >= 0.999 * moments, std::string(id) << " " << apart << " of " << moments << ", deepest " << deepest << " " << worst);
    CHECK_MESSAGE(strained < 0.05 * moments, std::string(id) << " " << strained << " of " << moments);
  }
}

TEST_CASE("languages: words drawn by lot over the whole chart keep the laws of speech") {
  const auto cs = sounds(false), vs = sounds(true);
  for (const char* id : {"adult-male", "adult-female", "child"}) {
    std::mt19937 random(11);
    const auto any = [&](const std::vector<std::string>& of) { return of[random() % of.size()]; };
    Tally tally;
    Speaking s{testing::speaker(id)};
    for (int i = 0; i < 120; ++i) {
      std::string text;
      for (int word = 0; word < 3; ++word) text += (word ? " ˈ" : "ˈ") + any(cs) + any(vs) + "." + any(cs) + any(vs) + (random() % 2 ? any(cs) : "");
      judge(tally, s, text, 1);
    }
    check(tally, 95); // clusters over word boundaries as no language has them; ours
  }
}
