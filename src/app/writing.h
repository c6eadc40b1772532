#pragma once

#include "app/input.h"
#include "app/session.h"
#include "scene/theme.h"

namespace mw::app {

/// A short text in a field of its own: goes on; kept by Enter; left for another place; given up with Esc.
enum class Written { goes_on, entered, left, given_up };
/// One picture of it, at its rectangle; `size`: of its letters, pixels.
Written write_on(Writing& writing, const Theme& theme, const Input& input, double size, double wall_s, int width, int height);

} // namespace mw::app
