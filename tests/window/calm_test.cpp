#include "window/driver.h"
#include "window/fake_take.h"

#include "app/playback.h"

#include <SDL.h>

using namespace driver;

TEST_CASE("reduced motion: playing steps from sound to sound once a second, and starts over when it loops") {
  const auto take = fake_take();
  View view;
  view.calm = true;
  view = toggle_play(view, *take);
  view.time_s = start_of(*take);
  CHECK(is_stepping(view));
  const auto all = stops(*take, StepBy::sound);
  view = advance(view, *take, 0.5);
  CHECK(view.time_s == doctest::Approx(all[0])); // nothing moves between
  view = advance(view, *take, 0.5);
  CHECK(view.time_s == doctest::Approx(all[1]));
  for (std::size_t i = 2; i < all.size(); ++i) {
    view = advance(view, *take, 1);
    CHECK(view.time_s == doctest::Approx(all[i]));
  }
  view = advance(view, *take, 1);
  CHECK(view.time_s == doctest::Approx(all[0]));
  view.loop = false, view.time_s = all.back();
  CHECK_FALSE(advance(view, *take, 1).playing);
}

TEST_CASE("reduced motion: play pressed twice plays, once more stops; slowly twice is stop") {
  const auto take = fake_take();
  View view;
  view.calm = true;
  view = toggle_play(view, *take);
  view = advance(view, *take, 0.2);
  view = toggle_play(view, *take);
  CHECK(view.playing);
  CHECK_FALSE(is_stepping(view));
  const double t = view.time_s;
  CHECK(advance(view, *take, 0.1).time_s == doctest::Approx(t + 0.1 / 8));
  CHECK_FALSE(toggle_play(view, *take).playing);
  view = toggle_play(toggle_play(view, *take), *take);
  view = advance(view, *take, 0.8);
  CHECK_FALSE(toggle_play(view, *take).playing);
}

TEST_CASE("reduced motion: T in the window; a step, a cover and a spotlight are there in the next picture") {
  const auto window = open("Which thin tin lid fits this dish");
  play(*window, "settle\nkey home\nsettle\nkey t\nkey right");
  CHECK(window->session().view.calm);
  CHECK_FALSE(window->session().view.glide);
  play(*window, "key h");
  CHECK(window->session().fades.cover == 1);
  play(*window, "key h\nkey 2");
  CHECK(window->session().fades.cover == 0);
  CHECK(window->session().fades.spotlight == 1);
  play(*window, "key 0\nkey n");
  CHECK(window->session().glow.level == 1);
  // air stands still while it steps
  play(*window, "key home\nkey space\nwait 0.2");
  const double drift = window->session().drift_mm;
  const Pixels first = window->picture();
  play(*window, "wait 0.5");
  CHECK(window->session().drift_mm == drift);
  CHECK(first == window->picture());
  play(*window, "wait 0.5");
  CHECK(first != window->picture());
  play(*window, "key space\nkey t\nkey right");
  CHECK(window->session().view.glide);
}

TEST_CASE("window: Present takes the whole screen and Esc gives the window back; F11 does it by hand") {
  setenv("SDL_VIDEODRIVER", "offscreen", 1);
  WindowOptions options;
  options.request.phrase = "Glass kettles", options.request.accent = "SSBE";
  options.width = 900, options.height = 640;
  auto opened = Window::open(options);
  REQUIRE(opened.has_value());
  Window& window = **opened;
  play(window, "settle");
  SDL_Window* sdl = SDL_GetWindowFromID(1);
  for (std::uint32_t id = 1; !sdl && id < 64; ++id) sdl = SDL_GetWindowFromID(id);
  REQUIRE(sdl);
  const auto fills = [&] { return (SDL_GetWindowFlags(sdl) & SDL_WINDOW_FULLSCREEN_DESKTOP) == SDL_WINDOW_FULLSCREEN_DESKTOP; };
  CHECK_FALSE(fills());
  SDL_DisplayMode desktop{};
  REQUIRE(SDL_GetDesktopDisplayMode(0, &desktop) == 0);
  play(window, "key p\nsettle");
  CHECK(fills());
  CHECK(window.layout().whole.width == desktop.w);
  CHECK(window.layout().whole.height == desktop.h);
  play(window, "key escape\nsettle");
  CHECK_FALSE(fills());
  CHECK_FALSE(window.session().view.presenting);
  CHECK(window.layout().whole.width == 900);
  CHECK(window.layout().whole.height == 640);
  play(window, "key f11\nsettle");
  CHECK(fills());
  play(window, "key p\nsettle\nkey escape\nsettle");
  CHECK(fills()); // asked for by hand: it stays
  play(window, "key escape\nsettle");
  CHECK_FALSE(fills());
}
