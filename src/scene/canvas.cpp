#include "scene/canvas.h"

#include "text/shaper.h"

#include <algorithm>
#include <iterator>

namespace mw {
namespace {

constexpr double line_step = 1.4; // of the size (visual design, section 3)

Path arrow_head(Vec2 tip, Vec2 along, double head) {
  const Vec2 across{-along.y, along.x};
  return line_path({tip, tip - along * head + across * (head * 0.58), tip - along * head - across * (head * 0.58)}, true);
}

} // namespace

void Canvas::fill(MarkId id, Path path, Paint paint, bool even_odd) {
  if (path.steps.empty()) return;
  marks.emplace_back(Fill{std::move(id), std::move(path), std::move(paint), even_odd});
}

void Canvas::stroke(MarkId id, Path path, Colour colour, double width, std::vector<double> dashes) {
  if (path.steps.empty()) return;
  marks.emplace_back(Stroke{std::move(id), std::move(path), colour, width, std::move(dashes)});
}

void Canvas::line(MarkId id, Vec2 from, Vec2 to, Colour colour, double width, std::vector<double> dashes) {
  stroke(std::move(id), line_path({from, to}, false), colour, width, std::move(dashes));
}

void Canvas::box(MarkId id, Rect r, double radius, Colour fill_colour, Colour edge, double width, std::vector<double> dashes) {
  if (r.width <= 0 || r.height <= 0) return;
  if (fill_colour.a > 0) fill(id, rounded_rectangle({r.x, r.y}, {r.width, r.height}, radius), fill_colour);
  const Rect in = inset(r, width / 2);
  if (edge.a > 0 && in.width > 0 && in.height > 0)
    stroke(std::move(id), rounded_rectangle({in.x, in.y}, {in.width, in.height}, std::max(radius - width / 2, 0.0)), edge, width, std::move(dashes));
}

void Canvas::circle(MarkId id, Vec2 centre, double radius, Colour fill_colour, Colour edge, double width) {
  if (fill_colour.a > 0) fill(id, circle_path(centre, radius), fill_colour);
  if (edge.a > 0) stroke(std::move(id), circle_path(centre, radius), edge, width);
}

void Canvas::arrow(MarkId id, Vec2 from, Vec2 to, const ArrowLook& look) {
  const double length = glm::distance(from, to);
  if (length < 1e-6) return;
  const Vec2 along = (to - from) / length, neck = to - along * (look.head * 0.8);
  const Path head = arrow_head(to, along, look.head);
  if (look.casing_width > 0) {
    line(id, from, neck, look.casing, look.width + 2 * look.casing_width);
    fill(id, head, look.casing);
    stroke(id, head, look.casing, 2 * look.casing_width);
  }
  line(id, from, neck, look.colour, look.width);
  fill(std::move(id), head, look.colour);
}

void Canvas::text(MarkId id, Vec2 baseline, std::string_view text, const TextLook& look) {
  if (text.empty()) return;
  marks.emplace_back(Text{std::move(id), std::string{text}, baseline, look.size, look.colour, look.anchor, look.bold, look.halo, look.halo_colour});
}

void Canvas::text_middle(MarkId id, Vec2 centre, std::string_view words, const TextLook& look) {
  text(std::move(id), {centre.x, middle_baseline(centre.y, look.size, look.bold)}, words, look);
}

double Canvas::paragraph(MarkId id, Vec2 top, std::string_view words, const TextLook& look, double width, int most) {
  std::vector<std::string> lines = wrap_text(words, look.size, look.bold, width);
  if (static_cast<int>(lines.size()) > most) {
    lines.resize(static_cast<std::size_t>(most));
    lines.back() = cut_text(lines.back() + " \u2026", look.size, look.bold, width);
  }
  double y = top.y + look.size * 1.1; // first baseline: ascent of a capital and a little air
  for (const std::string& each : lines) {
    text(id, {top.x, y}, each, look);
    y += line_step * look.size;
  }
  return y - look.size * (line_step - 0.3);
}

void Canvas::fitted(MarkId id, Vec2 baseline, std::string_view words, TextLook look, double width, double least) {
  look.size = fitting_size(words, look.size, look.bold, width, least);
  text(std::move(id), baseline, cut_text(words, look.size, look.bold, width * 1.001), look);
}

void Canvas::add(std::vector<Mark> more) {
  marks.insert(marks.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}

void Canvas::add(Group group) { marks.emplace_back(std::move(group)); }

double middle_baseline(double y, double size, bool bold) {
  const auto line = shape_line("x", bold); // ascent and descent are the font's
  return y + (line->ascent - line->descent) / 2 * size;
}

} // namespace mw
