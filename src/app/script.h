#pragma once

#include "base/result.h"

#include <string>
#include <string_view>
#include <vector>

namespace mw::app {

// A script drives the window with real SDL events, one command a line; `#` starts a comment:
//   type TEXT       text input, letter by letter       key NAME       space, left, shift+n, ctrl+l, f1 ...
//   move X Y        pointer                            click X Y      press and let go
//   drag X Y X2 Y2  press, move in steps, let go       wheel N        notches
//   wait SECONDS    the window's clock goes on         settle         until takes are made and nothing moves
//   size WxH        another window size                shot FILE      this picture as PNG
//   state FILE      what is shown, as text             spot ID        clicks the middle of a widget
//   time            prints the mean time of the pictures since the last `time`
struct ScriptCommand { std::string verb, rest; int line = 0; };

/// Problem (input) with the line of an unknown command.
Result<std::vector<ScriptCommand>> parse_script(std::string_view text);

} // namespace mw::app
