#pragma once

#include "scene/scene.h"

#include <string>
#include <string_view>
#include <vector>

namespace mw {

struct Rect {
  double x = 0, y = 0, width = 0, height = 0;
  [[nodiscard]] double right() const { return x + width; }
  [[nodiscard]] double bottom() const { return y + height; }
  [[nodiscard]] Vec2 centre() const { return {x + width / 2, y + height / 2}; }
  bool operator==(const Rect&) const = default;
};
inline Rect inset(Rect r, double by) { return {r.x + by, r.y + by, r.width - 2 * by, r.height - 2 * by}; }

struct TextLook {
  double size = 14;
  Colour colour{};
  bool bold = false;
  Anchor anchor = Anchor::start;
  double halo = 0;
  Colour halo_colour{};
};

struct ArrowLook {
  Colour colour{};
  double width = 2, head = 9;
  Colour casing{};
  double casing_width = 0; // 0 = none
};

/// Collects marks in drawing order; everything here only appends.
struct Canvas {
  std::vector<Mark> marks;

  void fill(MarkId id, Path path, Paint paint, bool even_odd = false);
  void stroke(MarkId id, Path path, Colour colour, double width, std::vector<double> dashes = {});
  void line(MarkId id, Vec2 from, Vec2 to, Colour colour, double width, std::vector<double> dashes = {});
  /// Rounded box; a fully transparent fill or edge is left out. The edge lies inside.
  void box(MarkId id, Rect rect, double radius, Colour fill, Colour edge = {0, 0, 0, 0}, double width = 1, std::vector<double> dashes = {});
  void circle(MarkId id, Vec2 centre, double radius, Colour fill, Colour edge = {0, 0, 0, 0}, double width = 1);
  /// Straight arrow with a filled head whose point is `to`.
  void arrow(MarkId id, Vec2 from, Vec2 to, const ArrowLook& look);
  void text(MarkId id, Vec2 baseline, std::string_view text, const TextLook& look);
  /// The same, with the middle of the line at `centre.y`.
  void text_middle(MarkId id, Vec2 centre, std::string_view text, const TextLook& look);
  /// Lines of at most `width`, line step 1.4 x size, top of the first at `top.y`; at most `most` lines (the last ends in an
  /// ellipsis when more follow). Gives the bottom y.
  double paragraph(MarkId id, Vec2 top, std::string_view text, const TextLook& look, double width, int most = 99);
  /// One line into `width`: smaller down to `least`, then cut.
  void fitted(MarkId id, Vec2 baseline, std::string_view text, TextLook look, double width, double least = 0.85);
  void add(std::vector<Mark> more);
  void add(Group group);
};

/// Baseline of a line whose middle is at y.
double middle_baseline(double y, double size, bool bold = false);

inline constexpr Colour clear{0, 0, 0, 0};

} // namespace mw
