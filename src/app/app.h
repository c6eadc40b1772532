#pragma once

#include "base/result.h"
#include "take/take.h"

#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace mw::app {

/// How the window starts. Everything has a default.
struct WindowOptions {
  Request request{};        // a phrase in it is shown at once
  int width = 1280, height = 720;
  std::string theme = "light";
  bool reduced_motion = false;
  bool present_full = true; // Present takes the whole screen
  std::string lesson;       // a lesson file: its line in hand and its theme
  std::string script;       // for tests: a file of events, see script.h; the window closes at its end
  std::string shot;         // for tests: the last picture goes to this PNG
  /// Looks words up; espeak-ng's when empty.
  std::function<Result<std::shared_ptr<Pronouncer>>()> pronouncer{};
};

/// Opens the window and stays in it until it is closed; gives the exit code (contract: 0; 5 without a display, OpenGL or
/// the font, after saying so on standard error).
int run_window(const WindowOptions& options);

/// The words after `open`. Problem (usage) names the one that does not fit.
Result<WindowOptions> read_window_options(const std::vector<std::string>& arguments);
std::string_view window_help();
/// What `open` does with its words: help, or the window; gives the exit code.
int open_window(const std::vector<std::string>& arguments);

} // namespace mw::app
