#include "tract/sides.h"

#include <algorithm>
#include <cmath>
#include <doctest/doctest.h>

using namespace mw;

namespace {
std::shared_ptr<const Anatomy> speaker(const std::string& id) {
  const auto anatomy = read_anatomy(id);
  REQUIRE(anatomy.has_value());
  return *anatomy;
}
} // namespace

TEST_CASE("sides: lips narrow when rounded, widen when spread, and meet from the corners when they close") {
  for (const std::string& id : anatomy_ids()) {
    const auto anatomy = speaker(id);
    Pose neutral, rounded, spread;
    rounded.lip_rounding = 1;
    spread.lip_rounding = -1;
    CHECK(lip_width(*anatomy, rounded) < 0.6 * lip_width(*anatomy, neutral));
    CHECK(lip_width(*anatomy, spread) > 1.2 * lip_width(*anatomy, neutral));
    double last = lip_width(*anatomy, neutral);
    for (const double opening : {2.0, 1.0, 0.5, 0.1, 0.0}) {
      neutral.lip_opening = opening;
      CHECK(lip_width(*anatomy, neutral) < last);
      last = lip_width(*anatomy, neutral);
    }
    CHECK(last == 0);
  }
}

TEST_CASE("sides: the lips' inner edge spans the opening and lies inside the outer edge") {
  const auto anatomy = speaker("adult-male");
  Pose pose;
  pose.lip_opening = 7;
  const LipsFront lips = lips_front(*anatomy, pose);
  const auto [low, high] = std::ranges::minmax(lips.inner, {}, &Vec2::y);
  CHECK(high.y - low.y == doctest::Approx(7).epsilon(0.01));
  CHECK(is_simple(lips.outer, true));
  for (const Vec2 p : lips.inner) CHECK(contains(lips.outer, p));
  pose.lip_tuck = 1;
  CHECK(lips_front(*anatomy, pose).teeth_on_lip);
  CHECK_FALSE(lips.teeth_on_lip);
}

TEST_CASE("sides: the folds pass from closed through voiced to voiceless as the glottis opens") {
  const auto state = [](double glottis) {
    Pose pose;
    pose.glottis = glottis;
    return fold_state(pose);
  };
  CHECK(state(0) == FoldState::closed);
  CHECK(state(0.07) == FoldState::creaky);
  CHECK(state(0.12) == FoldState::voiced);
  CHECK(state(Pose{}.glottis) == FoldState::voiced);
  CHECK(state(0.4) == FoldState::breathy);
  CHECK(state(0.5) == FoldState::voiceless);
  CHECK(state(0.9) == FoldState::voiceless);
}
