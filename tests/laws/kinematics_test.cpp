#include "acoustics/formants.h"
#include "evidence/speech.h"
#include "motion/motion.h"
#include "score/disc_gaps.h"
#include "score/plan.h"
#include "support/moving.h"
#include "tract/outline.h"

#include <algorithm>
#include <cmath>
#include <doctest/doctest.h>
#include <map>

// How the parts move: tract-model.md section 16, test 13. Published ranges: closing movements of tip, body and lips 12-25,
// 8-20 and 10-25 cm/s (from memory), speed peak near the middle of the movement; locus slopes b steep, d flat.

using namespace mw;

namespace {
struct Closing {
  double size_mm, peak_cm_s, place;
};
struct Kinematics {
  std::map<Tier, std::vector<Closing>> closings;
  std::vector<double> velum_lead_ms, overlap_percent;
  int held = 0;
};

double speed(const Motion& m, Tier tier, double t) {
  constexpr double h = 0.001;
  double sum = 0;
  for (const auto& c : channels_of(tier)) {
    if (!c.size || c.value == &Pose::lip_protrusion) continue;
    sum += std::pow((pose_at(m, t + h).*c.value - pose_at(m, t - h).*c.value) / (2 * h), 2);
  }
  return std::sqrt(sum) / 10; // cm/s
}

/// A closing movement between its 20 % speed thresholds; nothing if it is under 3 mm.
std::optional<Closing> closing_of(const Motion& m, Tier tier, Ramp in) {
  double sum = 0;
  const Pose from = pose_at(m, in.start), to = pose_at(m, in.end);
  for (const auto& c : channels_of(tier))
    if (c.size && c.value != &Pose::lip_protrusion) sum += std::pow(to.*c.value - from.*c.value, 2);
  if (sum < 9 || in.end - in.start < 0.02) return {};
  std::vector<double> v;
  for (double t = in.start; t <= in.end; t += 0.002) v.push_back(speed(m, tier, t));
  const auto peak = std::ranges::max_element(v);
  const auto over = [&](double x) { return x > 0.2 * *peak; };
  const auto first = std::ranges::find_if(v, over);
  const auto last = std::find_if(v.rbegin(), v.rend(), over).base() - 1;
  return Closing{std::sqrt(sum), *peak, static_cast<double>(peak - first) / static_cast<double>(std::max<std::ptrdiff_t>(last - first, 1))};
}

struct Passage {
  const Anatomy& anatomy;
  DiscWalls walls;
  [[nodiscard]] bool shut(const Pose& p, Primary by, bool nasal) const {
    const double gap = by == Primary::lips ? p.lip_opening : by == Primary::tip ? tip_gap(anatomy, walls, p)
                                                                               : body_gap(anatomy, walls, p, nasal);
    return gap <= 0.05;
  }
};

void add_overlap(Kinematics& k, const Motion& m, const Passage& passage, const Unit& a, const Unit& b) {
  int first = 0, second = 0, both = 0;
  bool unbroken = true;
  for (double t = a.start_s - 0.05; t < b.end_s + 0.05; t += 0.001) {
    const Pose p = pose_at(m, t);
    const bool nasal = b.target.pose.velum > 0.5;
    const bool x = passage.shut(p, a.target.primary, nasal), y = passage.shut(p, b.target.primary, nasal);
    first += x;
    second += y;
    both += x && y;
    if (t > a.start_s + 0.3 * a.length() && t < b.end_s - 0.6 * b.length()) unbroken = unbroken && (x || y);
  }
  k.overlap_percent.push_back(100.0 * both / std::max(std::min(first, second), 1));
  k.held += unbroken;
}

/// How long before the nasal's segment its soft palate is open by 0.1; nothing if an earlier nasal had opened it.
void add_velum_lead(Kinematics& k, const Motion& m, const Unit& nasal) {
  double t = nasal.start_s;
  while (t > nasal.start_s - 0.2 && pose_at(m, t).velum > 0.1) t -= 0.002;
  if (t > nasal.start_s - 0.2) k.velum_lead_ms.push_back(1000 * (nasal.start_s - t));
}

Kinematics measure(std::size_t rate, std::size_t every) {
  const auto anatomy = testing::speaker();
  const Passage passage{*anatomy, disc_walls(*anatomy)};
  const auto phrases = read_speech_phrases();
  REQUIRE(phrases.has_value());
  Kinematics k;
  for (std::size_t i = 0; i < phrases->size(); i += every) {
    const auto score = plan((*phrases)[i].tracks[rate], anatomy);
    REQUIRE(score.has_value());
    const Motion m = bake(*score);
    for (const Tier tier : {Tier::lips, Tier::tip, Tier::body})
      for (const Chain& chain : score->plan->chains[index_of(tier)])
        for (const Move& move : chain.moves)
          if (move.primary)
            if (const auto closing = closing_of(m, tier, move.in)) k.closings[tier].push_back(*closing);
    const auto& units = score->plan->units;
    for (std::size_t u = 1; u < units.size(); ++u) {
      const Unit &a = units[u - 1], &b = units[u];
      if (b.target.pose.velum > 0.5 && a.vowel) add_velum_lead(k, m, b);
      const bool stops = !a.vowel && a.target.manner == "stop" && (b.target.manner == "stop" || b.target.manner == "nasal");
      if (stops && a.target.primary != b.target.primary && a.target.place != "glottal" && b.target.place != "glottal")
        add_overlap(k, m, passage, a, b);
    }
  }
  return k;
}

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
  struct Range { Tier tier; std::string name; double slow, quick; };
  const Range ranges[] = {{Tier::tip, "tip", 18, 28}, {Tier::body, "body", 15, 28}, {Tier::lips, "lips", 11, 20}};
  for (std::size_t rate = 0; rate < 3; ++rate) {
    const Kinematics k = measure(rate, 20);
    for (const Range& range : ranges) {
      std::vector<double> peaks, places;
      for (const Closing& c : k.closings.at(range.tier)) {
        peaks.push_back(c.peak_cm_s);
        places.push_back(c.place);
      }
      REQUIRE(peaks.size() > 20);
      MESSAGE(speech_rates[rate] << " " << range.name << ": " << mean(peaks) << " cm/s, peak at " << mean(places));
      CHECK(mean(peaks) >= range.slow);
      CHECK(mean(peaks) <= range.quick);
      CHECK(mean(places) >= 0.40);
      CHECK(mean(places) <= 0.60);
    }
    MESSAGE(speech_rates[rate] << ": velum " << mean(k.velum_lead_ms) << " ms before a nasal, closures overlap "
                               << mean(k.overlap_percent) << " %, held " << k.held << " of " << k.overlap_percent.size());
    CHECK(mean(k.velum_lead_ms) >= 60);
    CHECK(mean(k.velum_lead_ms) <= 110);
    CHECK(mean(k.overlap_percent) >= 30);
    CHECK(mean(k.overlap_percent) <= 60);
    CHECK(k.held == static_cast<int>(k.overlap_percent.size()));
  }
}

TEST_CASE("coarticulation: the body follows the vowel in b, less in g, least in d and s") {
  const double b = locus_slope("b", &Pose::body_x), d = locus_slope("d", &Pose::body_x), g = locus_slope("ɡ", &Pose::body_x),
               s = locus_slope("s", &Pose::body_x);
  MESSAGE("slopes b " << b << " d " << d << " g " << g << " s " << s);
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
  const auto walls = disc_walls(*anatomy);
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
