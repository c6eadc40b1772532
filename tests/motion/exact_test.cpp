#include "score/plan.h"
#include "support/allocations.h"
#include "support/moving.h"

#include <algorithm>
#include <cmath>
#include <doctest/doctest.h>
#include <random>

using namespace mw;

namespace {
using test::allocations, test::counting;

// "pink tulip cup" with the durations the model's acceptance test names
const std::string pink = "p:110:sio ɪ:100:v ŋ:80: k:90: t:100:io u:130:v l:80:o ɪ:90: p:110: k:100:sio ʌ:130:v p:120:";
const std::string odd = "ǃ:120:o a:100:v r:100:o ɓ:90:o i:90: _:600 kʼ:90:o ʀ:110:o u:120:v ʙ:100: ã:100: θ:90:o s:90:";
} // namespace

TEST_CASE("motion: any order of visiting gives the very same poses") {
  for (const auto& phrase : {pink, odd}) {
    const auto m = testing::moving(phrase);
    std::vector<std::size_t> order(3000);
    std::vector<Pose> forward(order.size());
    const auto time = [&](std::size_t i) { return m.motion.duration_s * static_cast<double>(i) / 2999; };
    for (std::size_t i = 0; i < order.size(); ++i) {
      order[i] = i;
      forward[i] = pose_at(m.motion, time(i));
    }
    std::ranges::shuffle(order, std::mt19937(3));
    for (const std::size_t i : order) REQUIRE(pose_at(m.motion, time(i)) == forward[i]);
    std::ranges::sort(order, std::greater());
    for (const std::size_t i : order) REQUIRE(pose_at(m.motion, time(i)) == forward[i]);
  }
}

TEST_CASE("motion: time outside the take is clamped") {
  const auto m = testing::moving(pink);
  CHECK(pose_at(m.motion, -5) == pose_at(m.motion, 0));
  CHECK(pose_at(m.motion, 1e6) == pose_at(m.motion, m.motion.duration_s));
}

TEST_CASE("motion: an empty phrase rests ready") {
  const auto m = testing::moving("_:0");
  CHECK(pose_at(m.motion, 0) == pose_at(m.motion, 0.5));
  CHECK(pose_at(m.motion, 0.3).lip_opening == doctest::Approx(3.0));
}

TEST_CASE("motion: asking for a pose allocates nothing") {
  const auto m = testing::moving(odd);
  counting = true;
  allocations = 0;
  double sum = 0;
  for (int i = 0; i < 1000; ++i) sum += pose_at(m.motion, m.motion.duration_s * i / 1000).tip_x;
  counting = false;
  CHECK(allocations == 0);
  CHECK(std::isfinite(sum));
}

TEST_CASE("motion: the acceleration of the tip is continuous") {
  const auto m = testing::moving(pink);
  constexpr double step = 0.0005;
  double worst = 0, before = 0;
  const auto y = [&](double t) { return pose_at(m.motion, t).tip_y / 1000; }; // m
  for (int i = 0; i * step < m.motion.duration_s - 0.15; ++i) {
    const double t = 0.05 + i * step;
    const double a = (y(t + step) - 2 * y(t) + y(t - step)) / (step * step);
    if (i > 0) worst = std::max(worst, std::abs(a - before));
    before = a;
  }
  CHECK(worst <= 0.5); // m/s2 within half a millisecond (tract-model.md section 16, test 6)
}

TEST_CASE("motion: no channel jumps, whatever the sounds, the pauses or the speaker") {
  for (const auto& id : anatomy_ids())
    for (const auto& phrase : {pink, odd}) {
      const auto m = testing::moving(phrase, id);
      Pose last = pose_at(m.motion, 0);
      for (double t = 0; t < m.motion.duration_s; t += 0.0005) {
        const Pose now = pose_at(m.motion, t);
        for (const auto& channel : pose_channels()) {
          const double range = channel.high - channel.low;
          CHECK_MESSAGE(std::abs(now.*channel.value - last.*channel.value) < 0.04 * range, channel.column << " at " << t);
        }
        last = now;
      }
    }
}

TEST_CASE("motion: every channel stays near its range in running speech") {
  const auto m = testing::moving(odd);
  for (double t = 0; t < m.motion.duration_s; t += 0.002) {
    const Pose now = pose_at(m.motion, t);
    for (const auto& channel : pose_channels()) {
      // commanded closures overlap the palate, so a stop's body disc stands above the vowels' range
      const double slack = 0.15 * (channel.high - channel.low);
      CHECK_MESSAGE(now.*channel.value > channel.low - slack, channel.column << " at " << t);
      CHECK_MESSAGE(now.*channel.value < channel.high + slack, channel.column << " at " << t);
    }
  }
}

TEST_CASE("motion: activations never turn negative, ramps keep their order, even in crowded strings") {
  std::mt19937 random(11);
  const char* sounds[] = {"k", "s", "t", "p", "ɡ", "ʃ", "n", "θ", "l", "ɹ", "tʃ", "w", "ŋ", "ɹ_bunched", "ʔ", "h", "m", "q", "ɬ"};
  for (int round = 0; round < 200; ++round) {
    std::string text = "ə:60:";
    for (int i = 0; i < 7; ++i)
      text += std::string(" ") + sounds[random() % std::size(sounds)] + ":" + std::to_string(12 + random() % 60) + ":";
    const auto m = testing::moving(text + " ə:60:");
    for (const auto& chains : m.score.plan->chains)
      for (const Chain& chain : chains)
        for (std::size_t i = 0; i < chain.moves.size(); ++i) {
          const Move& q = chain.moves[i];
          CHECK(q.in.end > q.in.start);
          CHECK(q.out.end > q.out.start);
          CHECK_MESSAGE(q.out.start >= q.in.start - 1e-12, text);
          CHECK_MESSAGE(q.out.end >= q.in.end - 1e-12, text);
        }
    for (double t = 0; t < m.motion.duration_s; t += 0.01) CHECK(std::isfinite(pose_at(m.motion, t).body_y));
  }
}
