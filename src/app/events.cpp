#include "app/field.h"
#include "app/pattern_play.h"
#include "app/playback.h"
#include "app/window.h"

#include <SDL.h>

#include <algorithm>

namespace mw::app {

// How long the window may sleep: not at all while something moves, else until a deadline, or (-1) until something happens.
int Window::milliseconds_to_wait() const {
  if (another_ || (is_moving(session_.view) && !is_stepping(session_.view)) || is_fading(session_.glow, wanted_clash(session_)) || is_fading(session_.slip_glow, wanted_slip(session_)) || is_settling(session_)) return 0;
  if (!(fades_on(session_.fades, session_.view, fade_s, false) == session_.fades)) return 0;
  constexpr double for_ever = 1e9;
  double wait = for_ever;
  if (is_stepping(session_.view)) wait = std::min(wait, std::max(session_.view.until_step_s, 0.001));
  if (ask_in_s_ >= 0) wait = std::min(wait, ask_in_s_);
  const bool tip_waits = !hovered_.empty() && ui_.is_hovered(hovered_) && hovered_s_ < 0.6;
  if (tip_waits) wait = std::min(wait, 0.61 - hovered_s_);
  if (session_.view.presenting && still_s_ < 2) wait = std::min(wait, 2.01 - still_s_);
  return wait == for_ever ? -1 : std::max(static_cast<int>(wait * 1000), 1);
}

void Window::take_events() {
  int points = 1, pixels = 1;
  SDL_GetWindowSize(window_, &points, nullptr);
  SDL_GL_GetDrawableSize(window_, &pixels, nullptr);
  pixels_per_point_ = static_cast<double>(pixels) / std::max(points, 1);
  SDL_Event event;
  while (SDL_PollEvent(&event)) take_event(event);
}

void Window::take_event(const SDL_Event& event) {
  Field::handle(event);
  const auto at = [&](int x, int y) { return Vec2{x, y} * pixels_per_point_; };
  switch (event.type) {
    case SDL_QUIT: session_.quits = true; break;
    case SDL_MOUSEMOTION:
      input_.mouse = at(event.motion.x, event.motion.y);
      input_.moved = true;
      still_s_ = 0;
      break;
    case SDL_MOUSEBUTTONDOWN:
    case SDL_MOUSEBUTTONUP:
      if (event.button.button != SDL_BUTTON_LEFT) break;
      input_.mouse = at(event.button.x, event.button.y);
      input_.down = event.type == SDL_MOUSEBUTTONDOWN;
      (input_.down ? input_.pressed : input_.released) = true;
      break;
    case SDL_MOUSEWHEEL: input_.wheel += event.wheel.y; break;
    case SDL_KEYDOWN: {
      const auto mod = event.key.keysym.mod;
      input_.keys.push_back({event.key.keysym.sym, (mod & KMOD_SHIFT) != 0, (mod & KMOD_CTRL) != 0, (mod & KMOD_ALT) != 0});
      break;
    }
    case SDL_WINDOWEVENT:
      another_ = true;
      if (event.window.event == SDL_WINDOWEVENT_LEAVE) input_.mouse = {-1, -1};
      break;
    default: break;
  }
  if (event.type == wake_event_) another_ = true;
}

// The desktop's own size, without changing its mode: nothing on a projector jumps.
void Window::follow_screen() {
  const View& view = session_.view;
  const bool wanted = view.full_screen || (view.presenting && options_.present_full);
  if (wanted == fills_screen_) return;
  fills_screen_ = wanted;
  if (wanted) SDL_GetWindowSize(window_, &windowed_[0], &windowed_[1]);
  if (SDL_SetWindowFullscreen(window_, wanted ? SDL_WINDOW_FULLSCREEN_DESKTOP : 0) != 0) session_.view.full_screen = false;
  else if (!wanted) SDL_SetWindowSize(window_, windowed_[0], windowed_[1]); // not every driver gives the old size back
  another_ = true;
}

} // namespace mw::app
