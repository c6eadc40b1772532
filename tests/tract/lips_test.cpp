// The drawn lips: rounded ones are everted over a fold, pressed ones show two reds round a seam.
#include "support/targets.h"
#include "tract/measure.h"

#include <doctest/doctest.h>

using namespace mw;

namespace {
Outline drawn(const std::shared_ptr<const Anatomy>& anatomy, const std::string& table, const std::string& symbol) {
  for (const auto& target : test::targets(anatomy, table))
    if (target.symbol == symbol) return trace(anatomy, target.pose);
  FAIL("no row ", symbol);
  return {};
}
std::size_t at(int sample) { return static_cast<std::size_t>(sample); }

/// How far (mm) the skin between chin fold and red lies behind the straight line between them.
double hollow_below(const Outline& o) {
  const Vec2 fold = o.lower_lip_line.front(), border = o.lower_lip_line[at(o.lower_red[0])];
  double most = 0;
  for (std::size_t i = 0; i < at(o.lower_red[0]); ++i) {
    const Vec2 p = o.lower_lip_line[i];
    const double t = (p.y - fold.y) / (border.y - fold.y);
    most = std::max(most, p.x - (fold.x + t * (border.x - fold.x)));
  }
  return most;
}
double foremost(const Polyline& line, std::array<int, 2> red) {
  double x = 1e9;
  for (std::size_t i = at(red[0]); i <= at(red[1]); ++i) x = std::min(x, line[i].x);
  return x;
}
} // namespace

TEST_CASE("lips: rounding turns the lower lip out over a fold; spread lips stay flat") {
  for (const auto& anatomy : test::speakers()) {
    CAPTURE(anatomy->id);
    const double k = anatomy->lip_scale;
    for (const char* symbol : {"u", "y", "o"}) {
      CAPTURE(symbol);
      const Outline o = drawn(anatomy, "vowels", symbol);
      // the red stands out in front of its own border with the skin, above and below
      CHECK(foremost(o.lower_lip_line, o.lower_red) < o.lower_lip_line[at(o.lower_red[0])].x - 1.5 * k);
      CHECK(foremost(o.upper_lip_line, o.upper_red) < o.upper_lip_line[at(o.upper_red[0])].x - 1.5 * k);
      CHECK(hollow_below(o) > hollow_below(drawn(anatomy, "vowels", "i")) + 0.5 * k);
    }
  }
}

TEST_CASE("lips: pressed lips meet at a seam with a red bulge above and below it") {
  for (const auto& anatomy : test::speakers())
    for (const char* symbol : {"m", "p", "b"}) {
      CAPTURE(anatomy->id);
      CAPTURE(symbol);
      const Outline o = drawn(anatomy, "consonants", symbol);
      const double k = anatomy->lip_scale;
      CHECK(lip_gap(o) == 0);
      // red is seen from the front on both lips: from its border to the seam
      const double seam = o.lower_lip_line[at((o.lower_red[0] + o.lower_red[1]) / 2)].y;
      CHECK(o.upper_lip_line[at(o.upper_red[0])].y - seam > 4 * k);
      CHECK(seam - o.lower_lip_line[at(o.lower_red[0])].y > 4 * k);
      // the two bulges stand nearly over each other, and both in front of the seam's front end
      const double upper = foremost(o.upper_lip_line, o.upper_red), lower = foremost(o.lower_lip_line, o.lower_red);
      CHECK(std::abs(upper - lower) < 4 * k);
      const auto all = contacts(*anatomy, o);
      REQUIRE(all.size() == 1);
      const double front = std::min(all.front().from.x, all.front().to.x);
      CHECK(upper < front - 0.5 * k);
      CHECK(lower < front - 0.5 * k);
    }
}
