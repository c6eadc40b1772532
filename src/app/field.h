#pragma once

#include "app/input.h"
#include "base/result.h"
#include "scene/canvas.h"
#include "scene/theme.h"

#include <string>

struct SDL_Window;
union SDL_Event;

namespace mw::app {

/// The phrase field while it is being edited: selection, clipboard and input methods of Dear ImGui, in our font and
/// colours. Lives as long as the window; one only.
class Field {
public:
  /// Problem (missing) without the font.
  static Result<Done> start(SDL_Window* window, void* gl_context);
  static void stop();

  static void handle(const SDL_Event& event);
  /// Font of this size (pixels) from the next picture on.
  static void set_size(double text_size);
  struct Shown { bool active = false, changed = false, entered = false; };
  /// One picture: the text inside `rect`; `take_focus` starts editing, `leave` ends it. Draws over what the window shows.
  static Shown show(Rect rect, std::string& text, const Theme& theme, const Input& input, bool take_focus, bool leave, double wall_s, int width, int height);
};

} // namespace mw::app
