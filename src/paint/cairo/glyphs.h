#pragma once

#include "text/shaper.h"

#include <string>

typedef struct _cairo cairo_t;

namespace mw {

/// Shows a shaped line as glyphs of its fonts with the text behind them (selectable in a PDF), baseline start at the
/// origin of `cr`, source as set.
void show_glyphs(cairo_t* cr, const ShapedLine& line, const std::string& text, double size);

} // namespace mw
