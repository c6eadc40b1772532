#pragma once

#include "window/driver.h"

#include "accent/edit.h"
#include "accent/own.h"
#include "app/my_accent.h"

#include "support/home.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>

#include <unistd.h>

/// My accent, driven by events.
namespace my_accent_driver {
using namespace driver;
namespace fs = std::filesystem;

using mw::test::Home;

inline const std::string phrase = "Both stoves hold glass kettles, brass ladles";

inline std::unique_ptr<Window> open_view(const std::string& accent = "SSBE", int width = 1280, int height = 720) {
  auto window = open(phrase, width, height, accent);
  play(*window, "settle\nkey escape\nsettle");
  if (window->ui().find("screen-My accent")) play(*window, "spot screen-My accent\nsettle");
  else {
    play(*window, "spot screen\nwait 0.1");
    const auto& rows = window->session().menu->rows;
    const auto at = std::find_if(rows.begin(), rows.end(), [](const auto& row) { return row.text == "My accent"; });
    play(*window, "spot menu-" + std::to_string(at - rows.begin()) + "\nsettle");
  }
  REQUIRE(window->session().view.screen == Screen::my_accent);
  return window;
}

inline const MyAccent& mine(const Window& window) {
  REQUIRE(window.session().my_accent);
  return *window.session().my_accent;
}
inline void drag(Window& window, const std::string& id, Vec2 by) {
  const Spot* spot = window.ui().find(id);
  REQUIRE_MESSAGE(spot, id);
  const Vec2 from = spot->rect.centre(), to = from + by;
  play(window, "drag " + to_text(from.x, 1) + " " + to_text(from.y, 1) + " " + to_text(to.x, 1) + " " + to_text(to.y, 1) + "\nsettle");
}
inline std::string said(const Window& window) {
  std::string out;
  for (const Segment& segment : window.session().take->track.segments) out += to_ipa(segment.sound) + " ";
  return out;
}
/// What of the saved file differs from the accent it began as, beside what a copy always changes.
inline std::vector<std::string> saved_changes(const Window& window) {
  const auto file = read_accent(window.session().request.accent);
  REQUIRE(file.has_value());
  CHECK(*file == mine(window).accent);
  auto out = changes(mine(window).start, *file);
  std::erase_if(out, [](const std::string& what) { return what == "id" || what == "name" || what == "status" || what == "based_on"; });
  return out;
}
using Names = std::vector<std::string>;

} // namespace my_accent_driver
