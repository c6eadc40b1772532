#include "app/glow.h"
#include "app/playback.h"
#include "app/session.h"

#include "window/fake_take.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

using namespace mw;
using namespace mw::app;

TEST_CASE("playback: slowed time passes at its part of true speed") {
  const auto take = fake_take();
  for (int slow = 0; slow < 6; ++slow) {
    View view;
    view.slow = slow, view.playing = true;
    CHECK(advance(view, *take, 0.4).time_s == doctest::Approx(0.4 / slow_divisors[static_cast<std::size_t>(slow)]));
  }
}

TEST_CASE("playback: what is gone through is the sounds with a little room, never outside the take") {
  const auto take = fake_take();
  CHECK(start_of(*take) < take->track.segments.front().start_s);
  CHECK(start_of(*take) > 0.15);
  CHECK(end_of(*take) > take->track.segments.back().end_s);
  CHECK(end_of(*take) < take->duration_s);
  CHECK(go_to({}, *take, -5).time_s == start_of(*take));
  CHECK(go_to({}, *take, 5).time_s == end_of(*take));
}

TEST_CASE("playback: a loop rests 0.4 s on its last pose, then starts over; without loop it stops there") {
  const auto take = fake_take();
  View view;
  const double from = start_of(*take), to = end_of(*take);
  view.slow = 0, view.playing = true, view.time_s = to - 0.05;
  view = advance(view, *take, 0.1);
  CHECK(view.time_s == to);
  for (int i = 0; i < 3; ++i) CHECK((view = advance(view, *take, 0.1)).time_s == to);
  view = advance(view, *take, 0.11);
  CHECK(view.time_s == from);
  CHECK(view.playing);
  view.loop = false, view.time_s = to - 0.05;
  view = advance(view, *take, 0.1);
  CHECK(view.time_s == to);
  CHECK_FALSE(view.playing);
  CHECK(toggle_play(view, *take).time_s == from);
}

TEST_CASE("playback: stepping on and back visits the same stops, and glides through the times between") {
  const auto take = fake_take();
  for (const auto by : {StepBy::frame, StepBy::sound, StepBy::move}) {
    View view;
    view.step_by = by;
    view = go_to(view, *take, 0);
    std::vector<double> on, back;
    const auto walk = [&](int direction, std::vector<double>& seen) {
      for (int i = 0; i < 500; ++i) {
        const double before = view.time_s;
        view = step(view, *take, direction);
        if (view.glide) {
          const View half = advance(view, *take, 0.08);
          CHECK(half.time_s == doctest::Approx((before + view.glide->to) / 2));
          view = advance(view, *take, 0.17);
        }
        CHECK_FALSE(view.glide);
        if (view.time_s == before) break;
        seen.push_back(view.time_s);
      }
    };
    walk(1, on);
    CHECK(view.time_s == end_of(*take));
    walk(-1, back);
    CHECK(view.time_s == start_of(*take));
    on.insert(on.begin(), start_of(*take));
    std::reverse(back.begin(), back.end());
    back.push_back(end_of(*take));
    CHECK(on.size() == back.size());
    for (std::size_t i = 0; i < std::min(on.size(), back.size()); ++i) CHECK(on[i] == doctest::Approx(back[i]));
    CHECK(on.size() == stops(*take, by).size());
  }
}

TEST_CASE("playback: N goes through all clashes in order of time and round; shift N back") {
  const auto take = fake_take();
  View view;
  std::vector<std::size_t> on, back;
  for (int i = 0; i < 4; ++i) on.push_back(*(view = go_to_clash(view, *take, 1)).clash);
  CHECK(on == std::vector<std::size_t>{1, 0, 2, 1});
  for (int i = 0; i < 3; ++i) back.push_back(*(view = go_to_clash(view, *take, -1)).clash);
  CHECK(back == std::vector<std::size_t>{2, 0, 1});
  CHECK(view.time_s == doctest::Approx(0.33));
  CHECK_FALSE(view.playing);
  view = go_to(view, *take, 0.7);
  CHECK(go_to_clash(view, *take, 1).clash == 2u);
  CHECK(go_to_clash(view, *take, -1).clash == 0u);
}

TEST_CASE("playback: a clash loops with its surroundings; going elsewhere ends that") {
  const auto take = fake_take();
  View view = loop_clash(take_in_hand({}, *take, 0), *take);
  REQUIRE(view.loop_span);
  CHECK(view.loop_span->first < 0.60);
  CHECK(view.loop_span->second > 0.64);
  CHECK(view.playing);
  for (int i = 0; i < 2000; ++i) {
    view = advance(view, *take, 0.02);
    CHECK(view.time_s >= view.loop_span->first);
    CHECK(view.time_s <= view.loop_span->second);
  }
  CHECK_FALSE(go_to(view, *take, 0.1).loop_span);
}

TEST_CASE("session: a new phrase starts paused at its strongest clash; a new accent keeps the place") {
  Session session;
  session.view.playing = true;
  accept(session, fake_take());
  CHECK(session.view.clash == 0u);
  CHECK(session.view.time_s == doctest::Approx(0.62));
  CHECK_FALSE(session.view.playing);
  session.view = go_to(session.view, *session.take, 0.5);
  session.view.playing = true;
  auto other = fake_take();
  other->request.accent = "SSBE";
  accept(session, other);
  CHECK(session.view.time_s == doctest::Approx(0.5));
  CHECK(session.view.playing);
}

TEST_CASE("glow: a clash passed in a moment stays lit at least a third of a second and fades both ways") {
  Glow glow;
  double lit_s = 0, dark_to_full_s = 0, last = 0, steepest = 0;
  for (int i = 0; i < 200; ++i) {
    const bool under = i >= 10 && i < 13; // 50 ms
    glow = glow_on(glow, under ? std::optional<std::size_t>{2} : std::nullopt, 1.0 / 60, false);
    lit_s += glow.level > 0 ? 1.0 / 60 : 0;
    if (i >= 10 && glow.level < 1 && dark_to_full_s >= 0) dark_to_full_s += 1.0 / 60;
    if (glow.level == 1) dark_to_full_s = -std::abs(dark_to_full_s);
    steepest = std::max(steepest, std::abs(glow.level - last));
    last = glow.level;
  }
  CHECK(lit_s >= 0.35);
  CHECK(std::abs(dark_to_full_s) == doctest::Approx(glow_in_s).epsilon(0.2));
  CHECK(steepest < 0.12); // never at a blow
  CHECK(glow.level == 0);
  CHECK_FALSE(glow.clash);
}

TEST_CASE("glow: a clash close behind another takes over without a dark moment") {
  Glow glow;
  for (int i = 0; i < 20; ++i) glow = glow_on(glow, 0, 1.0 / 60, false);
  CHECK(glow.level == 1);
  for (int i = 0; i < 30; ++i) {
    glow = glow_on(glow, 1, 1.0 / 60, false);
    CHECK(glow.level == 1);
  }
  CHECK(glow.clash == 1u);
}

TEST_CASE("glow: a part that went off stays dark for a second, whoever wants it") {
  for (const std::size_t again : {std::size_t{0}, std::size_t{5}}) {
    Glow glow;
    double dark_s = 0;
    const auto pass = [&](std::optional<std::size_t> wanted, double seconds) {
      for (int i = 0; i < static_cast<int>(seconds * 60); ++i) {
        glow = glow_on(glow, wanted, 1.0 / 60, false, wanted ? 1 : -1);
        dark_s = glow.level > 0 ? 0 : dark_s + 1.0 / 60;
      }
    };
    pass(0, 0.6);
    pass({}, 0.5);
    CHECK(glow.level == 0);
    double before = 0;
    for (int i = 0; i < 120 && glow.level == 0; ++i) before = dark_s, pass(again, 1.0 / 60);
    CHECK(before >= glow_calm_s - 0.05);
    pass(again, 0.5);
    CHECK(glow.level == 1);
    CHECK(glow.clash == again);
  }
}
