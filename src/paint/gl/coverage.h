#pragma once

#include "paint/gl/flatten.h"

#include <cstdint>
#include <span>
#include <vector>

namespace mw::gl {

/// Side of a tile of coverage, pixels.
inline constexpr int tile = 8;

/// A row of equal-natured tiles: wholly inside (`mask` < 0) or with 64 coverage bytes a tile from `mask` on, tile after
/// tile, each row by row. `x` and `y` count tiles.
struct Run {
  int x = 0, y = 0, count = 0;
  std::int64_t mask = -1;
};

/// Which part of each pixel a shape covers, exact to a 255th: runs of tiles in order of y, then x; empty tiles are left out.
struct Coverage {
  std::vector<Run> runs;
  std::vector<std::uint8_t> bytes;
};

enum class Winding { non_zero, even_odd };

/// Exact area coverage of polygons on a pixel grid, found edge by edge in sparse tiles: an edge touches only the tiles
/// it crosses, the inside follows by summing along the row. Keeps its working memory; one per thread.
class Rasteriser {
public:
  /// Coverage of closed rings (last point joins the first) clipped to 0..width x 0..height pixels.
  Coverage cover(const Rings& rings, Winding winding, int width, int height);

private:
  struct Tile { float steps[tile + 1][tile]; }; // [column][row]: change of coverage at this column; last: carried on
  void add_edge(Vec2 a, Vec2 b);
  void add_in_row(int row, double xa, double xb, double dy);
  void add_cell(int x, int y, double cover, double area);
  void emit_band(int band, Winding winding, Coverage& out);

  std::vector<int> index_;
  std::vector<Tile> tiles_;
  int columns_ = 0, bands_ = 0, width_ = 0, height_ = 0;
};

/// What layers of one translucent paint, laid over each other, cover together: 1 - product of (1 - alpha x coverage).
Coverage pile(std::span<const Coverage* const> layers, double alpha);
/// Product of two coverages.
Coverage intersect(const Coverage& a, const Coverage& b);

} // namespace mw::gl
