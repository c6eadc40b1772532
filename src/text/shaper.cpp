#include "text/shaper.h"

#include "base/text.h"

#include <fontconfig/fontconfig.h>
#include <hb-ot.h>
#include <hb.h>

#include <algorithm>
#include <array>
#include <map>
#include <mutex>

namespace mw {
namespace {

constexpr std::size_t cache_limit = 8192; // lines; then the cache starts anew
constexpr double missing_width = 0.55;    // em kept for a letter without a font

struct LoadedFace {
  FontFace face;
  hb_font_t* font = nullptr; // lives as long as the program, like the cache of its glyphs
  double scale = 1;          // font units to em
  double ascent = 0, descent = 0;
  std::map<unsigned, std::shared_ptr<const Path>> shapes;
};

struct Fonts {
  std::mutex guard;
  std::vector<LoadedFace> faces;
  std::vector<FontFace> names;
  std::optional<Problem> problem;
  std::map<std::pair<std::string, bool>, std::shared_ptr<const ShapedLine>, std::less<>> lines;
};

// ---- outlines of glyphs

struct Pen { Path path; double scale = 1; };

void move_to(hb_draw_funcs_t*, void* data, hb_draw_state_t*, float x, float y, void*) {
  auto& pen = *static_cast<Pen*>(data);
  pen.path.steps.emplace_back(Path::Move{Vec2{static_cast<double>(x), -static_cast<double>(y)} * pen.scale});
}
void line_to(hb_draw_funcs_t*, void* data, hb_draw_state_t*, float x, float y, void*) {
  auto& pen = *static_cast<Pen*>(data);
  pen.path.steps.emplace_back(Path::Line{Vec2{static_cast<double>(x), -static_cast<double>(y)} * pen.scale});
}
void cubic_to(hb_draw_funcs_t*, void* data, hb_draw_state_t*, float x1, float y1, float x2, float y2, float x, float y, void*) {
  auto& pen = *static_cast<Pen*>(data);
  const auto at = [&](float a, float b) { return Vec2{static_cast<double>(a), -static_cast<double>(b)} * pen.scale; };
  pen.path.steps.emplace_back(Path::Cubic{at(x1, y1), at(x2, y2), at(x, y)});
}
void close_path(hb_draw_funcs_t*, void* data, hb_draw_state_t*, void*) {
  static_cast<Pen*>(data)->path.steps.emplace_back(Path::Close{});
}

hb_draw_funcs_t* pen_functions() { // no quadratic callback: harfbuzz raises them to cubics
  static hb_draw_funcs_t* const functions = [] {
    hb_draw_funcs_t* f = hb_draw_funcs_create();
    hb_draw_funcs_set_move_to_func(f, move_to, nullptr, nullptr);
    hb_draw_funcs_set_line_to_func(f, line_to, nullptr, nullptr);
    hb_draw_funcs_set_cubic_to_func(f, cubic_to, nullptr, nullptr);
    hb_draw_funcs_set_close_path_func(f, close_path, nullptr, nullptr);
    hb_draw_funcs_make_immutable(f);
    return f;
  }();
  return functions;
}

std::shared_ptr<const Path> glyph_shape(LoadedFace& face, unsigned glyph) {
  auto& shape = face.shapes[glyph];
  if (!shape) {
    Pen pen{{}, face.scale};
    hb_font_get_glyph_shape(face.font, glyph, pen_functions(), &pen);
    shape = std::make_shared<const Path>(std::move(pen.path));
  }
  return shape;
}

// ---- fonts

std::optional<Problem> load_face(Fonts& fonts, const std::string& family, bool bold) {
  const auto file = find_font_file(family, bold);
  if (!file) return file.error();
  hb_blob_t* blob = hb_blob_create_from_file_or_fail(file->c_str());
  if (!blob) return Problem{ProblemKind::missing, "a font file cannot be read", *file, "reinstall the fonts package"};
  hb_face_t* hb_face = hb_face_create(blob, 0);
  LoadedFace face{{family, *file, bold, 0}, hb_font_create(hb_face), 1.0 / hb_face_get_upem(hb_face), 0, 0, {}};
  hb_font_extents_t extents{};
  hb_font_get_h_extents(face.font, &extents);
  face.ascent = extents.ascender * face.scale;
  face.descent = -extents.descender * face.scale;
  hb_face_destroy(hb_face);
  hb_blob_destroy(blob);
  fonts.names.push_back(face.face);
  fonts.faces.push_back(std::move(face));
  return {};
}

Fonts& fonts() {
  static Fonts& all = *[] {
    auto* f = new Fonts; // never freed: threads may still shape while the program ends
    for (const char* family : {"Andika", "Charis SIL"})
      for (const bool bold : {false, true})
        if (auto problem = load_face(*f, family, bold); problem && !f->problem) f->problem = std::move(problem);
    if (f->problem) { f->faces.clear(); f->names.clear(); }
    return f;
  }();
  return all;
}

// ---- runs: letters with their marks, by the first face that has them all

bool is_mark(char32_t c) { // combining marks and joiners that must stay with their letter
  return (c >= 0x300 && c <= 0x36F) || (c >= 0x1AB0 && c <= 0x1AFF) || (c >= 0x1DC0 && c <= 0x1DFF) || (c >= 0x20D0 && c <= 0x20FF) || c == 0x200D || c == 0x35C;
}

std::size_t face_for(const Fonts& f, std::u32string_view cluster, bool bold) {
  for (std::size_t i = bold ? 1 : 0; i < f.faces.size(); i += 2) {
    bool all = true;
    for (const char32_t c : cluster) {
      hb_codepoint_t glyph = 0;
      all = all && hb_font_get_nominal_glyph(f.faces[i].font, c, &glyph);
    }
    if (all) return i;
  }
  return bold ? 1 : 0; // an empty box says that the letter is unknown
}

struct Run { std::size_t face = 0, from = 0, to = 0; }; // bytes of the text

std::vector<Run> runs_of(const Fonts& f, std::u32string_view signs, bool bold) {
  std::vector<Run> runs;
  std::size_t byte = 0;
  for (std::size_t i = 0; i < signs.size();) {
    std::size_t j = i + 1;
    while (j < signs.size() && (is_mark(signs[j]) || signs[j - 1] == 0x361)) ++j; // a tie binds two letters
    const std::u32string_view cluster = signs.substr(i, j - i);
    const std::size_t face = face_for(f, cluster, bold), bytes = encode_utf8(cluster).size();
    if (!runs.empty() && runs.back().face == face) runs.back().to += bytes;
    else runs.push_back({face, byte, byte + bytes});
    byte += bytes;
    i = j;
  }
  return runs;
}

void shape_run(LoadedFace& face, std::string_view text, const Run& run, double& x, ShapedLine& line) {
  // ss13: two-storey a, so that a cannot be taken for the open back vowel (visual design, section 3)
  static const std::array<hb_feature_t, 1> features{hb_feature_t{HB_TAG('s', 's', '1', '3'), 1, HB_FEATURE_GLOBAL_START, HB_FEATURE_GLOBAL_END}};
  hb_buffer_t* buffer = hb_buffer_create();
  hb_buffer_add_utf8(buffer, text.data(), static_cast<int>(text.size()), static_cast<unsigned>(run.from), static_cast<int>(run.to - run.from));
  hb_buffer_set_direction(buffer, HB_DIRECTION_LTR);
  hb_buffer_guess_segment_properties(buffer);
  hb_shape(face.font, buffer, features.data(), static_cast<unsigned>(features.size()));
  unsigned count = 0;
  const hb_glyph_info_t* info = hb_buffer_get_glyph_infos(buffer, &count);
  const hb_glyph_position_t* position = hb_buffer_get_glyph_positions(buffer, &count);
  for (unsigned i = 0; i < count; ++i) {
    const double advance = position[i].x_advance * face.scale;
    line.glyphs.push_back({run.face, info[i].codepoint,
                           Vec2{x + position[i].x_offset * face.scale, -position[i].y_offset * face.scale}, advance,
                           info[i].cluster, glyph_shape(face, info[i].codepoint)});
    x += advance;
  }
  hb_buffer_destroy(buffer);
}

void measure_ink(ShapedLine& line) {
  Vec2 low{1e9, 1e9}, high{-1e9, -1e9};
  for (const PlacedGlyph& g : line.glyphs) {
    const auto add = [&](Vec2 p) { p += g.at; low = {std::min(low.x, p.x), std::min(low.y, p.y)}; high = {std::max(high.x, p.x), std::max(high.y, p.y)}; };
    for (const auto& step : g.shape->steps)
      std::visit(Overloaded{[&](const Path::Move& s) { add(s.to); }, [&](const Path::Line& s) { add(s.to); },
                            [&](const Path::Cubic& s) { add(s.c1); add(s.c2); add(s.to); }, [](const Path::Close&) {}}, step);
  }
  if (low.x <= high.x) { line.ink_low = low; line.ink_high = high; }
}

std::shared_ptr<const ShapedLine> shape_new(Fonts& f, const std::string& text, bool bold) {
  ShapedLine line;
  const auto signs = decode_utf8(text);
  if (!signs) return std::make_shared<const ShapedLine>();
  if (f.faces.empty()) {
    line.width = missing_width * static_cast<double>(signs->size());
    line.ascent = 1.2, line.descent = 0.4;
    return std::make_shared<const ShapedLine>(std::move(line));
  }
  double x = 0;
  for (const Run& run : runs_of(f, *signs, bold)) shape_run(f.faces[run.face], text, run, x, line);
  line.width = x;
  line.ascent = f.faces[bold ? 1 : 0].ascent;
  line.descent = f.faces[bold ? 1 : 0].descent;
  measure_ink(line);
  return std::make_shared<const ShapedLine>(std::move(line));
}

} // namespace

Result<std::string> find_font_file(const std::string& family, bool bold) {
  const Problem missing{ProblemKind::missing, "the font " + family + " is not installed", "", "install fonts-sil-andika and fonts-sil-charis"};
  // a configuration of our own, given back at once: the library's shared one is never freed
  FcConfig* config = FcInitLoadConfigAndFonts();
  FcPattern* pattern = FcPatternCreate();
  FcPatternAddString(pattern, FC_FAMILY, reinterpret_cast<const FcChar8*>(family.c_str()));
  FcPatternAddInteger(pattern, FC_WEIGHT, bold ? FC_WEIGHT_BOLD : FC_WEIGHT_REGULAR);
  FcPatternAddInteger(pattern, FC_SLANT, FC_SLANT_ROMAN);
  FcConfigSubstitute(config, pattern, FcMatchPattern);
  FcDefaultSubstitute(pattern);
  FcResult result = FcResultNoMatch;
  FcPattern* match = FcFontMatch(config, pattern, &result);
  FcPatternDestroy(pattern);
  if (!match) {
    FcConfigDestroy(config);
    return missing;
  }
  FcChar8* found = nullptr;
  FcChar8* file = nullptr;
  const bool known = FcPatternGetString(match, FC_FAMILY, 0, &found) == FcResultMatch && FcPatternGetString(match, FC_FILE, 0, &file) == FcResultMatch;
  const std::string name = known ? reinterpret_cast<const char*>(found) : "", path = known ? reinterpret_cast<const char*>(file) : "";
  FcPatternDestroy(match);
  FcConfigDestroy(config);
  // fontconfig always offers something: only the family asked for counts
  if (name != family) return missing;
  return path;
}

Result<Done> check_fonts() {
  if (fonts().problem) return *fonts().problem;
  return Done{};
}

std::span<const FontFace> font_faces() { return fonts().names; }

std::shared_ptr<const ShapedLine> shape_line(std::string_view text, bool bold) {
  Fonts& f = fonts();
  std::string line{text};
  std::replace(line.begin(), line.end(), '\n', ' ');
  const std::lock_guard lock{f.guard};
  const auto key = std::pair{line, bold};
  if (const auto known = f.lines.find(key); known != f.lines.end()) return known->second;
  if (f.lines.size() >= cache_limit) f.lines.clear();
  return f.lines[key] = shape_new(f, line, bold);
}

double text_width(std::string_view text, double size, bool bold) { return shape_line(text, bold)->width * size; }

std::vector<std::string> wrap_text(std::string_view text, double size, bool bold, double width) {
  std::vector<std::string> lines;
  std::string line;
  for (const std::string& word : split(text, ' ')) {
    if (word.empty()) continue;
    const std::string longer = line.empty() ? word : line + " " + word;
    if (!line.empty() && text_width(longer, size, bold) > width) {
      lines.push_back(line);
      line = word;
    } else line = longer;
  }
  if (!line.empty()) lines.push_back(line);
  return lines;
}

std::string cut_text(std::string_view text, double size, bool bold, double width) {
  if (text_width(text, size, bold) <= width) return std::string{text};
  auto signs = decode_utf8(text);
  if (!signs) return {};
  while (!signs->empty()) {
    signs->pop_back();
    while (!signs->empty() && (signs->back() == U' ' || is_mark(signs->back()))) signs->pop_back();
    const std::string shorter = encode_utf8(*signs) + "\u2026";
    if (text_width(shorter, size, bold) <= width) return shorter;
  }
  return "\u2026";
}

double fitting_size(std::string_view text, double size, bool bold, double width, double least) {
  const double w = text_width(text, size, bold);
  return w <= width ? size : size * std::max(least, width / w);
}

} // namespace mw
