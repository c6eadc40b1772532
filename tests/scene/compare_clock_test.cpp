#include "scene/compare_clock.h"
#include "scene/compare_takes.h"
#include "support/scene_take.h"

#include <cmath>
#include <random>

using namespace mw;

namespace {

// One phrase as two accents say it; in the second the r of "far" and "barter" is left out, the last word has a sound more.
constexpr const char* with_r = "\u02C8f\u0251\u0279 \u02C8b\u0251\u0279t\u0259\u0279 | n\u0254";
constexpr const char* without_r = "\u02C8f\u0251 \u02C8b\u0251t\u0259 | nj\u0254\u0279";

Comparing two(const char* own, const char* target, double own_rate = 4.5) {
  return compare_takes(std::make_shared<const Take>(take_of_ipa(own, "adult-male", own_rate)), std::make_shared<const Take>(take_of_ipa(target)));
}

void check_laws(const Comparing& c) {
  // each sound of each side stands once, in order
  std::size_t own = 0, target = 0;
  for (const CompareColumn& column : c.columns) {
    if (column.own) CHECK(*column.own == own++);
    if (column.target) CHECK(*column.target == target++);
    CHECK(column.own_to_s >= column.own_from_s);
    CHECK(column.target_to_s >= column.target_from_s);
  }
  CHECK(own == c.own->track.segments.size());
  CHECK(target == c.target->track.segments.size());
  for (std::size_t i = 1; i < c.columns.size(); ++i) {
    CHECK(c.columns[i].own_from_s >= c.columns[i - 1].own_to_s - 1e-9);
    CHECK(c.columns[i].target_from_s >= c.columns[i - 1].target_to_s - 1e-9);
  }
  // the clock never goes back, never leaps more than its steepest stretch, and ends with both takes
  CHECK(own_time(c.clock, 0) == 0);
  CHECK(own_time(c.clock, c.target->duration_s) == doctest::Approx(c.own->duration_s));
  CHECK(own_time(c.clock, -1) == 0);
  CHECK(own_time(c.clock, 99) == doctest::Approx(c.own->duration_s));
  double last = 0;
  for (double t = 0; t <= c.target->duration_s; t += 0.0005) {
    const double now = own_time(c.clock, t);
    CHECK(now >= last);
    CHECK(now - last < 0.03);
    last = now;
  }
}

} // namespace

TEST_CASE("compare clock: alike takes have one time") {
  const Comparing c = two(with_r, with_r);
  for (double t = 0; t < c.target->duration_s; t += 0.013) CHECK(own_time(c.clock, t) == doctest::Approx(t).epsilon(1e-9));
}

TEST_CASE("compare clock: exact at the borders of every pair of sounds, whatever the lengths, with pauses and sounds left out") {
  for (const double rate : {2.0, 4.5, 7.0})
    for (const auto& [own, target] : {std::pair{with_r, without_r}, std::pair{without_r, with_r}, std::pair{with_r, with_r}}) {
      CAPTURE(rate);
      const Comparing c = two(own, target, rate);
      check_laws(c);
      for (std::size_t i = 0; i < c.columns.size(); ++i) {
        const CompareColumn& column = c.columns[i];
        const bool alone_before = i > 0 && (!c.columns[i - 1].own || !c.columns[i - 1].target), alone_after = i + 1 < c.columns.size() && (!c.columns[i + 1].own || !c.columns[i + 1].target);
        if (!column.own || !column.target) continue;
        const Segment &o = c.own->track.segments[*column.own], &t = c.target->track.segments[*column.target];
        if (!alone_before) CHECK(own_time(c.clock, t.start_s) == doctest::Approx(o.start_s));
        if (!alone_after) CHECK(own_time(c.clock, t.end_s) == doctest::Approx(o.end_s));
      }
    }
}

TEST_CASE("compare clock: a sound that only one side says shares the time of its neighbour: both mouths keep moving") {
  const Comparing c = two(with_r, without_r);
  const auto& far_r = c.columns[2];
  REQUIRE((far_r.own && !far_r.target));
  const Segment& vowel = c.target->track.segments[1];
  CHECK(far_r.target_from_s > vowel.start_s);
  CHECK(far_r.target_to_s == doctest::Approx(vowel.end_s));
  // its borders on the own side are those of the r
  CHECK(own_time(c.clock, far_r.target_from_s) == doctest::Approx(c.own->track.segments[2].start_s));
  CHECK(own_time(c.clock, far_r.target_to_s) == doctest::Approx(c.own->track.segments[2].end_s));
  // a j in the onset of the target takes its time from the vowel behind it or the n before it, never from beyond the word
  for (std::size_t i = 0; i < c.columns.size(); ++i) {
    if (c.columns[i].own) continue;
    CHECK(c.columns[i].own_from_s >= c.own->track.segments[c.own->track.segments.size() - 2].start_s);
    CHECK(c.columns[i].own_to_s > c.columns[i].own_from_s);
  }
}

TEST_CASE("compare clock: the column at a time is the one that holds it, the nearest in a pause") {
  const Comparing c = two(without_r, with_r);
  for (std::size_t i = 0; i < c.columns.size(); ++i)
    CHECK(column_at(c.columns, (c.columns[i].target_from_s + c.columns[i].target_to_s) / 2) == i);
  CHECK(column_at(c.columns, 0) == 0u);
  CHECK(column_at(c.columns, 99) == c.columns.size() - 1);
  CHECK_FALSE(column_at({}, 1));
}

TEST_CASE("compare clock: a whole word more on one side, sounds before the first pair, and sides without a pair keep the laws") {
  check_laws(two("\u02C8\u0259n \u02C8h\u028Cnd\u0279\u0259d", "\u02C8h\u028Cnd\u0279\u0259d"));
  check_laws(two("\u02C8h\u028Cnd\u0279\u0259d", "\u02C8h\u028Cnd\u0279\u0259d \u0259n \u02C8w\u028Cn"));
  check_laws(two("stop", "op"));
  check_laws(two("op", "stop"));
}
