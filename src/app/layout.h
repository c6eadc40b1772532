#pragma once

#include "scene/canvas.h"

namespace mw::app {

/// How much is folded away (visual design, section 5): the whole window, vowels behind a tab and the shelf below the
/// mouth, or what an 800 x 600 screen can hold.
enum class Fold { full, middle, small };

/// Where everything stands, in pixels.
struct Layout {
  double u = 1; // the unit of every size
  Fold fold = Fold::full;
  Rect whole, top, stage, score, why, vowels, transport;
  bool operator==(const Layout&) const = default;
};

Layout lay_out(int width, int height, double text_scale = 1);

} // namespace mw::app
