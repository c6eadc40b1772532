#include "support/targets.h"
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

// A row of a speaker with the groove of its sibilant, which stands in the male table only.
Pose pose_of_row(const std::shared_ptr<const Anatomy>& anatomy, const std::string& symbol) {
  for (const char* table : {"consonants", "vowels"})
    for (test::Target& target : test::targets(anatomy, table)) {
      if (target.symbol != symbol) continue;
      if (target.male_row.has("groove")) target.pose.groove = target.male_row.number("groove");
      return target.pose;
    }
  FAIL("no row ", symbol);
  return {};
}

PalateMap map_of(const std::shared_ptr<const Anatomy>& anatomy, const std::string& symbol) {
  const Pose pose = pose_of_row(anatomy, symbol);
  return palate_map(*anatomy, trace(anatomy, pose), pose);
}

// Share of the sample points in contact in a stretch behind the teeth (male mm), near the midline or near the gums.
double touched(const Anatomy& anatomy, const PalateMap& map, double from, double to, bool middle) {
  int points = 0, contact = 0;
  for (std::size_t i = 0; i < map.grid.size(); ++i) {
    const double x = map.grid[i].x / anatomy.jaw_x;
    const int column = static_cast<int>(i) % map.columns, off = std::abs(column - map.columns / 2);
    if (x < from || x > to || (middle ? off > 3 : off < 26)) continue;
    ++points;
    contact += map.contact[i] ? 1 : 0;
  }
  return static_cast<double>(contact) / points;
}
constexpr bool middle = true, gums = false;
} // namespace

TEST_CASE("sides: high front vowels and glides touch along both sides and leave the middle free") {
  for (const auto& anatomy : test::speakers())
    for (const char* symbol : {"i", "j"}) {
      CAPTURE(anatomy->id);
      CAPTURE(symbol);
      const PalateMap map = map_of(anatomy, symbol);
      CHECK(touched(*anatomy, map, 20, 40, gums) > 0.5);
      CHECK(touched(*anatomy, map, 3, 51, middle) == 0);
    }
}

TEST_CASE("sides: [t] seals a horseshoe: front and sides closed, open behind") {
  for (const auto& anatomy : test::speakers()) {
    const PalateMap map = map_of(anatomy, "t");
    CHECK(touched(*anatomy, map, 10, 16, middle) > 0.3);
    CHECK(touched(*anatomy, map, 16, 34, gums) > 0.3);
    CHECK(touched(*anatomy, map, 20, 51, middle) == 0);
  }
}

TEST_CASE("sides: [s] braces the sides and keeps an open groove from front to back") {
  for (const auto& anatomy : test::speakers()) {
    const PalateMap map = map_of(anatomy, "s");
    CHECK(touched(*anatomy, map, 14, 34, gums) > 0.5);
    CHECK(touched(*anatomy, map, 3, 51, middle) == 0);
  }
}

TEST_CASE("sides: [l] touches with its tip alone, air passes at the sides") {
  for (const auto& anatomy : test::speakers()) {
    const PalateMap map = map_of(anatomy, "l");
    CHECK(touched(*anatomy, map, 8, 18, middle) > 0.1);
    CHECK(touched(*anatomy, map, 3, 51, gums) == 0);
  }
}

TEST_CASE("sides: both kinds of r touch the back teeth and leave the middle free") {
  for (const auto& anatomy : test::speakers())
    for (const char* symbol : {"ɹ", "ɹ bunched"}) {
      CAPTURE(anatomy->id);
      CAPTURE(symbol);
      const PalateMap map = map_of(anatomy, symbol);
      CHECK(touched(*anatomy, map, 20, 51, gums) > 0.05);
      CHECK(touched(*anatomy, map, 3, 51, middle) == 0);
    }
}

TEST_CASE("sides: [k] closes a bar at the back, [ɑ] touches nothing") {
  for (const auto& anatomy : test::speakers()) {
    const PalateMap k = map_of(anatomy, "k"), open = map_of(anatomy, "ɑ");
    CHECK(touched(*anatomy, k, 45, 51, middle) > 0.5);
    CHECK(touched(*anatomy, k, 3, 38, middle) == 0);
    CHECK(std::ranges::find(open.contact, true) == open.contact.end());
  }
}

TEST_CASE("sides: contact of every checked row equals the design prototype's, point by point in number and depth") {
  struct Known { // contact points on the 60 x 81 grid; sum of depths (mm) of the points over the tongue
    const char *speaker, *symbol;
    int points;
    double depth;
  };
  constexpr Known rows[] = {
      {"adult-male", "i", 982, -6309.77},
      {"adult-male", "t", 596, -15108.81},
      {"adult-male", "s", 1162, -6921.01},
      {"adult-male", "ɹ", 114, -6502.05},
      {"adult-male", "ɹ bunched", 500, -8095.06},
      {"adult-male", "l", 75, -15162.87},
      {"adult-male", "j", 892, -7556.61},
      {"adult-male", "k", 928, -3790.71},
  };
  for (const Known& row : rows) {
    CAPTURE(row.speaker);
    CAPTURE(row.symbol);
    const PalateMap map = map_of(speaker(row.speaker), row.symbol);
    double sum = 0;
    for (const double depth : map.depth)
      if (depth > -8) sum += depth;
    CHECK(std::abs(std::ranges::count(map.contact, true) - row.points) <= 4);
    CHECK(sum == doctest::Approx(row.depth).epsilon(0.005));
  }
}

TEST_CASE("sides: a front section shows the tongue under the arch, as an island under a raised tip") {
  const auto anatomy = speaker("adult-male");
  const auto cut = [&](const char* symbol, double x) {
    const Pose pose = pose_of_row(anatomy, symbol);
    return front_section(*anatomy, trace(anatomy, pose), pose, x);
  };
  for (const char* symbol : {"i", "s", "k", "ɑ"}) {
    const FrontSection section = cut(symbol, 38);
    REQUIRE(section.tongue_present);
    std::vector<double> z, y;
    for (const Vec2 p : section.palate) {
      z.push_back(p.x);
      y.push_back(p.y);
    }
    for (const Vec2 p : section.tongue) CHECK(p.y <= interpolate(z, y, p.x) + 1e-6);
    CHECK(section.tongue_underside.empty());
  }
  CHECK_FALSE(cut("t", 14).tongue_underside.empty());
  CHECK_FALSE(cut("ɹ", 14).tongue_present);
  const FrontSection groove = cut("s", 14);
  const auto middle_point = groove.tongue[groove.tongue.size() / 2],
             beside = groove.tongue[groove.tongue.size() / 2 + 30];
  CHECK(middle_point.y < beside.y);
}

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
