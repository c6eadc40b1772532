#include "evidence/speech.h"
#include "motion/motion.h"
#include "score/plan.h"
#include "support/moving.h"
#include "tract/measure.h"
#include "tract/outline.h"

#include <algorithm>
#include <cmath>
#include <doctest/doctest.h>
#include <random>

// What running speech looks like when it is drawn: tract-model.md section 16, test 12.

using namespace mw;

namespace {
struct Drawn {
  std::shared_ptr<const Anatomy> anatomy = testing::speaker();
  Tracer tracer{anatomy};
};

/// Largest distance (mm) of the drawn tongue back from where it was a moment before.
double moved(const Polyline& now, const Polyline& before) {
  double most = 0;
  for (std::size_t i = 5; i + 2 < now.size(); ++i) most = std::max(most, std::abs(nearest_on(before, now[i]).distance));
  return most;
}
} // namespace

TEST_CASE("drawn speech: at any moment one whole tongue, inside the mouth") {
  const auto phrases = read_speech_phrases();
  REQUIRE(phrases.has_value());
  Drawn drawn;
  std::mt19937 random(5);
  std::vector<double> areas;
  int overlaps = 0;
  for (int i = 0; i < 120; ++i) {
    const auto& phrase = (*phrases)[random() % phrases->size()];
    const auto score = plan(phrase.tracks[random() % 3], drawn.anatomy);
    REQUIRE(score.has_value());
    const Motion motion = bake(*score);
    for (int k = 0; k < 5; ++k) {
      const double t = 0.2 + (motion.duration_s - 0.4) * static_cast<double>(random() % 1000) / 1000;
      const Outline& outline = drawn.tracer.trace(pose_at(motion, t));
      areas.push_back(std::abs(outline.area_error));
      CHECK_MESSAGE((std::abs(outline.area_error) <= 0.03 || outline.strained), phrase.text << " at " << t);
      overlaps += penetration(*drawn.anatomy, outline) > 0.5 ? 1 : 0;
      CHECK_MESSAGE(is_simple(outline.dorsum, false), phrase.text << " at " << t);
    }
  }
  // the tip on its way over the lower teeth is drawn into them for an instant, about once in 2500 moments
  CHECK(overlaps <= 3);
  std::ranges::sort(areas);
  CHECK(areas[areas.size() * 95 / 100] <= 0.02);
}

TEST_CASE("drawn speech: stops, nasals and laterals of tongue and lips touch where they are drawn") {
  const auto phrases = read_speech_phrases();
  REQUIRE(phrases.has_value());
  Drawn drawn;
  int touched = 0, asked = 0;
  std::string first_miss;
  for (std::size_t i = 0; i < phrases->size(); i += 35) {
    const auto score = plan((*phrases)[i].tracks[1], drawn.anatomy);
    REQUIRE(score.has_value());
    const Motion motion = bake(*score);
    for (const Unit& u : score->plan->units) {
      const auto& manner = u.target.manner;
      if (u.vowel || u.target.place == "glottal") continue;
      if (manner != "stop" && manner != "nasal" && manner != "lateral") continue;
      // inside the stretch in which the closure has to stand
      const double t = u.start_s + u.length() * std::clamp(0.5 * (u.effective_from + u.effective_to), 0.3, 0.6);
      const Outline& outline = drawn.tracer.trace(pose_at(motion, t));
      const double gap = u.target.primary == Primary::lips ? lip_gap(outline) : tongue_gap(*drawn.anatomy, outline).gap_mm;
      ++asked;
      if (gap <= 0.1) ++touched;
      else if (first_miss.empty()) first_miss = u.symbol + " in " + (*phrases)[i].text;
    }
  }
  CHECK(asked > 150);
  CHECK_MESSAGE(touched >= 0.99 * asked, touched << " of " << asked << ", first " << first_miss);
}

TEST_CASE("drawn speech: nothing jumps from one moment to the next") {
  const auto phrases = read_speech_phrases();
  REQUIRE(phrases.has_value());
  Drawn drawn;
  for (const std::size_t i : {0u, 250u, 500u, 690u})
    for (const std::size_t rate : {0u, 2u}) {
      const auto score = plan((*phrases)[i].tracks[rate], drawn.anatomy);
      REQUIRE(score.has_value());
      const Motion motion = bake(*score);
      Polyline before = drawn.tracer.trace(pose_at(motion, 0.28)).dorsum;
      for (double t = 0.284; t < std::min(1.2, motion.duration_s); t += 0.004) {
        const Outline& outline = drawn.tracer.trace(pose_at(motion, t));
        // the tip's own speed cap, 0.42 m/s, is 1.7 mm in this time
        CHECK_MESSAGE(moved(outline.dorsum, before) <= 1.7, (*phrases)[i].text << " at " << t);
        before = outline.dorsum;
      }
    }
}

TEST_CASE("drawn speech: a click holds two closures with an empty pocket between them that grows") {
  Drawn drawn;
  const auto m = testing::moving("ɑ:120:v ǃ:130:so ɑ:140:v");
  const Segment& s = m.track.segments[1];
  const auto at = [&](double share) {
    const Pose pose = pose_at(m.motion, s.start_s + share * (s.end_s - s.start_s));
    const Outline& outline = drawn.tracer.trace(pose);
    const auto touching = contacts(*drawn.anatomy, outline);
    const auto count = std::ranges::count_if(touching, [](const Contact& c) {
      return c.articulator == Articulator::tip || c.articulator == Articulator::body;
    });
    // pocket: area between the tongue back and the palate in front of the back closure
    double area = 0;
    for (std::size_t i = 1; i < outline.dorsum.size(); ++i) {
      const Vec2 p = outline.dorsum[i], q = outline.dorsum[i - 1];
      if (p.x < 12 || p.x > 48 || p.y < -20) continue;
      area += std::max(0.0, nearest_on(drawn.anatomy->palate, p).distance) * std::abs(q.x - p.x);
    }
    return std::pair(count, area);
  };
  const auto early = at(0.2), late = at(0.55);
  CHECK(early.first >= 1);
  CHECK(late.first >= 1);
  CHECK(late.second > early.second + 10);
}
