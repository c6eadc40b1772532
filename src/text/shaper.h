#pragma once

#include "base/path.h"
#include "base/result.h"

#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace mw {

/// One font of the program: Andika regular and bold, then Charis SIL (fall-back) regular and bold.
struct FontFace {
  std::string family, file;
  bool bold = false;
  int index = 0; // within a collection file
};

/// One glyph of a line. Units: em of the text size, y down, origin on the baseline at the line's start.
struct PlacedGlyph {
  std::size_t face = 0;         // index into font_faces()
  unsigned glyph = 0;           // glyph number within the face
  Vec2 at{};
  double advance = 0;
  std::size_t byte = 0;         // where its letters start in the text
  std::shared_ptr<const Path> shape; // outline about its own origin; empty path for a space
};

/// One line of text, shaped: words and IPA with stacked marks, two-storey a.
struct ShapedLine {
  std::vector<PlacedGlyph> glyphs;
  double width = 0;                      // sum of advances, em
  double ascent = 0, descent = 0;        // of the font, em, both positive
  Vec2 ink_low{}, ink_high{};            // box of what is drawn, em
};

/// The fonts are there, or a Problem (missing) that names them and the package. Other functions here draw nothing but
/// keep room (0.55 em a letter) when they are not.
Result<Done> check_fonts();
/// Fonts by family name, as the system knows them; Problem (missing) when the family is not installed.
Result<std::string> find_font_file(const std::string& family, bool bold);
std::span<const FontFace> font_faces();

/// Shapes one line of valid UTF-8 (line breaks count as spaces). Cached, safe to call from several threads.
std::shared_ptr<const ShapedLine> shape_line(std::string_view text, bool bold);

double text_width(std::string_view text, double size, bool bold = false);
/// Lines no wider than `width`, broken at spaces; a longer single word stays whole.
std::vector<std::string> wrap_text(std::string_view text, double size, bool bold, double width);
/// The text, or its start and an ellipsis, within `width`.
std::string cut_text(std::string_view text, double size, bool bold, double width);
/// The largest size between least * size and size at which the text fits `width`.
double fitting_size(std::string_view text, double size, bool bold, double width, double least);

} // namespace mw
