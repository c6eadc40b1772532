#include "window/driver.h"

#include "app/panels.h"
#include "app/playback.h"
#include "scene/take_text.h"
#include "scene/theme.h"

#include <algorithm>
#include <cmath>

using namespace driver;

TEST_CASE("window: a typed line is computed while typing and starts at its strongest clash, paused") {
  const auto window = open();
  play(*window, "settle");
  CHECK_FALSE(window->session().take);
  CHECK(window->session().field_active);
  const Pixels before = window->picture();
  play(*window, "type Which thin tin lid fits this dish\nsettle");
  const Session& session = window->session();
  REQUIRE(session.take);
  CHECK(session.take->request.phrase == "Which thin tin lid fits this dish");
  CHECK_FALSE(session.view.playing);
  if (!session.take->clashes.empty()) {
    const Clash& strongest = session.take->clashes.front();
    CHECK(session.view.time_s == doctest::Approx((strongest.start_s + strongest.end_s) / 2));
  }
  CHECK(changed(*window, before, window->picture(), window->layout().stage) > 0.1);
  CHECK(changed(*window, before, window->picture(), window->layout().score) > 0.03);
}

TEST_CASE("window: Enter in the empty field takes the first of the three lines") {
  const auto window = open();
  play(*window, "settle\nkey return\nsettle");
  REQUIRE(window->session().take);
  CHECK(window->session().take->request.phrase == first_lines().front().text);
  CHECK_FALSE(window->session().field_active);
}

TEST_CASE("window: each of the three lines holds the clash it is offered for, in the accent one starts with") {
  for (const auto& line : first_lines()) {
    CAPTURE(line.text);
    const auto window = open(std::string(line.text), 1280, 720, "GA");
    play(*window, "settle");
    REQUIRE(window->session().take);
    const auto& clashes = window->session().take->clashes;
    CHECK(std::any_of(clashes.begin(), clashes.end(), [&](const Clash& c) { return c.kind == line.shows; }));
  }
}

TEST_CASE("window: playing moves the mouth and the scrubber and nothing else; pausing stops both") {
  const auto window = open("Glass kettles, brass ladles");
  play(*window, "settle\nkey space\nwait 0.1");
  CHECK(window->session().view.playing);
  const Pixels first = window->picture();
  const double t0 = window->session().view.time_s;
  play(*window, "wait 1");
  CHECK(window->session().view.time_s == doctest::Approx(t0 + 1.0 / 8).epsilon(0.25));
  const Layout& l = window->layout();
  CHECK(changed(*window, first, window->picture(), l.stage) > 0.002);
  CHECK(changed(*window, first, window->picture(), l.score) > 0.0005);
  CHECK(changed(*window, first, window->picture(), l.top) == 0);
  CHECK(changed(*window, first, window->picture(), l.transport) == 0);
  play(*window, "key space\nsettle");
  CHECK_FALSE(window->session().view.playing);
  const Pixels paused = window->picture();
  play(*window, "wait 0.3");
  CHECK(paused == window->picture());
}

TEST_CASE("window: a step on and a step back end in the very same picture") {
  const auto window = open("Glass kettles, brass ladles");
  for (const std::string by : {"sound", "frame", "move"}) {
    CAPTURE(by);
    play(*window, "settle\nspot step-" + by + "\nmove 640 5\nkey home\nkey right\nkey right\nkey right\nsettle");
    const Pixels here = window->picture();
    const double t = window->session().view.time_s;
    play(*window, "key right\nsettle");
    CHECK(window->session().view.time_s > t);
    CHECK(here != window->picture());
    play(*window, "key left\nsettle");
    CHECK(window->session().view.time_s == doctest::Approx(t));
    CHECK(here == window->picture());
  }
}

TEST_CASE("window: drawing over the lanes scrubs both ways, a picture later") {
  const auto window = open("Glass kettles, brass ladles");
  play(*window, "settle");
  const Spot* lanes = window->ui().find("scrub");
  REQUIRE(lanes);
  const double y = lanes->rect.centre().y, left = lanes->rect.x, width = lanes->rect.width;
  std::vector<double> times;
  for (const double q : {0.2, 0.5, 0.8}) {
    play(*window, "click " + to_text(left + q * width) + " " + to_text(y));
    times.push_back(window->session().view.time_s);
  }
  // x and time are in proportion
  CHECK(times[1] - times[0] == doctest::Approx(times[2] - times[1]).epsilon(0.02));
  CHECK(times[1] > times[0]);
  play(*window, "drag " + to_text(left + 0.8 * width) + " " + to_text(y) + " " + to_text(left + 0.2 * width) + " " + to_text(y));
  CHECK(window->session().view.time_s == doctest::Approx(times[0]).epsilon(0.02));
}

TEST_CASE("window: N brings every clash with its words, lit on the stage") {
  const auto window = open("Which thin tin lid fits this dish");
  play(*window, "settle\nkey shift+a");
  const auto take = window->session().take;
  REQUIRE(take);
  REQUIRE_FALSE(take->clashes.empty());
  std::vector<bool> seen(take->clashes.size());
  for (std::size_t i = 0; i < take->clashes.size(); ++i) {
    play(*window, "key n\nsettle");
    const auto clash = window->session().view.clash;
    REQUIRE(clash);
    seen[*clash] = true;
    const Clash& it = take->clashes[*clash];
    CHECK(window->session().view.time_s == doctest::Approx((it.start_s + it.end_s) / 2));
    CHECK(window->session().glow.clash == clash);
    CHECK(window->session().glow.level == 1);
  }
  CHECK(std::count(seen.begin(), seen.end(), true) == static_cast<std::ptrdiff_t>(seen.size()));
  const Pixels words = window->picture();
  play(*window, "key shift+n\nsettle");
  if (take->clashes.size() > 1) CHECK(changed(*window, words, window->picture(), window->layout().why) > 0.005);
}

TEST_CASE("window: the three clashes that matter come first, all of them on demand; a flag that is clicked loops slowly") {
  const auto window = open("Which thin tin lid fits this dish");
  play(*window, "settle\nkey shift+s\nkey shift+s\nkey shift+s\nsettle");
  const std::size_t all = window->session().take->clashes.size();
  REQUIRE(all > 3);
  const auto flags = [&] { return std::count_if(window->ui().spots().begin(), window->ui().spots().end(), [](const Spot& s) { return s.id.starts_with("flag-"); }); };
  CHECK(flags() <= 3);
  for (std::size_t i = 0; i < all; ++i) {
    play(*window, "key n\nsettle");
    CHECK(*window->session().view.clash < 3);
  }
  const auto few = flags();
  play(*window, "spot all-clashes\nsettle");
  CHECK(window->session().view.all_clashes);
  CHECK(flags() >= few);
  CHECK(window->session().view.slow == 0);
  play(*window, "spot flag-0\nmove 640 8\nwait 0.3");
  const View& view = window->session().view;
  CHECK(view.playing);
  CHECK(view.clash == 0u);
  CHECK(view.loop_span.has_value());
  CHECK(slow_divisors[static_cast<std::size_t>(view.slow)] >= 8);
}

TEST_CASE("window: W shows the likely slip at the sound nearest to now, with its words, and takes it away") {
  const auto window = open("Which thin tin lid fits this dish");
  play(*window, "settle");
  REQUIRE_FALSE(window->session().take->likely_slips.empty());
  play(*window, "key w\nsettle");
  const auto& slip = window->session().take->likely_slips;
  REQUIRE(window->session().slip_glow.clash);
  CHECK(window->session().slip_glow.level == 1);
  CHECK(sound_at(*window->session().take, window->session().view.time_s) == slip[*window->session().slip_glow.clash].segment);
  const Pixels with = window->picture();
  play(*window, "key w\nsettle");
  CHECK_FALSE(window->session().slip_glow.clash);
  CHECK(changed(*window, with, window->picture(), window->layout().stage) > 0.003);
  CHECK(changed(*window, with, window->picture(), window->layout().why) > 0.003);
}

TEST_CASE("window: keys for mirror, cover, labels, spotlight and theme change the picture, and back") {
  const auto window = open("Glass kettles, brass ladles");
  play(*window, "settle");
  const Pixels plain = window->picture();
  const std::vector<std::pair<std::string, std::string>> keys{{"m", "m"}, {"h", "h"}, {"l", "l"}, {"2", "0"}, {"d", "d\nkey d"}};
  for (const auto& [on, off] : keys) {
    CAPTURE(on);
    play(*window, "key " + on + "\nsettle");
    CHECK(changed(*window, plain, window->picture(), window->layout().stage) > 0.01);
    play(*window, "key " + off + "\nsettle");
    CHECK(plain == window->picture());
  }
}

TEST_CASE("window: what cannot be said is told in the card; the last good picture and the text stay") {
  const auto window = open("Glass kettles");
  play(*window, "settle");
  const auto good = window->session().take;
  play(*window, "key /\nwait 0.1\nkey ctrl+a\ntype /tɪ§n/\nsettle");
  CHECK(window->session().request.phrase == "/tɪ§n/");
  REQUIRE(window->session().problem);
  CHECK(window->session().take == good);
  play(*window, "key ctrl+a\ntype /tɪn/\nsettle");
  CHECK_FALSE(window->session().problem);
  CHECK(window->session().take->track.segments.size() == 3);
}

TEST_CASE("window: another accent from the menu, by mouse and by keys, changes what is said") {
  const auto window = open("glass bath");
  play(*window, "settle");
  const auto vowel = [&] { return window->session().take->track.segments[2].sound.letter; };
  const std::string british = vowel();
  play(*window, "spot accent\nwait 0.1");
  REQUIRE(window->session().menu);
  play(*window, "key home\nkey return\nsettle"); // the first of the list
  CHECK_FALSE(window->session().menu);
  CHECK(window->session().request.accent == window->session().accents.front().id);
  CHECK(window->session().take->request.accent == window->session().request.accent);
  CHECK(vowel() != british);
  play(*window, "spot accent\nwait 0.1\nspot menu-1\nsettle");
  CHECK(window->session().request.accent == window->session().accents[1].id);
  CHECK(vowel() == british);
}

TEST_CASE("window: Tab goes through every place once and comes round; Enter does what a click does") {
  const auto window = open("Glass kettles");
  play(*window, "settle\nkey escape");
  std::vector<std::string> seen;
  for (int i = 0; i < 80; ++i) {
    play(*window, "key tab");
    const std::string at = window->ui().focused();
    if (!seen.empty() && at == seen.front()) break;
    seen.push_back(at);
  }
  CHECK(std::count(seen.begin(), seen.end(), "play") == 1);
  CHECK(std::count(seen.begin(), seen.end(), "accent") == 1);
  CHECK(seen.size() > 15);
  for (int i = 0; i < 80 && window->ui().focused() != "mirror"; ++i) play(*window, "key tab");
  play(*window, "key return\nsettle");
  CHECK(window->session().view.mirrored);
}

TEST_CASE("window: presenting fills the window, blanks and comes back") {
  const auto window = open("Which thin tin lid fits this dish", 1024, 768);
  play(*window, "settle");
  const Pixels plain = window->picture();
  play(*window, "key p\nsettle");
  CHECK(window->session().view.presenting);
  CHECK(changed(*window, plain, window->picture(), window->layout().whole) > 0.3);
  play(*window, "key b\nwait 0.4");
  const Colour ground = light_theme().ground;
  const Pixels blank = window->picture();
  std::size_t other = 0;
  for (std::size_t i = 0; i < blank.size(); i += 4)
    other += std::abs(blank[i] - std::lround(ground.r * 255)) > 1 || std::abs(blank[i + 2] - std::lround(ground.b * 255)) > 1;
  CHECK(other == 0);
  play(*window, "key b\nwait 0.4\nkey escape\nsettle");
  CHECK_FALSE(window->session().view.presenting);
  CHECK(changed(*window, plain, window->picture(), window->layout().whole) < 0.01);
}

TEST_CASE("window: at every size of the design the mouth, the sounds and the words of the clash are there") {
  for (const auto& [w, h] : {std::pair{800, 600}, std::pair{1024, 768}, std::pair{1280, 720}, std::pair{1920, 1080}}) {
    CAPTURE(w);
    const auto window = open("Which thin tin lid fits this dish", w, h);
    play(*window, "settle");
    const Pixels first = window->picture();
    play(*window, "key n\nsettle\nkey n\nsettle");
    const Layout& l = window->layout();
    CHECK(changed(*window, first, window->picture(), l.stage) > 0.002);
    CHECK(changed(*window, first, window->picture(), l.score) > 0.002);
    CHECK(changed(*window, first, window->picture(), l.why) > 0.002);
  }
}
