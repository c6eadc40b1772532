#include "motion/landmarks.h"
#include "score/disc_gaps.h"
#include "score/plan.h"
#include "support/moving.h"

#include <algorithm>
#include <cmath>
#include <doctest/doctest.h>

using namespace mw;

namespace {
struct Traced {
  testing::Moving m;
  const DiscWalls& walls;
  explicit Traced(const std::string& segments, const std::string& id = "adult-male")
      : m(testing::moving(segments, id)), walls(disc_walls(*testing::speaker(id))) {}
  [[nodiscard]] const Segment& segment(std::size_t i) const { return m.track.segments[i]; }
  [[nodiscard]] Pose at(std::size_t i, double share) const {
    return pose_at(m.motion, segment(i).start_s + share * (segment(i).end_s - segment(i).start_s));
  }
  [[nodiscard]] double tip(const Pose& p) const { return tip_gap(*m.score.plan->anatomy, walls, p); }
  [[nodiscard]] double body(const Pose& p) const { return body_gap(*m.score.plan->anatomy, walls, p, false); }
};
/// Turning points of a channel inside segment 1 that are more than `least` apart.
int turns(const Traced& x, double Pose::*value, double least) {
  int count = 0;
  double extreme = x.at(1, 0).*value;
  int direction = 0;
  for (int k = 1; k <= 400; ++k) {
    const double now = x.at(1, k / 400.0).*value;
    if (direction == 0 && std::abs(now - extreme) > least) direction = now > extreme ? 1 : -1;
    if (direction != 0 && (now - extreme) * direction > 0) extreme = now;
    else if (direction != 0 && (extreme - now) * direction > least) {
      ++count;
      direction = -direction;
      extreme = now;
    }
  }
  return count;
}
} // namespace

TEST_CASE("trill: two or three beats of a millimetre either way on the part that beats") {
  // a beat up and down is two turns; the first may merge with the way in, the way out may add one
  for (const auto& [sound, value] : {std::pair("r", &Pose::tip_y), std::pair("ʙ", &Pose::lip_opening)}) {
    const Traced x(std::string("ɑ:120:v ") + sound + ":110:o ɑ:120:v");
    const int n = turns(x, value, 0.6);
    CHECK_MESSAGE(n >= 3, std::string(sound));
    CHECK_MESSAGE(n <= 8, std::string(sound));
  }
  CHECK(turns(Traced("ɑ:120:v ʀ:110:o ɑ:120:v"), &Pose::velum, 0.05) >= 3);
  CHECK(turns(Traced("ɑ:120:v d:110:o ɑ:120:v"), &Pose::tip_y, 0.6) <= 2);
}

TEST_CASE("trill: the tip opens and shuts the passage at about 25 Hz") {
  const Traced x("ɑ:120:v r:120:o ɑ:120:v");
  int shut = 0;
  bool was = false;
  for (int k = 0; k <= 400; ++k) {
    const bool is = x.tip(x.at(1, k / 400.0)) <= 0.05;
    shut += is && !was ? 1 : 0;
    was = is;
  }
  CHECK(shut >= 2);
  CHECK(shut <= 3);
}

TEST_CASE("click: both closures stand at once, the pocket grows, the front opens before the back") {
  for (const auto& id : anatomy_ids())
    for (const char* click : {"ǃ", "ǀ", "ǂ", "ǁ"}) {
      const Traced x(std::string("ɑ:120:v ") + click + ":130:so ɑ:140:v", id);
      const auto front_shut = [&](double f) { return x.tip(x.at(1, f)) <= 0.05; };
      const auto back_shut = [&](double f) { return x.body(x.at(1, f)) <= 0.05; };
      CHECK_MESSAGE(front_shut(0.35), id << std::string(click));
      CHECK_MESSAGE(back_shut(0.35), id << std::string(click));
      CHECK_MESSAGE(back_shut(0.55), id << std::string(click));
      // hollowed and drawn back while both are shut
      CHECK_MESSAGE(x.at(1, 0.55).blade < x.at(1, 0.25).blade - 1, id << std::string(click));
      CHECK_MESSAGE(x.at(1, 0.55).body_x > x.at(1, 0.25).body_x + 1, id << std::string(click));
      double front = 0, back = 0; // last moments shut
      for (int k = 0; k <= 200; ++k) {
        if (front_shut(k / 100.0)) front = k / 100.0;
        if (back_shut(k / 100.0)) back = k / 100.0;
      }
      const double later_ms = (back - front) * 130;
      CHECK_MESSAGE(later_ms > 15, id << std::string(click) << " " << later_ms);
      CHECK_MESSAGE(later_ms < 80, id << std::string(click) << " " << later_ms);
    }
}

TEST_CASE("click on the lips: lips and back shut together") {
  const Traced x("ɑ:120:v ʘ:130:so ɑ:140:v");
  CHECK(x.at(1, 0.4).lip_opening <= 0.05);
  CHECK(x.body(x.at(1, 0.4)) <= 0.05);
}

TEST_CASE("implosive: the larynx sinks during the hold and comes back after the release") {
  for (const char* sound : {"ɓ", "ɗ", "ɠ"}) {
    const Traced x(std::string("ɑ:120:v ") + sound + ":100:so ɑ:200:v");
    CHECK(x.at(1, 0.02).larynx > -2);
    CHECK(x.at(1, 0.7).larynx < -6);
    CHECK(x.at(2, 0.95).larynx > -2);
    CHECK(x.at(1, 0.4).glottis < 0.2); // voiced throughout
  }
}

TEST_CASE("ejective: shut folds and a rising larynx, opened after the release") {
  for (const char* sound : {"pʼ", "tʼ", "kʼ", "qʼ", "t͡sʼ"}) {
    const Traced x(std::string("ɑ:120:v ") + sound + ":110:so ɑ:200:v");
    CHECK_MESSAGE(x.at(1, 0.5).glottis < 0.02, std::string(sound));
    CHECK_MESSAGE(x.at(1, 0.95).larynx > 4, std::string(sound));
    CHECK_MESSAGE(x.at(1, 0.05).larynx < 2, std::string(sound));
    CHECK_MESSAGE(x.at(2, 0.5).glottis == doctest::Approx(0.12), std::string(sound));
  }
}

TEST_CASE("pumps: trills beat, implosives sink and ejectives rise on every speaker") {
  for (const auto& id : anatomy_ids()) {
    CAPTURE(id);
    const double size = testing::speaker(id)->larynx_scale;
    CHECK(turns(Traced("ɑ:120:v r:110:o ɑ:120:v", id), &Pose::tip_y, 0.6) >= 3);
    CHECK(turns(Traced("ɑ:120:v ʀ:110:o ɑ:120:v", id), &Pose::velum, 0.05) >= 3);
    CHECK(Traced("ɑ:120:v ɗ:100:so ɑ:200:v", id).at(1, 0.7).larynx < -6 * size);
    CHECK(Traced("ɑ:120:v tʼ:110:so ɑ:200:v", id).at(1, 0.95).larynx > 4 * size);
  }
}

TEST_CASE("release: by the nose the soft palate opens, past the sides the tongue's sides drop, while the tip stays shut") {
  for (const auto& id : anatomy_ids()) {
    CAPTURE(id);
    const Traced nose("ə:80: tⁿ:100:so ə:140:v", id), sides("ə:80: dˡ:100:so ə:140:v", id), plain("ə:80: t:100:so ə:140:v", id);
    for (const auto* x : {&nose, &sides}) {
      CHECK(x->tip(x->at(1, 0.3)) <= 0.05);
      CHECK(x->tip(x->at(1, 0.9)) <= 0.05);
      CHECK(x->at(1, 0.4).velum < 0.05);
      CHECK(x->at(1, 0.4).sides > 0.3);
      CHECK(x->at(2, 0.7).velum < 0.05);
    }
    CHECK(nose.at(1, 0.95).velum > 0.5);
    CHECK(sides.at(1, 0.95).sides < -0.5);
    CHECK(sides.at(1, 0.95).velum < 0.05);
    CHECK(plain.tip(plain.at(1, 0.97)) > 0.05); // without a mark the tip lets go
    CHECK(plain.at(1, 0.95).velum < 0.05);
  }
}

TEST_CASE("glottal stop: the folds shut while the mouth takes the vowel's shape") {
  const Traced x("ə:80: ʔ:70:so i:120:v");
  CHECK(x.at(1, 0.5).glottis < 0.01);
  CHECK(x.at(2, 0.5).glottis == doctest::Approx(0.12));
  CHECK(std::abs(x.at(1, 0.9).body_x - x.at(2, 0.5).body_x) < 6);
}

TEST_CASE("phonation: breathy, creaky and voiceless vowels move the folds if their marks do") {
  const Traced nasal("p:80:so ã:150:v p:80:");
  CHECK(nasal.at(1, 0.5).velum > 0.5);
  CHECK(nasal.at(0, 0.3).velum < 0.1);
  CHECK(Traced("ɑ:120: ɦ:80:o ɑ:120:v").at(1, 0.5).glottis == doctest::Approx(0.4).epsilon(0.05));
}

TEST_CASE("double closure: lips and back shut together") {
  const Traced x("ɑ:120:v k͡p:110:so ɑ:140:v");
  CHECK(x.at(1, 0.4).lip_opening <= 0.05);
  CHECK(x.body(x.at(1, 0.4)) <= 0.05);
}

TEST_CASE("pink tulip cup: three closed p, the soft palate only for ng, rounding through t") {
  const Traced x("p:110:sio ɪ:100:v ŋ:80: k:90: t:100:io u:130:v l:80:o ɪ:90: p:110: k:100:sio ʌ:130:v p:120:");
  for (const std::size_t p : {0u, 8u, 11u}) CHECK(x.at(p, 0.45).lip_opening <= 0.05);
  CHECK(x.at(2, 0.5).velum > 0.5);
  CHECK(x.at(1, 0.9).velum > 0.5);
  for (const std::size_t i : {0u, 3u, 4u, 5u, 6u, 7u, 8u, 9u, 10u, 11u}) CHECK(x.at(i, 0.5).velum < 0.5);
  CHECK(x.at(4, 0.45).lip_opening < 5);
  CHECK(x.at(4, 0.45).lip_protrusion > 5);
}

TEST_CASE("pause: the mouth relaxes and moves on without a break") {
  const Traced x("ɑ:150:v _:700 i:150:v");
  const double middle = x.segment(0).end_s + 0.4;
  const Pose rest = pose_at(x.m.motion, middle), ready = pose_at(x.m.motion, 0);
  CHECK(rest.jaw_opening == doctest::Approx(ready.jaw_opening).epsilon(0.01));
  CHECK(rest.body_x == doctest::Approx(ready.body_x).epsilon(0.01));
  CHECK(x.at(1, 0.4).body_x == doctest::Approx(30.3).epsilon(0.02));
}

TEST_CASE("landmarks: in order of time, contact between onset and offset, the opening zero where it is made") {
  const Traced x("ə:80: k:100:so ɑ:140:v p:90: ə:80: n:70:o ə:90:");
  const auto marks = landmarks(x.m.score, x.m.motion);
  REQUIRE(!marks.empty());
  CHECK(std::ranges::is_sorted(marks, {}, &Landmark::time_s));
  int contacts = 0;
  for (const Landmark& mark : marks) {
    const Gesture& g = x.m.score.gestures[mark.gesture];
    CHECK(mark.segment == g.segment);
    if (mark.kind != LandmarkKind::contact_made && mark.kind != LandmarkKind::contact_broken) continue;
    ++contacts;
    CHECK(mark.time_s >= g.onset_s);
    CHECK(mark.time_s <= g.offset_s);
    const Pose p = pose_at(x.m.motion, mark.time_s);
    const double gap = mark.articulator == Articulator::lips  ? p.lip_opening
                       : mark.articulator == Articulator::tip ? x.tip(p)
                                                              : x.body(p);
    if (g.segment != 5) CHECK(std::abs(gap) < 0.01);
  }
  CHECK(contacts == 6); // k, p, n: made and broken
}
