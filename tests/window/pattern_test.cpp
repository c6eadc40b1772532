#include "window/driver.h"

#include "app/pattern_play.h"
#include "app/playback.h"

#include <algorithm>

using namespace driver;

namespace {

const char* line = "Tin cakes, cold trays, gold keys";

const PatternFinding& in_hand(const Window& window) {
  const Session& s = window.session();
  REQUIRE(s.view.finding);
  return pattern_of(s.take).findings.at(*s.view.finding);
}

} // namespace

TEST_CASE("pattern face: V brings the grid and V brings the moves back, in the very same picture") {
  for (const auto& [width, height] : {std::pair{1280, 720}, {800, 600}}) {
    CAPTURE(width);
    const auto window = open(line, width, height);
    play(*window, "settle");
    const Pixels moves = window->picture();
    play(*window, "key v\nsettle");
    CHECK(window->session().view.face == Face::pattern);
    CHECK(changed(*window, moves, window->picture(), window->layout().score) > 0.05);
    CHECK(window->ui().find("finding-0"));
    const auto inside = [&](const Spot& s) { return s.rect.x >= 0 && s.rect.y >= 0 && s.rect.right() <= width && s.rect.bottom() <= height; };
    for (const Spot& spot : window->ui().spots()) {
      CAPTURE(spot.id);
      CHECK(inside(spot));
    }
    play(*window, "key v\nsettle");
    CHECK(window->picture() == moves);
    play(*window, "spot face-Pattern\nsettle");
    CHECK(window->session().view.face == Face::pattern);
  }
}

TEST_CASE("pattern face: N goes through every finding, the strongest first, paused at its first sound; shift N goes back") {
  const auto window = open(line);
  play(*window, "settle\nkey v\nsettle");
  const auto& findings = pattern_of(window->session().take).findings;
  REQUIRE(findings.size() > 2);
  for (std::size_t i = 0; i <= findings.size(); ++i) {
    play(*window, "key n\nsettle");
    CHECK(window->session().view.finding == i % findings.size());
    CHECK_FALSE(window->session().view.playing);
    const Segment& first = window->session().take->track.segments[in_hand(*window).told.segments.front()];
    CHECK(window->session().view.time_s > first.start_s);
    CHECK(window->session().view.time_s < first.end_s);
    // its mark is drawn, whatever the limits of a lane
    CHECK(window->ui().find("finding-" + to_text(static_cast<int>(i % findings.size()))));
  }
  play(*window, "key shift+n\nsettle");
  CHECK(window->session().view.finding == findings.size() - 1);
}

TEST_CASE("pattern face: choosing a mark loops its stretch slowly and lights its sounds") {
  const auto window = open(line);
  play(*window, "settle\nkey v\nkey shift+s\nkey shift+s\nkey shift+s\nsettle");
  CHECK(window->session().view.slow == 0);
  const Pixels before = window->picture();
  play(*window, "spot finding-1\nmove 640 8\nwait 0.5");
  const View& view = window->session().view;
  const Clash& told = in_hand(*window).told;
  CHECK(view.playing);
  CHECK(slow_divisors[static_cast<std::size_t>(view.slow)] >= 8);
  REQUIRE(view.loop_span);
  CHECK(view.loop_span->first <= told.start_s);
  CHECK(view.loop_span->second >= told.end_s);
  CHECK(view.loop_span->second - view.loop_span->first < told.end_s - told.start_s + 0.4);
  for (const std::size_t sound : told.segments) { // its cards have another edge now
    const Spot* card = window->ui().find("card-" + to_text(static_cast<int>(sound)));
    REQUIRE(card);
    CHECK(changed(*window, before, window->picture(), inset(card->rect, -2)) > 0.02);
  }
  for (int i = 0; i < 8; ++i) {
    play(*window, "wait 0.5");
    CHECK(window->session().view.time_s >= view.loop_span->first - 1e-9);
    CHECK(window->session().view.time_s <= view.loop_span->second + 1e-9);
  }
}

TEST_CASE("pattern face: arrows go by syllable and lane") {
  const auto window = open(line);
  play(*window, "settle\nkey v\nkey home\nsettle");
  const Pattern& pattern = pattern_of(window->session().take).pattern;
  const auto sound = [&] { return *sound_at(*window->session().take, window->session().view.time_s); };
  play(*window, "key right\nsettle");
  CHECK(sound() == pattern.syllables[1].onset.front().segment);
  play(*window, "key down\nsettle");
  CHECK(sound() == pattern.syllables[1].nucleus.front().segment);
  play(*window, "key down\nsettle");
  CHECK(sound() == pattern.syllables[1].coda.front().segment);
  play(*window, "key down\nkey right\nsettle");
  CHECK(sound() == pattern.syllables[2].coda.front().segment);
  play(*window, "key up\nkey left\nsettle");
  CHECK(sound() == pattern.syllables[1].nucleus.front().segment);
}

TEST_CASE("pattern face: a long line has pages; the page goes with the time") {
  const auto window = open("The kettle mender mends a dented metal kettle, then tends the tin lids by the shelf");
  play(*window, "settle\nkey v\nkey home\nsettle");
  CHECK(window->ui().find("page-on"));
  CHECK(window->ui().find("card-0"));
  play(*window, "spot page-on\nsettle");
  CHECK_FALSE(window->ui().find("card-0"));
  play(*window, "key home\nsettle");
  CHECK(window->ui().find("card-0"));
}
