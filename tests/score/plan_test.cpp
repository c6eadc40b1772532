#include "anatomy/places.h"
#include "score/plan.h"
#include "score/planning.h"
#include "support/segments.h"
#include "support/speaker.h"

#include <algorithm>
#include <cmath>
#include <doctest/doctest.h>
#include <set>

using namespace mw;
using testing::track_of;

namespace {
Score score_of(const std::string& segments, const std::string& speaker = "adult-male") {
  const auto score = plan(track_of(segments), testing::speaker(speaker));
  REQUIRE(score.has_value());
  return *score;
}
const Gesture& primary_of(const Score& score, std::size_t segment, Articulator articulator) {
  const auto at = std::ranges::find_if(score.gestures, [&](const Gesture& g) {
    return g.segment == segment && g.articulator == articulator && g.primary;
  });
  REQUIRE(at != score.gestures.end());
  return *at;
}
const std::string kettle = "m:70:sio ɛ:90:v n:60: d:50: ð:40:io ə:60: k:90:sio ɛ:100:v t:55:o ɫ:90:y";
} // namespace

TEST_CASE("plan: gestures come in order of onset with their four times in order") {
  const Score score = score_of(kettle);
  REQUIRE(score.gestures.size() > 20);
  for (std::size_t i = 0; i < score.gestures.size(); ++i) {
    const Gesture& g = score.gestures[i];
    CHECK(g.onset_s <= g.reached_s);
    CHECK(g.reached_s <= g.release_s);
    CHECK(g.release_s <= g.offset_s);
    CHECK(g.effective_from_s <= g.effective_to_s);
    CHECK(g.segment < 10);
    if (i > 0) CHECK(score.gestures[i - 1].onset_s <= g.onset_s);
  }
}

TEST_CASE("plan: gesture places are places of the chart or vowels") {
  const std::set<std::string> places{"bilabial", "labiodental", "dental", "alveolar", "postalveolar", "retroflex", "palatal",
                                     "velar", "uvular", "pharyngeal", "epiglottal", "glottal"};
  const auto track = track_of("θ:80:o i:90: w:60:o ə:70: ʃ:90:o ɑ:90: ħ:90:o ɹ_bunched:60: tʃ:100:o aɪ:150: ɕ:90: k͡p:90:o o:90:");
  const auto score = plan(track, testing::speaker());
  REQUIRE(score.has_value());
  for (const Gesture& g : score->gestures) {
    if (g.vowel) CHECK(!places.contains(g.place));
    else CHECK_MESSAGE(places.contains(g.place), g.place);
  }
}

TEST_CASE("plan: degree and opening say what the sound needs") {
  const Score score = score_of("k:90:sio i:90:v s:90:o ə:60: w:70:o ɑ:100:v m:70: ɹ:60:o i:100:v ʔ:60:");
  const Gesture& k = primary_of(score, 0, Articulator::body);
  CHECK(k.degree == Degree::closed);
  CHECK(k.place == "velar");
  CHECK(*k.opening_mm < -1.5);
  const Gesture& s = primary_of(score, 2, Articulator::tip);
  CHECK(s.degree == Degree::critical);
  CHECK(*s.opening_mm == doctest::Approx(1.1).epsilon(0.2));
  CHECK(primary_of(score, 4, Articulator::body).degree == Degree::narrow);
  CHECK(primary_of(score, 6, Articulator::lips).place == "bilabial");
  CHECK(primary_of(score, 7, Articulator::tip).degree == Degree::narrow);
  CHECK(primary_of(score, 9, Articulator::glottis).degree == Degree::closed);
}

TEST_CASE("plan: neighbours of one articulator share a chain, a vowel parts chains") {
  const Score score = score_of("ə:60: s:90:o t:70:o ɑ:120:v t:70: ə:60:");
  CHECK(primary_of(score, 1, Articulator::tip).chain == primary_of(score, 2, Articulator::tip).chain);
  CHECK(primary_of(score, 2, Articulator::tip).chain != primary_of(score, 4, Articulator::tip).chain);
}

TEST_CASE("plan: a stressed voiceless stop is aspirated, not after s, and a written mark decides") {
  const auto aspirated = [](const std::string& segments, std::size_t unit) {
    return score_of(segments).plan->units[unit].aspirated;
  };
  CHECK(aspirated("p:100:sio ɪ:90:v", 0));
  CHECK(!aspirated("s:80:sio p:80:so ɪ:90:v", 1));
  CHECK(!aspirated("ə:60: p:80: ɪ:90:v", 1));
  CHECK(aspirated("ə:60: pʰ:80: ɪ:90:v", 1));
  CHECK(!aspirated("b:100:sio ɪ:90:v", 0));
}

TEST_CASE("plan: stops of different articulators overlap, across a pause they do not") {
  const auto gap = [](const std::string& segments, std::size_t second) {
    const Score score = score_of(segments);
    return primary_of(score, second, Articulator::body).effective_from_s -
           primary_of(score, second - 1, Articulator::tip).effective_to_s;
  };
  CHECK(gap("ə:60: t:70: k:70:o i:90:v", 2) < 0);
  CHECK(gap("ə:60: t:70: _:200 k:70:o i:90:v", 2) > 0.15);
}

TEST_CASE("plan: over a long pause the mouth goes back towards ready, over a short one it does not") {
  const auto keys = [](const std::string& segments) { return score_of(segments).plan->base.keys.size(); };
  CHECK(keys("ɑ:120:v _:500 i:120:v") == keys("ɑ:120:v _:100 i:120:v") + 1);
}

TEST_CASE("plan: a short th, or one beside an alveolar, stays behind the teeth") {
  const auto tip_x = [](const std::string& segments) { return score_of(segments).plan->units[1].target.pose.tip_x; };
  CHECK(tip_x("ə:60: θ:90:o i:90:v") < 0);
  CHECK(tip_x("ə:60: ð:30:o i:90:v") < 0); // as in a quick "the"
  CHECK(tip_x("ə:60: ð:24:o i:90:v") > 0);
  CHECK(tip_x("ə:60: ð:40:o n̪:60: i:90:v") > 0);
  CHECK(tip_x("ə:60: θ:90:o s:90: i:90:v") > 5);
}

TEST_CASE("plan: an empty phrase has a ready mouth and no gestures") {
  const Score score = score_of("_:0");
  CHECK(score.gestures.empty());
  CHECK(score.duration_s == doctest::Approx(0.68));
}

TEST_CASE("plan: a sound without a row is a problem") {
  auto track = track_of("k:90:o i:90:");
  track.segments[0].sound.letter = "%";
  const auto score = plan(track, testing::speaker());
  REQUIRE(!score.has_value());
  CHECK(score.error().kind == ProblemKind::input);
}

TEST_CASE("plan: planning twice gives the same score") {
  CHECK(score_of(kettle).gestures == score_of(kettle).gestures);
}

TEST_CASE("dorsal curve: the opening of k and j stays, wherever a vowel pulls the body") {
  for (const auto& id : anatomy_ids()) {
    const auto anatomy = testing::speaker(id);
    const auto table = read_targets(*anatomy);
    REQUIRE(table.has_value());
    for (const char* letter : {"k", "j"}) {
      const Target& row = *(*table)->consonant(letter);
      const DorsalCurve& curve = dorsal_curve(*anatomy, row);
      CHECK(curve.height(row.pose.body_x) == doctest::Approx(row.pose.body_y).epsilon(1e-9));
      const double reach = 5 * anatomy->jaw_x; // as far as vowels pull it
      for (double x = std::max(curve.first_x, row.pose.body_x - reach); x <= row.pose.body_x + reach; x += 1) {
        const Vec2 disc{x, curve.height(x)};
        double gap = 1e9;
        for (const Vec2 w : wall_table(*anatomy).point) gap = std::min(gap, glm::distance(w, disc));
        CHECK_MESSAGE(std::abs(gap - body_radius(*anatomy, disc) - curve.opening) < 0.35, id << " " << std::string(letter) << " " << x);
      }
      CHECK(&curve == &dorsal_curve(*anatomy, row)); // kept
    }
  }
}
