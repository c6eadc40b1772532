#include "paint/cairo/glyphs.h"

#include <cairo-ft.h>
#include <cairo.h>

#include <algorithm>
#include <map>
#include <mutex>
#include <vector>

namespace mw {
namespace {

// Faces of cairo by file; they live as long as the program, as cairo's own caches do.
cairo_font_face_t* cairo_face(const FontFace& face) {
  static std::mutex guard;
  static std::map<std::string, cairo_font_face_t*> known;
  const std::lock_guard lock{guard};
  auto& entry = known[face.file];
  if (entry) return entry;
  static FT_Library library = [] {
    FT_Library l = nullptr;
    FT_Init_FreeType(&l);
    return l;
  }();
  FT_Face ft = nullptr;
  if (FT_New_Face(library, face.file.c_str(), face.index, &ft) == 0) entry = cairo_ft_font_face_create_for_ft_face(ft, FT_LOAD_NO_HINTING);
  return entry;
}

// One cluster: letters and the glyphs they became. Glyphs come in text order (left to right).
void show_run(cairo_t* cr, const ShapedLine& line, std::size_t from, std::size_t to, const std::string& text, std::size_t text_end, double size) {
  cairo_font_face_t* face = cairo_face(font_faces()[line.glyphs[from].face]);
  if (!face) return;
  cairo_set_font_face(cr, face);
  cairo_set_font_size(cr, size);
  std::vector<cairo_glyph_t> glyphs;
  std::vector<cairo_text_cluster_t> clusters;
  const std::size_t text_start = line.glyphs[from].byte;
  for (std::size_t i = from; i < to; ++i) {
    const PlacedGlyph& g = line.glyphs[i];
    glyphs.push_back({g.glyph, g.at.x * size, g.at.y * size});
    if (i > from && line.glyphs[i - 1].byte == g.byte) {
      ++clusters.back().num_glyphs;
      continue;
    }
    std::size_t next = text_end;
    for (std::size_t j = i + 1; j < to; ++j)
      if (line.glyphs[j].byte != g.byte) { next = line.glyphs[j].byte; break; }
    clusters.push_back({static_cast<int>(next - g.byte), 1});
  }
  cairo_show_text_glyphs(cr, text.c_str() + text_start, static_cast<int>(text_end - text_start), glyphs.data(), static_cast<int>(glyphs.size()),
                         clusters.data(), static_cast<int>(clusters.size()), static_cast<cairo_text_cluster_flags_t>(0));
}

} // namespace

// A face of FreeType, and the library's that its faces share, are for one thread at a time; pictures of a sequence are painted
// by several.
void show_glyphs(cairo_t* cr, const ShapedLine& line, const std::string& text, double size) {
  static std::mutex one_at_a_time;
  const std::lock_guard lock{one_at_a_time};
  for (std::size_t i = 0; i < line.glyphs.size();) {
    std::size_t j = i + 1;
    while (j < line.glyphs.size() && line.glyphs[j].face == line.glyphs[i].face) ++j;
    show_run(cr, line, i, j, text, j < line.glyphs.size() ? line.glyphs[j].byte : text.size(), size);
    i = j;
  }
}

} // namespace mw
