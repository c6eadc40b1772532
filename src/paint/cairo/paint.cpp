#include "paint/cairo/paint.h"

#include "paint/cairo/glyphs.h"
#include "text/shaper.h"

#include <cairo-pdf.h>
#include <cairo.h>

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstring>
#include <numbers>

namespace mw {
namespace {

void set_colour(cairo_t* cr, Colour c) {
  cairo_set_source_rgba(cr, static_cast<double>(c.r), static_cast<double>(c.g), static_cast<double>(c.b), static_cast<double>(c.a));
}

void trace_path(cairo_t* cr, const Path& path) {
  for (const auto& step : path.steps)
    std::visit(Overloaded{[&](const Path::Move& s) { cairo_move_to(cr, s.to.x, s.to.y); },
                          [&](const Path::Line& s) { cairo_line_to(cr, s.to.x, s.to.y); },
                          [&](const Path::Cubic& s) { cairo_curve_to(cr, s.c1.x, s.c1.y, s.c2.x, s.c2.y, s.to.x, s.to.y); },
                          [&](const Path::Close&) { cairo_close_path(cr); }}, step);
}

void add_stops(cairo_pattern_t* pattern, const std::vector<std::pair<double, Colour>>& stops) {
  for (const auto& [at, c] : stops)
    cairo_pattern_add_color_stop_rgba(pattern, at, static_cast<double>(c.r), static_cast<double>(c.g), static_cast<double>(c.b), static_cast<double>(c.a));
}

void fill_with_pattern(cairo_t* cr, cairo_pattern_t* pattern) {
  cairo_set_source(cr, pattern);
  cairo_fill(cr);
  cairo_pattern_destroy(pattern);
}

void hatch_family(cairo_t* cr, const Hatch& hatch, double angle_deg) {
  double x0 = 0, y0 = 0, x1 = 0, y1 = 0;
  cairo_clip_extents(cr, &x0, &y0, &x1, &y1);
  const double reach = std::hypot(x1 - x0, y1 - y0) / 2 + hatch.pitch;
  const int lines = static_cast<int>(reach / hatch.pitch) + 1;
  cairo_save(cr);
  cairo_translate(cr, (x0 + x1) / 2, (y0 + y1) / 2);
  cairo_rotate(cr, angle_deg * std::numbers::pi / 180);
  for (int i = -lines; i <= lines; ++i) {
    cairo_move_to(cr, -reach, i * hatch.pitch);
    cairo_line_to(cr, reach, i * hatch.pitch);
  }
  const double dash[2]{3.2 * hatch.width, 3.2 * hatch.width};
  cairo_set_dash(cr, dash, hatch.broken ? 2 : 0, 0);
  cairo_set_line_width(cr, hatch.width);
  set_colour(cr, hatch.line);
  cairo_stroke(cr);
  cairo_restore(cr);
}

void fill_hatch(cairo_t* cr, const Hatch& hatch) {
  cairo_save(cr);
  cairo_clip(cr);
  set_colour(cr, hatch.ground);
  cairo_paint(cr);
  hatch_family(cr, hatch, hatch.angle_deg);
  if (hatch.crossed) hatch_family(cr, hatch, hatch.angle_deg + 90);
  cairo_restore(cr);
}

void fill_dots(cairo_t* cr, const Dots& dots) {
  cairo_save(cr);
  cairo_clip(cr);
  set_colour(cr, dots.ground);
  cairo_paint(cr);
  double x0 = 0, y0 = 0, x1 = 0, y1 = 0;
  cairo_clip_extents(cr, &x0, &y0, &x1, &y1);
  int row = 0;
  for (double y = y0; y < y1 + dots.pitch; y += dots.pitch * 0.866, ++row)
    for (double x = x0 + (row % 2) * dots.pitch / 2; x < x1 + dots.pitch; x += dots.pitch) {
      cairo_new_sub_path(cr);
      cairo_arc(cr, x, y, dots.radius, 0, 2 * std::numbers::pi);
    }
  set_colour(cr, dots.dot);
  cairo_fill(cr);
  cairo_restore(cr);
}

struct Player {
  cairo_t* cr;
  bool vector = false; // text as glyphs that can be selected

  void operator()(const Fill& fill) const {
    cairo_new_path(cr);
    trace_path(cr, fill.path);
    cairo_set_fill_rule(cr, fill.even_odd ? CAIRO_FILL_RULE_EVEN_ODD : CAIRO_FILL_RULE_WINDING);
    std::visit(Overloaded{[&](const Colour& c) { set_colour(cr, c); cairo_fill(cr); },
                          [&](const RadialBlend& b) {
                            cairo_pattern_t* p = cairo_pattern_create_radial(b.centre.x, b.centre.y, b.inner, b.centre.x, b.centre.y, b.outer);
                            add_stops(p, b.stops);
                            fill_with_pattern(cr, p);
                          },
                          [&](const LinearBlend& b) {
                            cairo_pattern_t* p = cairo_pattern_create_linear(b.from.x, b.from.y, b.to.x, b.to.y);
                            add_stops(p, b.stops);
                            fill_with_pattern(cr, p);
                          },
                          [&](const Hatch& h) { fill_hatch(cr, h); }, [&](const Dots& d) { fill_dots(cr, d); }}, fill.paint);
    cairo_set_fill_rule(cr, CAIRO_FILL_RULE_WINDING);
  }

  void operator()(const Stroke& stroke) const {
    cairo_new_path(cr);
    trace_path(cr, stroke.path);
    cairo_set_line_width(cr, stroke.width);
    cairo_set_dash(cr, stroke.dashes.data(), static_cast<int>(stroke.dashes.size()), 0);
    set_colour(cr, stroke.colour);
    cairo_stroke(cr);
  }

  void operator()(const Text& text) const {
    const auto line = shape_line(text.text, text.bold);
    const double shift = text.anchor == Anchor::start ? 0 : text.anchor == Anchor::middle ? -0.5 : -1.0;
    const Vec2 origin{text.at.x + shift * line->width * text.size, text.at.y};
    cairo_save(cr);
    cairo_translate(cr, origin.x, origin.y);
    if (text.halo > 0) {
      trace_glyphs(*line, text.size);
      set_colour(cr, text.halo_colour);
      cairo_set_line_width(cr, text.halo);
      cairo_set_dash(cr, nullptr, 0, 0);
      cairo_stroke(cr);
    }
    set_colour(cr, text.colour);
    if (vector) show_glyphs(cr, *line, text.text, text.size);
    else {
      trace_glyphs(*line, text.size);
      cairo_fill(cr);
    }
    cairo_restore(cr);
  }

  void operator()(const Image& image) const {
    if (image.columns <= 0 || image.rows <= 0) return;
    cairo_surface_t* surface = cairo_image_surface_create(CAIRO_FORMAT_ARGB32, image.columns, image.rows);
    cairo_surface_flush(surface);
    unsigned char* data = cairo_image_surface_get_data(surface);
    const int stride = cairo_image_surface_get_stride(surface);
    for (int y = 0; y < image.rows; ++y)
      for (int x = 0; x < image.columns; ++x) {
        const std::uint8_t* p = &image.pixels[static_cast<std::size_t>((y * image.columns + x) * 4)];
        const auto mul = [&](std::uint8_t v) { return static_cast<std::uint32_t>(v) * p[3] / 255u; };
        const std::uint32_t argb = static_cast<std::uint32_t>(p[3]) << 24 | mul(p[0]) << 16 | mul(p[1]) << 8 | mul(p[2]);
        std::copy_n(reinterpret_cast<const unsigned char*>(&argb), 4, data + y * stride + x * 4);
      }
    cairo_surface_mark_dirty(surface);
    cairo_save(cr);
    cairo_translate(cr, image.at.x, image.at.y);
    cairo_scale(cr, image.size.x / image.columns, image.size.y / image.rows);
    cairo_set_source_surface(cr, surface, 0, 0);
    cairo_pattern_set_extend(cairo_get_source(cr), CAIRO_EXTEND_PAD); // no fading at the picture's edge
    cairo_rectangle(cr, 0, 0, image.columns, image.rows);
    cairo_fill(cr);
    cairo_restore(cr);
    cairo_surface_destroy(surface);
  }

  void operator()(const Group& group) const {
    cairo_save(cr);
    const cairo_matrix_t m{group.a, group.b, group.c, group.d, group.tx, group.ty};
    cairo_transform(cr, &m);
    if (group.clip) {
      cairo_new_path(cr);
      trace_path(cr, *group.clip);
      cairo_clip(cr);
    }
    if (group.opacity < 1) cairo_push_group(cr);
    for (const Mark& mark : group.marks) std::visit(*this, mark);
    if (group.opacity < 1) {
      cairo_pop_group_to_source(cr);
      cairo_paint_with_alpha(cr, group.opacity);
    }
    cairo_restore(cr);
  }

private:
  void trace_glyphs(const ShapedLine& line, double size) const {
    cairo_new_path(cr);
    for (const PlacedGlyph& g : line.glyphs) {
      cairo_save(cr);
      cairo_scale(cr, size, size);
      cairo_translate(cr, g.at.x, g.at.y);
      trace_path(cr, *g.shape);
      cairo_restore(cr);
    }
  }
};

void play(const Scene& scene, cairo_t* cr, Finish finish, bool with_ground) {
  const cairo_surface_type_t type = cairo_surface_get_type(cairo_get_target(cr));
  cairo_save(cr);
  cairo_set_antialias(cr, finish == Finish::sequence ? CAIRO_ANTIALIAS_FAST : CAIRO_ANTIALIAS_DEFAULT);
  cairo_set_line_cap(cr, CAIRO_LINE_CAP_ROUND);
  cairo_set_line_join(cr, CAIRO_LINE_JOIN_ROUND);
  if (with_ground && scene.ground.a > 0) {
    set_colour(cr, scene.ground);
    cairo_rectangle(cr, 0, 0, scene.width, scene.height);
    cairo_fill(cr);
  }
  const Player player{cr, type != CAIRO_SURFACE_TYPE_IMAGE};
  for (const Mark& mark : scene.marks) std::visit(player, mark);
  cairo_restore(cr);
}

} // namespace

void paint(const Scene& scene, cairo_t* cr, Finish finish) { play(scene, cr, finish, true); }

namespace {

/// cairo's premultiplied words to straight RGBA bytes, one row. Without alpha it is a plain swizzle.
void straighten(const std::uint32_t* from, std::uint8_t* to, int width, bool opaque) {
  if (opaque) {
    for (int x = 0; x < width; ++x) {
      const std::uint32_t p = from[x], q = 0xff000000u | (p & 0xffu) << 16 | (p & 0xff00u) | (p >> 16 & 0xffu);
      std::memcpy(to + 4 * static_cast<std::ptrdiff_t>(x), &q, 4); // little endian: R, G, B, A
    }
    return;
  }
  for (int x = 0; x < width; ++x, to += 4) {
    const std::uint32_t p = from[x], a = p >> 24;
    const auto straight = [a](std::uint32_t v) { return a == 0 ? std::uint8_t{0} : static_cast<std::uint8_t>(std::min(255u, (v * 255u + a / 2) / a)); };
    to[0] = straight(p >> 16 & 255u), to[1] = straight(p >> 8 & 255u), to[2] = straight(p & 255u), to[3] = static_cast<std::uint8_t>(a);
  }
}
static_assert(std::endian::native == std::endian::little, "the swizzle above writes words");

} // namespace

Pixels render(const Scene& scene, int width, int height, bool transparent, Finish finish) {
  Pixels out{width, height, {}};
  const bool opaque = !transparent && scene.ground.a >= 1;
  cairo_surface_t* surface = cairo_image_surface_create(opaque ? CAIRO_FORMAT_RGB24 : CAIRO_FORMAT_ARGB32, width, height);
  cairo_t* cr = cairo_create(surface);
  cairo_scale(cr, width / scene.width, height / scene.height);
  play(scene, cr, finish, !transparent);
  cairo_destroy(cr);
  cairo_surface_flush(surface);
  const unsigned char* data = cairo_image_surface_get_data(surface);
  const int stride = cairo_image_surface_get_stride(surface);
  out.rgba.resize(static_cast<std::size_t>(width) * static_cast<std::size_t>(height) * 4);
  for (int y = 0; y < height; ++y)
    straighten(reinterpret_cast<const std::uint32_t*>(data + static_cast<std::ptrdiff_t>(y) * stride), out.rgba.data() + static_cast<std::size_t>(y) * static_cast<std::size_t>(width) * 4, width, opaque);
  cairo_surface_destroy(surface);
  return out;
}

Result<std::string> pdf_of(std::span<const Scene> pages, const std::string& title) {
  std::string bytes;
  const auto collect = [](void* to, const unsigned char* data, unsigned length) {
    static_cast<std::string*>(to)->append(reinterpret_cast<const char*>(data), length);
    return CAIRO_STATUS_SUCCESS;
  };
  cairo_surface_t* surface = cairo_pdf_surface_create_for_stream(collect, &bytes, 595, 842);
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, title.c_str());
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATOR, "Mouthwright");
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE, ""); // no clock: the same pages, the same bytes
  cairo_t* cr = cairo_create(surface);
  for (const Scene& page : pages) {
    cairo_pdf_surface_set_size(surface, page.width, page.height);
    paint(page, cr);
    cairo_show_page(cr);
  }
  cairo_destroy(cr);
  cairo_surface_finish(surface);
  const cairo_status_t status = cairo_surface_status(surface);
  cairo_surface_destroy(surface);
  if (status != CAIRO_STATUS_SUCCESS) return Problem{ProblemKind::output, "the PDF could not be drawn", cairo_status_to_string(status), ""};
  return bytes;
}

} // namespace mw
