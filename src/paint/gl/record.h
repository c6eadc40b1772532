#pragma once

#include "paint/gl/shapes.h"

#include <variant>

namespace mw::gl {

/// A corner of a quad: target pixel, step from there to its mask texel (far negative: solid), straight colour.
struct Corner {
  float x = 0, y = 0;
  std::int32_t mask_x = 0, mask_y = 0;
  std::array<std::uint8_t, 4> colour{};
};

/// The bytes of all masks of a picture, packed in shelves of one tile's height.
struct MaskSheet {
  static constexpr int width = 2048;
  std::vector<std::uint8_t> pixels; // width x height
  int x = 0, y = 0;                 // next free place
  [[nodiscard]] int height() const { return static_cast<int>(pixels.size()) / width; }
};

/// Quads of one paint. `paint` and `image` point into the scene.
struct Draw {
  std::size_t first_quad = 0, quads = 0;
  const Paint* paint = nullptr; // none: plain colour of the corners
  const Image* image = nullptr;
  Affine to_pixels;             // of the mark
  Vec2 low{}, high{};           // box its pattern is anchored to, pixels
  bool ground = false;          // solid opaque tiles with nothing under them: no mask, no blending
};
/// Everything up to the matching CloseLayer goes to a sheet of its own, then as a whole onto what lies below. The box
/// (target pixels, y down) holds all of it.
struct OpenLayer { int x = 0, y = 0, width = 0, height = 0; };
struct CloseLayer { std::size_t quad = 0; double opacity = 1; };
using Command = std::variant<Draw, OpenLayer, CloseLayer>;

/// A scene as lists for the graphics card.
struct Recording {
  std::vector<Corner> corners; // four a quad
  MaskSheet masks;
  std::vector<Command> commands;
};

/// Walks a scene: what later opaque marks hide wholly, tile by tile, is left out. Scaled by `scale` and moved to `offset` (whole pixels); shapes come from and stay in `shapes`.
Recording record(const Scene& scene, double scale, Vec2 offset, Shapes& shapes);

} // namespace mw::gl
