#pragma once

#include "base/vec.h"

#include <string>
#include <vector>

namespace mw::app {

/// A key press that no text field took: SDL key code and modifiers as bits.
struct KeyPress {
  int code = 0;
  bool shift = false, control = false, alt = false;
};

/// What hands did since the last picture.
struct Input {
  Vec2 mouse{-1, -1};
  bool down = false, pressed = false, released = false; // left button: is, went, was let go
  bool moved = false;
  double wheel = 0;
  std::vector<KeyPress> keys;
};

} // namespace mw::app
