#pragma once

#include "base/path.h"
#include "base/vec.h"

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace mw {

/// sRGB, 0..1, straight alpha.
struct Colour {
  float r = 0, g = 0, b = 0, a = 1;
  bool operator==(const Colour&) const = default;
};

/// Smooth path through points (Catmull-Rom tangents as cubics; a turn of more than 40 degrees stays a corner) and
/// straight polylines. Units of paths in a scene: scene units (px or pt). Fewer than two points give an empty path.
Path smooth_path(const Polyline& points, bool closed);
Path line_path(const Polyline& points, bool closed);
/// Corners of `radius`, at most half of the shorter side.
Path rounded_rectangle(Vec2 top_left, Vec2 size, double radius);
Path circle_path(Vec2 centre, double radius);
/// `a` with the steps of `b` behind it.
Path joined(Path a, const Path& b);
/// Low and high corner of a path's control points; zeros for an empty path.
std::pair<Vec2, Vec2> bounds(const Path& path);
/// Points that stay within `tolerance` of the line (Douglas-Peucker); both ends kept.
Polyline simplified(const Polyline& points, double tolerance);

struct RadialBlend { // circle from `inner` to `outer` radius; stops 0..1
  Vec2 centre;
  double inner = 0, outer = 1;
  std::vector<std::pair<double, Colour>> stops;
  bool operator==(const RadialBlend&) const = default;
};
struct LinearBlend {
  Vec2 from, to;
  std::vector<std::pair<double, Colour>> stops;
  bool operator==(const LinearBlend&) const = default;
};
struct Hatch { // parallel lines over `ground`; crossed adds the second family
  Colour line, ground;
  double angle_deg = -38, pitch = 4, width = 1.25;
  bool crossed = false, broken = false;
  bool operator==(const Hatch&) const = default;
};
struct Dots {
  Colour dot, ground;
  double pitch = 4, radius = 1;
  bool operator==(const Dots&) const = default;
};
using Paint = std::variant<Colour, RadialBlend, LinearBlend, Hatch, Dots>;

struct MarkId { std::string role, id; bool operator==(const MarkId&) const = default; }; // "tongue", "clash-3"

struct Fill {
  MarkId mark;
  Path path;
  Paint paint;
  bool even_odd = false;
  bool operator==(const Fill&) const = default;
};
struct Stroke {
  MarkId mark;
  Path path;
  Colour colour;
  double width = 1;
  std::vector<double> dashes{};
  bool operator==(const Stroke&) const = default;
};
enum class Anchor { start, middle, end };
struct Text {
  MarkId mark;
  std::string text; // UTF-8; shaped by the text layer (two-storey a)
  Vec2 at;          // baseline
  double size = 14;
  Colour colour;
  Anchor anchor = Anchor::start;
  bool bold = false;
  double halo = 0;  // width of a casing under the glyphs, 0 = none
  Colour halo_colour{};
  bool operator==(const Text&) const = default;
};
struct Image { // RGBA8, row by row
  MarkId mark;
  Vec2 at, size;
  int columns = 0, rows = 0;
  std::vector<std::uint8_t> pixels;
  bool operator==(const Image&) const = default;
};
struct Group;
using Mark = std::variant<Fill, Stroke, Text, Image, Group>;
struct Group {
  MarkId mark;
  double a = 1, b = 0, c = 0, d = 1, tx = 0, ty = 0; // x' = a x + c y + tx, y' = b x + d y + ty
  std::optional<Path> clip{};
  double opacity = 1; // of the group as a whole
  std::vector<Mark> marks{};
  bool operator==(const Group&) const;
};

/// A picture: the one display list that every painter plays. Origin top left, y down.
struct Scene {
  double width = 0, height = 0;
  Colour ground{1, 1, 1, 1};
  std::vector<Mark> marks;
};

/// The scene as indented text, one mark a line (role, id, kind, extent): what goldens and people read.
std::string dump(const Scene& scene);

} // namespace mw
