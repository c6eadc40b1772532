#include "app/writing.h"

#include "app/field.h"

#include <SDL_keycode.h>

#include <algorithm>

namespace mw::app {

Written write_on(Writing& writing, const Theme& theme, const Input& input, double size, double wall_s, int width, int height) {
  const bool leave = writing.pictures == 0 || writing.rests; // whatever was written in the field before is let go first
  const bool given_up = std::any_of(input.keys.begin(), input.keys.end(), [](const KeyPress& key) { return key.code == SDLK_ESCAPE; });
  Field::set_size(size);
  const auto shown = Field::show(writing.rect, writing.text, theme, input, writing.pictures == 1, leave || given_up, wall_s, width, height);
  ++writing.pictures;
  if (given_up) return Written::given_up;
  if (writing.pictures <= 3) return Written::goes_on;
  return shown.entered ? Written::entered : shown.active ? Written::goes_on : Written::left;
}

} // namespace mw::app
