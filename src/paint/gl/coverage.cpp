#include "paint/gl/coverage.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstring>
#include <map>

namespace mw::gl {
namespace {

std::uint8_t to_byte(float covered, Winding winding) {
  float v = std::abs(covered);
  if (winding == Winding::even_odd) {
    v = std::fmod(v, 2.0f);
    if (v > 1) v = 2 - v;
  }
  return static_cast<std::uint8_t>(std::min(v, 1.0f) * 255.0f + 0.5f);
}

bool same_run(const Coverage& out, int x, int y, bool solid) {
  if (out.runs.empty()) return false;
  const Run& last = out.runs.back();
  return last.y == y && last.x + last.count == x && (last.mask < 0) == solid;
}

// Appends tiles; neighbours of one nature become one run.
void append(Coverage& out, int x, int y, int count, bool solid) {
  if (same_run(out, x, y, solid)) {
    out.runs.back().count += count;
    return;
  }
  out.runs.push_back({x, y, count, solid ? -1 : static_cast<std::int64_t>(out.bytes.size())});
}

// Tiles that no edge crosses: each row has one value all along.
void append_gap(Coverage& out, int x, int y, int count, const std::array<std::uint8_t, tile>& rows) {
  const auto all = [&](std::uint8_t v) { return std::all_of(rows.begin(), rows.end(), [&](auto r) { return r == v; }); };
  if (count <= 0 || all(0)) return;
  if (all(255)) return append(out, x, y, count, true);
  append(out, x, y, count, false);
  for (int i = 0; i < count; ++i)
    for (const auto row : rows) out.bytes.insert(out.bytes.end(), tile, row);
}

} // namespace

Coverage Rasteriser::cover(const Rings& rings, Winding winding, int width, int height) {
  width_ = width, height_ = height;
  columns_ = (width + tile - 1) / tile + 1; // one more: steps carried over the right edge
  bands_ = (height + tile - 1) / tile;
  index_.assign(static_cast<std::size_t>(columns_) * static_cast<std::size_t>(bands_), -1);
  tiles_.clear();
  for (const auto& ring : rings) {
    const std::size_t n = ring.points.size();
    if (n < 2) continue;
    for (std::size_t i = 0; i < n; ++i) add_edge(ring.points[i], ring.points[i + 1 == n ? 0 : i + 1]);
  }
  Coverage out;
  for (int band = 0; band < bands_; ++band) emit_band(band, winding, out);
  return out;
}

// Cuts an edge at the borders, then row by row. What lies left of the picture still counts, moved onto its edge.
void Rasteriser::add_edge(Vec2 a, Vec2 b) {
  if (a.y == b.y || std::max(a.y, b.y) <= 0 || std::min(a.y, b.y) >= height_) return;
  if (!std::isfinite(a.x + a.y + b.x + b.y)) return;
  const double slope = (b.x - a.x) / (b.y - a.y);
  const double sign = b.y > a.y ? 1 : -1;
  Vec2 top = b.y > a.y ? a : b, bottom = b.y > a.y ? b : a;
  if (top.y < 0) top = {top.x + (0 - top.y) * slope, 0};
  if (bottom.y > height_) bottom = {bottom.x + (height_ - bottom.y) * slope, static_cast<double>(height_)};
  double y = top.y, x = top.x;
  for (int row = static_cast<int>(top.y); row < height_ && y < bottom.y; ++row) {
    const double next_y = std::min(bottom.y, row + 1.0);
    const double next_x = next_y == bottom.y ? bottom.x : top.x + (next_y - top.y) * slope;
    add_in_row(row, x, next_x, sign * (next_y - y));
    y = next_y, x = next_x;
  }
}

void Rasteriser::add_in_row(int row, double xa, double xb, double dy) {
  const double left = std::min(xa, xb), right = std::max(xa, xb);
  if (left >= width_) return;
  if (right <= 0) return add_cell(0, row, dy, dy);
  const int first = static_cast<int>(std::floor(left)), last = static_cast<int>(std::floor(right));
  if (first == last || right - left < 1e-9) {
    if (first < 0) return add_cell(0, row, dy, dy);
    return add_cell(first, row, dy, dy * (first + 1 - 0.5 * (left + right)));
  }
  // several pixels of one row: each takes its share of the height
  const double per_x = dy / (right - left);
  double x = std::max(left, 0.0);
  if (left < 0) add_cell(0, row, per_x * (0 - left), per_x * (0 - left));
  while (x < right && x < width_) {
    const double pixel = std::floor(x), next = std::min(pixel + 1, right);
    const double part = per_x * (next - x);
    add_cell(static_cast<int>(pixel), row, part, part * (pixel + 1 - 0.5 * (x + next)));
    x = next;
  }
}

void Rasteriser::add_cell(int x, int y, double cover, double area) {
  if (x >= width_) return;
  int& slot = index_[static_cast<std::size_t>(y / tile) * static_cast<std::size_t>(columns_) +
                     static_cast<std::size_t>(x / tile)];
  if (slot < 0) {
    slot = static_cast<int>(tiles_.size());
    tiles_.emplace_back();
  }
  auto& steps = tiles_[static_cast<std::size_t>(slot)].steps;
  steps[x % tile][y % tile] += static_cast<float>(area);
  steps[x % tile + 1][y % tile] += static_cast<float>(cover - area);
}

void Rasteriser::emit_band(int band, Winding winding, Coverage& out) {
  std::array<float, tile> sum{};
  std::array<std::uint8_t, tile> rows{};
  int next = 0;
  const int* index = &index_[static_cast<std::size_t>(band) * static_cast<std::size_t>(columns_)];
  for (int column = 0; column < columns_ - 1; ++column) {
    if (index[column] < 0) continue;
    append_gap(out, next, band, column - next, rows);
    const auto& steps = tiles_[static_cast<std::size_t>(index[column])].steps;
    append(out, column, band, 1, false);
    const std::size_t at = out.bytes.size();
    out.bytes.resize(at + tile * tile);
    for (int x = 0; x < tile; ++x)
      for (int y = 0; y < tile; ++y) {
        sum[static_cast<std::size_t>(y)] += steps[x][y];
        out.bytes[at + static_cast<std::size_t>(y * tile + x)] = to_byte(sum[static_cast<std::size_t>(y)], winding);
      }
    for (std::size_t y = 0; y < tile; ++y) {
      sum[y] += steps[tile][y];
      if (std::abs(sum[y]) < 1e-4f) sum[y] = 0; // rounding of many small shares
      rows[y] = to_byte(sum[y], winding);
    }
    next = column + 1;
  }
  append_gap(out, next, band, columns_ - 1 - next, rows);
}

namespace {

// The bytes of one tile of a run; nothing for a solid one.
const std::uint8_t* tile_bytes(const Coverage& c, const Run& run, int x) {
  return run.mask < 0 ? nullptr : c.bytes.data() + run.mask + static_cast<std::ptrdiff_t>(x - run.x) * tile * tile;
}

void append_product(Coverage& out, int x, int y, const std::uint8_t* a, const std::uint8_t* b) {
  if (!a && !b) return append(out, x, y, 1, true);
  append(out, x, y, 1, false);
  const std::size_t at = out.bytes.size();
  out.bytes.resize(at + tile * tile);
  for (std::size_t i = 0; i < tile * tile; ++i) {
    const int product = (a ? a[i] : 255) * (b ? b[i] : 255);
    out.bytes[at + i] = static_cast<std::uint8_t>((product + 127) / 255);
  }
}

} // namespace

Coverage intersect(const Coverage& a, const Coverage& b) {
  Coverage out;
  std::size_t i = 0, j = 0;
  while (i < a.runs.size() && j < b.runs.size()) {
    const Run &ra = a.runs[i], &rb = b.runs[j];
    if (ra.y != rb.y) {
      ra.y < rb.y ? ++i : ++j;
      continue;
    }
    const int from = std::max(ra.x, rb.x), to = std::min(ra.x + ra.count, rb.x + rb.count);
    for (int x = from; x < to; ++x) append_product(out, x, ra.y, tile_bytes(a, ra, x), tile_bytes(b, rb, x));
    ra.x + ra.count < rb.x + rb.count ? ++i : ++j;
  }
  return out;
}

Coverage pile(std::span<const Coverage* const> layers, double alpha) {
  // what is left of the ground, tile by tile
  std::map<std::pair<int, int>, std::array<float, tile * tile>> left;
  const auto a = static_cast<float>(alpha);
  for (const Coverage* layer : layers)
    for (const Run& run : layer->runs)
      for (int x = run.x; x < run.x + run.count; ++x) {
        const auto [entry, is_new] = left.try_emplace({run.y, x});
        auto& ground = entry->second;
        if (is_new) ground.fill(1);
        const std::uint8_t* bytes = tile_bytes(*layer, run, x);
        for (std::size_t i = 0; i < ground.size(); ++i) ground[i] *= bytes ? 1 - a * static_cast<float>(bytes[i]) / 255 : 1 - a;
      }
  Coverage out;
  for (const auto& [at, ground] : left) {
    append(out, at.second, at.first, 1, false);
    for (const float g : ground) out.bytes.push_back(static_cast<std::uint8_t>((1 - g) * 255 + 0.5f));
  }
  return out;
}

} // namespace mw::gl
