#include "app/correcting.h"
#include "app/field.h"
#include "app/my_accent.h"
#include "app/panels.h"
#include "app/window.h"

#include "base/text.h"

#include <SDL_keycode.h>

#include <algorithm>

namespace mw::app {

// One field of Dear ImGui serves the phrase, a name and the sounds of a word, one at a time.
void Window::field(double wall_s) {
  if (session_.view.presenting) {
    session_.field_active = session_.wants_field = false;
    return;
  }
  // the phrase never takes up what was being written in another field: Dear ImGui hands the focus on a picture or two later
  constexpr int pictures_to_leave = 3;
  leaves_field_ = session_.naming || session_.correcting ? pictures_to_leave : std::max(leaves_field_ - 1, 0);
  const bool wrote = leaves_field_ > 0;
  if (session_.naming) {
    another_ = show_name_field(session_, *ui_.theme, input_, layout_.u, wall_s, width_, height_) || another_;
    return;
  }
  if (session_.correcting) {
    another_ = show_correcting_field(ui_, session_, *ui_.theme, input_, layout_.u, wall_s, width_, height_) || another_;
    return;
  }
  bool leave = false;
  for (const KeyPress& key : input_.keys) leave = leave || key.code == SDLK_ESCAPE || key.code == SDLK_TAB;
  leave = (leave && session_.field_active) || session_.menu.has_value() || session_.view.key_sheet || wrote;
  Field::set_size((layout_.fold == Fold::full ? 19 : 17) * layout_.u);
  std::string text = session_.request.phrase;
  const bool was_active = session_.field_active;
  const auto shown = Field::show(field_rect_, text, *ui_.theme, input_, session_.wants_field && !leave, leave, wall_s, width_, height_);
  session_.wants_field = session_.wants_field && wrote;
  another_ = another_ || wrote;
  session_.field_active = shown.active;
  if (text != session_.request.phrase) {
    session_.request.phrase = text;
    ask_in_s_ = 0.15; // typing goes on: ask when it rests
    another_ = true;
  }
  if (shown.entered) {
    ask_in_s_ = 0, session_.field_active = false, another_ = true;
    if (trim(text).empty()) take_first_line(session_);
  }
  if (was_active != session_.field_active) another_ = true;
  if (shown.active && !was_active) ui_.focus("phrase", false);
}

} // namespace mw::app
