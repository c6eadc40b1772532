#include "paint/gl/coverage.h"
#include "paint/gl/stroke.h"

#include "paint_gl/scenes.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <numbers>

using namespace mw;
using namespace mw::gl;

namespace {

// Sum of covered pixels.
double area(const Coverage& coverage) {
  double sum = 0;
  for (const Run& run : coverage.runs) {
    if (run.mask < 0) sum += run.count * tile * tile;
    else
      for (int i = 0; i < run.count * tile * tile; ++i) sum += coverage.bytes[static_cast<std::size_t>(run.mask + i)] / 255.0;
  }
  return sum;
}
std::vector<std::uint8_t> raster(const Coverage& coverage) {
  std::vector<std::uint8_t> out(320 * 240);
  for (const Run& run : coverage.runs)
    for (int i = 0; i < run.count * tile * tile; ++i) {
      const int x = (run.x + i / 64) * tile + i % tile, y = run.y * tile + i / tile % tile;
      out[static_cast<std::size_t>(y * 320 + x)] = run.mask < 0 ? 255 : coverage.bytes[static_cast<std::size_t>(run.mask + i)];
    }
  return out;
}
Coverage cover(const Rings& rings, Winding winding = Winding::non_zero) { return Rasteriser{}.cover(rings, winding, 320, 240); }
Ring box(Vec2 low, Vec2 high) { return {{low, {high.x, low.y}, high, {low.x, high.y}}, true}; }

} // namespace

TEST_CASE("coverage: the covered area is the polygon's, wherever it lies on the grid") {
  for (double shift = 0; shift < 16; shift += 0.37) {
    const Vec2 low{10 + shift, 11 + 0.7 * shift};
    CHECK(area(cover({box(low, low + Vec2{61.3, 40.9})})) == doctest::Approx(61.3 * 40.9).epsilon(2e-3));
  }
  CHECK(area(cover(flatten(circle_path({160, 120}, 77.7), {}))) == doctest::Approx(std::numbers::pi * 77.7 * 77.7).epsilon(2e-3));
}

TEST_CASE("coverage: winding rules part where a ring lies in a ring of the same sense") {
  const Rings rings{box({20, 20}, {120, 120}), box({50, 50}, {90, 90})};
  CHECK(area(cover(rings)) == doctest::Approx(10000));
  CHECK(area(cover(rings, Winding::even_odd)) == doctest::Approx(10000 - 1600));
  Ring hole = rings[1];
  std::reverse(hole.points.begin(), hole.points.end());
  CHECK(area(cover({rings[0], hole})) == doctest::Approx(10000 - 1600));
}

TEST_CASE("coverage: what lies outside the picture counts only for what is inside") {
  CHECK(area(cover({box({-50, -50}, {30, 40})})) == doctest::Approx(1200));
  CHECK(area(cover({box({300, 200}, {900, 900})})) == doctest::Approx(800));
  CHECK(area(cover({box({-9e5, -9e5}, {9e5, 9e5})})) == doctest::Approx(320 * 240));
  CHECK(cover({box({400, 10}, {500, 20})}).runs.empty());
}

TEST_CASE("coverage: an intersection covers what both cover") {
  const auto a = cover({box({20, 20}, {120, 121})}), b = cover({box({70.5, 60}, {200, 90})});
  CHECK(area(intersect(a, b)) == doctest::Approx(49.5 * 30).epsilon(1e-3));
  CHECK(area(intersect(b, a)) == doctest::Approx(area(intersect(a, b))));
  CHECK(intersect(a, cover({box({200, 200}, {210, 210})})).runs.empty());
}

TEST_CASE("stroke: a straight line is a rectangle with two half discs, a closed ring a band") {
  const Rings line{{{{40, 50}, {240, 50}}, false}};
  CHECK(area(cover(outline_of_stroke(line, 12))) == doctest::Approx(200 * 12 + std::numbers::pi * 36).epsilon(5e-3));
  const auto ring = flatten(circle_path({160, 120}, 80), {});
  CHECK(area(cover(outline_of_stroke(ring, 10))) == doctest::Approx(2 * std::numbers::pi * 80 * 10).epsilon(5e-3));
}

TEST_CASE("stroke: a band wider than the bends of its line has no holes") {
  // every point of the line has its disc covered, so the band is at least the discs
  const Path path = smooth_path({{160, 200}, {170, 100}, {176, 99}, {186, 200}}, false);
  const Rings lines = flatten(path, {});
  const auto band = cover(outline_of_stroke(lines, 34));
  Rings discs;
  for (const Vec2 p : lines[0].points) discs.push_back(outline_of_stroke({{{p}, false}}, 34)[0]);
  const auto ours = raster(band), theirs = raster(cover(discs));
  std::size_t holes = 0;
  for (std::size_t i = 0; i < ours.size(); ++i) holes += theirs[i] > ours[i] + 26; // 10 %: both are polygons within 0.1 px
  CHECK(holes == 0);
}

TEST_CASE("dash: the drawn length is the pattern's share, and an empty pattern is the whole line") {
  const Rings line{{{{0, 0}, {100, 0}, {100, 100}}, false}};
  double length = 0;
  for (const auto& piece : dash(line, {7, 3}))
    for (std::size_t i = 1; i < piece.points.size(); ++i) length += glm::length(piece.points[i] - piece.points[i - 1]);
  CHECK(length == doctest::Approx(140));
  CHECK(dash(line, {}).size() == 1);
  CHECK(dash(line, {0, 0}).size() == 1);
}
