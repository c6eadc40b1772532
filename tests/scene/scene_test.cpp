#include "scene/scene.h"
#include "scene/signs.h"

#include <doctest/doctest.h>

#include <cmath>
#include <numbers>
#include <set>

using namespace mw;

namespace {
Vec2 on_cubic(Vec2 a, const Path::Cubic& c, double t) {
  const double s = 1 - t;
  return a * (s * s * s) + c.c1 * (3 * s * s * t) + c.c2 * (3 * s * t * t) + c.to * (t * t * t);
}
} // namespace

TEST_CASE("scene: a smooth path through points of a circle stays on the circle, even when they are unevenly thinned") {
  Polyline points;
  for (const double share : {0.0, 0.05, 0.09, 0.17, 0.26, 0.28, 0.36, 0.45, 0.54, 0.62, 0.7, 0.78, 0.86, 0.93}) points.push_back(Vec2{std::cos(2 * std::numbers::pi * share), std::sin(2 * std::numbers::pi * share)} * 100.0);
  const Path path = smooth_path(points, true);
  Vec2 at = std::get<Path::Move>(path.steps[0]).to;
  double worst = 0;
  for (const auto& step : path.steps)
    if (const auto* c = std::get_if<Path::Cubic>(&step)) {
      for (int i = 1; i < 10; ++i) worst = std::max(worst, std::abs(glm::length(on_cubic(at, *c, i / 10.0)) - 100));
      at = c->to;
    }
  CHECK(worst < 1.0); // straight legs between these points would be off by 4
}

TEST_CASE("scene: a short leg's direction does not bend the long leg after it") {
  const Path path = smooth_path({{0, 1}, {2, 0}, {100, 0}, {200, 0}}, false);
  Vec2 at = std::get<Path::Move>(path.steps[0]).to;
  double lowest = 0;
  for (const auto& step : path.steps)
    if (const auto* c = std::get_if<Path::Cubic>(&step)) {
      for (int i = 0; i <= 10; ++i) lowest = std::min(lowest, on_cubic(at, *c, i / 10.0).y);
      at = c->to;
    }
  CHECK(lowest > -2.0); // handles of a third of the leg would dip by 6
}

TEST_CASE("scene: a sharp turn stays a corner") {
  const Path path = smooth_path({{0, 0}, {10, 0}, {10, 10}, {0, 10}}, true);
  for (const auto& step : path.steps)
    if (const auto* c = std::get_if<Path::Cubic>(&step)) {
      CHECK(std::min(c->c1.x, c->c2.x) >= -1e-9);
      CHECK(std::max(c->c1.y, c->c2.y) <= 10 + 1e-9);
    }
}

TEST_CASE("scene: thinning a line keeps it within the tolerance and keeps its ends") {
  Polyline wave;
  for (int i = 0; i <= 300; ++i) wave.push_back({i * 1.0, 20 * std::sin(i / 30.0)});
  const Polyline thin = simplified(wave, 0.5);
  CHECK(thin.size() < wave.size() / 4);
  CHECK(thin.front() == wave.front());
  CHECK(thin.back() == wave.back());
}

TEST_CASE("scene: degenerate input gives an empty or straight path, never a crash") {
  CHECK(smooth_path({}, true).steps.empty());
  CHECK(smooth_path({{1, 1}}, false).steps.empty());
  CHECK(smooth_path({{1, 1}, {1, 1}, {1, 1}}, true).steps.empty());
  CHECK(rounded_rectangle({0, 0}, {0, 0}, 5).steps.size() > 0);
}

TEST_CASE("signs: every sign draws something within its box, has a name of its own and unlike marks") {
  std::set<std::string> names, drawings;
  for (const Sign sign : all_signs()) {
    INFO(to_text(sign));
    const auto marks = draw_sign(sign, {0, 0}, 10, {0, 0, 0, 1});
    CHECK_FALSE(marks.empty());
    CHECK(names.insert(std::string{to_text(sign)}).second);
    for (const Mark& m : marks) {
      const Path& path = std::holds_alternative<Fill>(m) ? std::get<Fill>(m).path : std::get<Stroke>(m).path;
      const auto [low, high] = bounds(path);
      CHECK(std::min(low.x, low.y) >= -11.5);
      CHECK(std::max(high.x, high.y) <= 11.5);
    }
    CHECK(drawings.insert(dump(Scene{20, 20, {}, marks}).substr(0) + std::to_string(marks.size())).second);
  }
}

TEST_CASE("signs: the level of a flag can be counted without its colour, and a lit flag is told by its border") {
  for (int level = 1; level <= 3; ++level) {
    const auto pips = [&](bool lit) {
      int count = 0;
      for (const Mark& m : draw_flag(light_theme(), ClashKind::tug, level, lit, {0, 0}, 12, "x"))
        if (const auto* f = std::get_if<Fill>(&m)) count += f->mark.role == "flag-pip";
      return count;
    };
    CHECK(pips(true) == level);
    CHECK(pips(false) == level);
  }
  const Hatch one = clash_hatch(light_theme(), 1, 4, 1), two = clash_hatch(light_theme(), 2, 4, 1), three = clash_hatch(light_theme(), 3, 4, 1);
  CHECK(one.broken);
  CHECK_FALSE(two.broken);
  CHECK_FALSE(two.crossed);
  CHECK(three.crossed);
}

TEST_CASE("signs: the dump of a flag reads like prose") {
  const Scene scene{40, 40, from_hex("#FFFFFF"), draw_flag(light_theme(), ClashKind::swap, 2, true, {20, 20}, 12, "clash-1")};
  CHECK(dump(scene) == "scene 40x40 #FFFFFF\n"
                       "  fill flag/clash-1 8,8 24x24 #EDB53C\n"
                       "  stroke flag/clash-1 9,9 22x22 #3A2206 1.6\n"
                       "  stroke sign/swap 14,17 9x6 #3A2206 1.4\n"
                       "  fill sign/swap 21,15 5x4 #3A2206\n"
                       "  stroke sign/swap 14,15 9x6 #3A2206 1.4\n"
                       "  fill sign/swap 21,18 5x4 #3A2206\n"
                       "  fill flag-pip/clash-1 17,27 2x2 #3A2206\n"
                       "  fill flag-pip/clash-1 21,27 2x2 #3A2206\n");
}
