#include "acoustics/formants.h"
#include "evidence/kinematics.h"
#include "motion/motion.h"
#include "score/disc_gaps.h"
#include "score/plan.h"
#include "support/moving.h"
#include "tract/outline.h"

#include <algorithm>
#include <cmath>
#include <doctest/doctest.h>

// How the parts move: tract-model.md section 16, test 13. Published ranges: closing movements of tip, body and lips 12-25,
// 8-20 and 10-25 cm/s (from memory), speed peak near the middle of the movement; locus slopes b steep, d flat.

using namespace mw;

namespace {
double mean(const std::vector<double>& v) {
  double sum = 0;
  for (const double x : v) sum += x;
  return v.empty() ? 0 : sum / static_cast<double>(v.size());
}

/// Slope of the body's backness (or height) in the consonant on that of the vowel after it, schwa C V C schwa.
double locus_slope(const std::string& consonant, double Pose::*value) {
  const auto table = read_targets(*testing::speaker());
  REQUIRE(table.has_value());
  std::vector<double> x, y;
  for (const char* vowel : {"i", "ɛ", "æ", "ɑ", "ɔ", "u"}) {
    const auto m = testing::moving("ə:70: " + consonant + ":80:so " + vowel + ":140:v " + consonant + ":80: ə:90:");
    const Segment& c = m.track.segments[1];
    x.push_back((*table)->vowel(vowel)->pose.*value);
    y.push_back(pose_at(m.motion, c.start_s + 0.75 * (c.end_s - c.start_s)).*value);
  }
  const double mx = mean(x), my = mean(y);
  double xy = 0, xx = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    xy += (x[i] - mx) * (y[i] - my);
    xx += (x[i] - mx) * (x[i] - mx);
  }
  return xy / xx;
}
} // namespace

TEST_CASE("kinematics: closing movements are as fast and as evenly shaped as measured ones") {
  for (std::size_t rate = 0; rate < 3; ++rate) {
    const auto k = measure_kinematics(rate, 20);
    REQUIRE(k.has_value());
    struct Range { const ClosingFigures& figures; double slow, quick; };
    for (const Range& range : {Range{k->tip, 18, 28}, Range{k->body, 15, 28}, Range{k->lips, 11, 20}}) {
      CHECK(range.figures.count > 20);
      CHECK(range.figures.peak_cm_s >= range.slow);
      CHECK(range.figures.peak_cm_s <= range.quick);
      CHECK(range.figures.peak_place >= 0.40);
      CHECK(range.figures.peak_place <= 0.60);
      // larger movements are faster; at fast rate the body has no time to tell them apart
      if (rate < 2) CHECK(range.figures.size_speed_correlation > 0.3);
    }
    CHECK(k->velum_lead_ms >= 60);
    CHECK(k->velum_lead_ms <= 110);
    CHECK(k->overlap_percent >= 30);
    CHECK(k->overlap_percent <= 60);
    CHECK(k->clusters > 10);
    CHECK(k->held == k->clusters);
  }
}

TEST_CASE("coarticulation: the body follows the vowel in b, less in g, least in d and s") {
  const double b = locus_slope("b", &Pose::body_x), d = locus_slope("d", &Pose::body_x), g = locus_slope("ɡ", &Pose::body_x),
               s = locus_slope("s", &Pose::body_x);
  CHECK(b > 1.5 * d);
  CHECK(g > d);
  CHECK(g < b);
  CHECK(s < d);
  CHECK(locus_slope("ɡ", &Pose::body_y) < 0.15); // a closure at the palate leaves the height no freedom
}

TEST_CASE("coarticulation: rounding for u starts the earlier, the more consonants stand before it") {
  double last = 0;
  for (const char* consonants : {"t:75:o", "s:75:o t:75:o", "k:75: s:75:o t:75:o"}) {
    const auto m = testing::moving(std::string("i:120:v ") + consonants + " u:140:v");
    const double rest = pose_at(m.motion, 0.2).lip_protrusion, vowel = m.track.segments.back().start_s;
    double t = 0.2;
    while (pose_at(m.motion, t).lip_protrusion < rest + 0.1 * (6.45 - rest)) t += 0.001;
    const double lead = 1000 * (vowel - t);
    CHECK(lead > last);
    CHECK(lead > 80);
    last = lead;
  }
}

TEST_CASE("coarticulation: in a final dark l the body is there before the tip touches") {
  const auto m = testing::moving("ɪ:120:v ɫ:100:");
  const auto anatomy = testing::speaker();
  const auto& walls = disc_walls(*anatomy);
  const Pose goal = m.score.plan->units[1].target.pose;
  const auto off = [&](double t) {
    const Pose p = pose_at(m.motion, t);
    return std::hypot(p.body_x - goal.body_x, p.body_y - goal.body_y);
  };
  double least = 1e9, most = 0, body = 0, tip = 0;
  for (double t = 0.28; t < m.motion.duration_s; t += 0.001) {
    least = std::min(least, off(t));
    most = std::max(most, off(t));
  }
  for (double t = 0.28; t < m.motion.duration_s; t += 0.001) {
    if (body == 0 && off(t) < least + 0.2 * (most - least)) body = t;
    if (tip == 0 && tip_gap(*anatomy, walls, pose_at(m.motion, t)) <= 0.05) tip = t;
  }
  CHECK(1000 * (tip - body) > 20);
  CHECK(1000 * (tip - body) < 100);
}

TEST_CASE("glides: running price, mouth, choice, face and goat close between 20 and 80 %, at every length") {
  // as heard (first formant), as drawn (top of the tongue), as seen (jaw); tract-model.md section 16, test 5
  struct Figures { double f1, top, jaw; };
  const auto anatomy = testing::speaker();
  Tracer tracer(anatomy);
  const auto figures = [&](const Pose& pose) {
    const Outline& outline = tracer.trace(pose);
    double top = -1e9;
    for (const Vec2 p : outline.dorsum) top = std::max(top, p.y);
    const auto formants = formants_hz(area_function(*anatomy, outline, pose));
    return Figures{formants.empty() ? 0 : formants[0], top, pose.jaw_opening};
  };
  for (const char* glide : {"eɪ", "oʊ", "əʊ", "aɪ", "aʊ", "ɔɪ"})
    for (const char* length : {"265", "150", "100"}) {
      const auto m = testing::moving(std::string("h:80:sio ") + glide + ":" + length + ":v d:90:");
      const Segment& s = m.track.segments[1];
      const auto at = [&](double share) { return figures(pose_at(m.motion, s.start_s + share * (s.end_s - s.start_s))); };
      const Figures a = at(0.2), b = at(0.8);
      const std::string what = std::string(glide) + " " + length;
      CHECK_MESSAGE(b.f1 > 0, what);
      CHECK_MESSAGE(b.f1 < a.f1, what << " " << a.f1 << " " << b.f1);
      CHECK_MESSAGE(b.top > a.top, what);
      CHECK_MESSAGE(b.jaw < a.jaw, what);
    }
}

TEST_CASE("glides: those of other speakers and of letters without a row of their own close in a word, too") {
  for (const char* glide : {"eɪ", "oʊ", "əʊ", "aɪ", "aʊ", "ɔɪ", "ʌɪ", "æɪ", "ɑe", "ɒʊ", "ɛʉ", "əʉ", "ɪi", "ʊu"})
    for (const auto& id : anatomy_ids()) {
      const auto anatomy = testing::speaker(id);
      Tracer tracer(anatomy);
      const auto m = testing::moving(std::string("h:80:sio ") + glide + ":200:v b:90:", id);
      const Segment& s = m.track.segments[1];
      const auto at = [&](double share) { return pose_at(m.motion, s.start_s + share * (s.end_s - s.start_s)); };
      const auto top = [&](const Pose& pose) {
        double y = -1e9;
        for (const Vec2 p : tracer.trace(pose).dorsum) y = std::max(y, p.y);
        return y;
      };
      const std::string what = id + " " + glide;
      CHECK_MESSAGE(top(at(0.8)) > top(at(0.2)), what);
      CHECK_MESSAGE(at(0.8).jaw_opening < at(0.2).jaw_opening, what);
    }
}
