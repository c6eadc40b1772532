#include "app/field.h"
#include "app/my_accent.h"

#include "accent/edit.h"

#include <SDL_keycode.h>

namespace mw::app {

bool show_name_field(Session& session, const Theme& theme, const Input& input, double u, double wall_s, int width, int height) {
  Naming& naming = *session.naming;
  bool leave = naming.pictures == 0; // whatever was written in the field before is let go first
  bool given_up = false;
  for (const KeyPress& key : input.keys) given_up = given_up || key.code == SDLK_ESCAPE;
  Field::set_size(15.5 * u);
  const auto shown = Field::show(naming.rect, naming.text, theme, input, naming.pictures == 1, leave || given_up, wall_s, width, height);
  ++naming.pictures;
  session.field_active = true;
  // Enter, or going elsewhere, keeps it; Esc does not
  const bool over = naming.pictures > 3 && (shown.entered || !shown.active);
  if (!over && !given_up) return naming.pictures < 5;
  const std::string text = naming.text;
  session.naming.reset();
  session.field_active = false;
  if (!given_up) {
    const MyAccent& mine = my_accent(session);
    commit(session, with_name(mine.accent, text));
  }
  return true;
}

} // namespace mw::app
