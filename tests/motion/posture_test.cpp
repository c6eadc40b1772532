#include "score/disc_gaps.h"
#include "score/plan.h"
#include "support/moving.h"

#include <doctest/doctest.h>

using namespace mw;
using testing::moving;

namespace {
PostureShift only(std::size_t channel, double by) {
  PostureShift shift;
  shift.by_channel[channel] = by;
  return shift;
}
/// What the accent files allow at most (accent/channels.cpp), in the order of pose_channels().
constexpr std::array<double, 18> largest{4, 4, .5, .5, 4, 2, 4, 5, 30, 2, .5, 5, 6, 4, .5, 8, .5, .3};

struct Spoken {
  Score score;
  Motion motion;
};
Spoken spoken(const SegmentTrack& track, const PostureShift& posture, const char* speaker = "adult-male") {
  const auto score = plan(track, testing::speaker(speaker), posture);
  REQUIRE(score.has_value());
  return {*score, bake(*score)};
}
const SegmentTrack& long_schwa() {
  static const auto track = testing::track_of("ə:900:v");
  return track;
}
} // namespace

TEST_CASE("posture: every channel moves the mouth at rest by its shift") {
  const Pose plain = pose_at(spoken(long_schwa(), {}).motion, 0);
  const auto channels = pose_channels();
  for (std::size_t i = 0; i < channels.size(); ++i) {
    const double by = 0.5 * largest[i];
    const Pose rest = pose_at(spoken(long_schwa(), only(i, by)).motion, 0);
    CHECK_MESSAGE(rest.*channels[i].value - plain.*channels[i].value == doctest::Approx(by).epsilon(1e-6), channels[i].column);
    for (std::size_t k = 0; k < channels.size(); ++k) // and no other
      if (k != i) CHECK_MESSAGE(std::abs(rest.*channels[k].value - plain.*channels[k].value) < 1e-9, channels[i].column << " moves " << channels[k].column);
  }
}

TEST_CASE("posture: a vowel takes its share of the shift in its middle: half of what it sets, all of what it leaves free") {
  const double middle = 0.28 + 0.45;
  const Pose plain = pose_at(spoken(long_schwa(), {}).motion, middle);
  const auto channels = pose_channels();
  for (std::size_t i = 0; i < channels.size(); ++i) {
    const double by = 0.4 * largest[i];
    const Pose vowel = pose_at(spoken(long_schwa(), only(i, by)).motion, middle);
    CHECK_MESSAGE(vowel.*channels[i].value - plain.*channels[i].value ==
                      doctest::Approx(by * vowel_share(channels[i].value)).epsilon(1e-6),
                  channels[i].column);
  }
  CHECK(vowel_share(&Pose::jaw_opening) == 0.5);
  CHECK(vowel_share(&Pose::tip_y) == 1);
}

TEST_CASE("posture: none is the same as not asking for one, to the bit") {
  const auto track = testing::track_of("m:70:sio ɛ:90:v n:60: d:50: ð:40:io ə:60: k:90:sio ɛ:100:v t:55:o ɫ:90:y");
  const auto with = spoken(track, PostureShift{});
  const auto plain = plan(track, testing::speaker());
  REQUIRE(plain.has_value());
  const Motion motion = bake(*plain);
  for (double t = 0; t < track.duration_s; t += 0.01) CHECK(pose_at(with.motion, t) == pose_at(motion, t));
}

TEST_CASE("posture: closures stay closed and the soft palate shuts for stops, whatever channel is shifted as far as files may") {
  const auto track = testing::track_of("ə:120: p:90:sio ɑ:140:v d:70:o ə:80: k:90:sio i:150:v t:80: ɡ:70:io ʊ:140:v b:70: m:80:io æ:150:v ŋ:80: n:80:io ə:80:");
  for (const char* speaker : {"adult-male", "child"}) {
    const Anatomy& anatomy = *testing::speaker(speaker);
    const DiscWalls& walls = disc_walls(anatomy);
    for (std::size_t i = 0; i < largest.size(); ++i)
      for (double sign : {-1.0, 1.0}) {
        const auto s = spoken(track, only(i, sign * largest[i]), speaker);
        for (const Unit& u : s.score.plan->units) {
          if (u.vowel) continue;
          double gap = 99, port = 1;
          for (int k = 0; k <= 40; ++k) {
            const Pose p = pose_at(s.motion, u.start_s + u.length() * k / 40);
            const double now = u.target.primary == Primary::lips  ? p.lip_opening
                               : u.target.primary == Primary::tip ? tip_gap(anatomy, walls, p)
                                                                  : body_gap(anatomy, walls, p, u.target.pose.velum > 0.5);
            gap = std::min(gap, now);
            port = std::min(port, p.velum);
          }
          CHECK_MESSAGE(gap <= 0.05, speaker << " " << pose_channels()[i].column << " " << sign << " " << u.symbol);
          if (u.target.pose.velum < 0.5) CHECK_MESSAGE(port < 0.1, speaker << " " << pose_channels()[i].column << " " << u.symbol);
        }
      }
  }
}

TEST_CASE("posture: vowels keep a passage and every value keeps its range") {
  const auto channels = pose_channels();
  const Anatomy& anatomy = *testing::speaker();
  const DiscWalls& walls = disc_walls(anatomy);
  for (const char* vowel : {"i:400:v", "u:400:v", "ɑ:400:v", "aɪ:400:v"}) {
    const auto track = testing::track_of(vowel);
    const auto plain = spoken(track, {});
    for (std::size_t i = 0; i < largest.size(); ++i)
      for (double sign : {-1.0, 1.0}) {
        const auto s = spoken(track, only(i, sign * largest[i]));
        for (double t = 0.4; t < 0.65; t += 0.05) {
          const Pose p = pose_at(s.motion, t), as_ever = pose_at(plain.motion, t);
          CHECK_MESSAGE(p.lip_opening > std::min(1.45, as_ever.lip_opening - 0.01), vowel << " " << channels[i].column);
          CHECK_MESSAGE(body_gap(anatomy, walls, p, false) > std::min(3.4, body_gap(anatomy, walls, as_ever, false) - 0.05),
                        vowel << " " << channels[i].column << " " << sign << " at " << t);
          for (const auto& c : channels) {
            CHECK_MESSAGE(p.*c.value <= c.high + 1e-9, channels[i].column << " drives " << c.column);
            CHECK_MESSAGE(p.*c.value >= c.low - 1e-9, channels[i].column << " drives " << c.column);
          }
        }
      }
  }
}
