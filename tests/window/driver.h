#pragma once

#include "app/window.h"

#include "base/text.h"

#include <doctest/doctest.h>

#include <cstdint>
#include <cstdlib>
#include <memory>
#include <string>
#include <vector>

/// The real window, off screen, driven by real events.
namespace driver {
using namespace mw;
using namespace mw::app;

inline std::unique_ptr<Window> open(const std::string& phrase = "", int width = 1280, int height = 720, const std::string& accent = "SSBE") {
  setenv("SDL_VIDEODRIVER", "offscreen", 1);
  WindowOptions options;
  options.request.phrase = phrase;
  options.request.accent = accent;
  options.width = width, options.height = height;
  options.present_full = false;
  auto window = Window::open(options);
  REQUIRE_MESSAGE(window.has_value(), (window ? "" : window.error().what));
  return std::move(window).value();
}

/// Plays commands, one a line.
inline void play(Window& window, const std::string& script) {
  const auto commands = parse_script(script);
  REQUIRE(commands.has_value());
  const auto done = window.play(*commands);
  REQUIRE_MESSAGE(done.has_value(), (done ? "" : done.error().what));
}

using Pixels = std::vector<std::uint8_t>;
/// Share of the pixels inside `rect` that differ clearly.
inline double changed(const Window& window, const Pixels& a, const Pixels& b, Rect rect) {
  REQUIRE(a.size() == b.size());
  std::size_t count = 0, all = 0;
  for (int y = static_cast<int>(rect.y); y < static_cast<int>(rect.bottom()); ++y)
    for (int x = static_cast<int>(rect.x); x < static_cast<int>(rect.right()); ++x, ++all) {
      const auto i = static_cast<std::size_t>((y * window.width() + x) * 4);
      int most = 0;
      for (std::size_t c = 0; c < 3; ++c) most = std::max(most, std::abs(a[i + c] - b[i + c]));
      count += most > 12;
    }
  return static_cast<double>(count) / static_cast<double>(all);
}

} // namespace driver
