#include "paint/gl/flatten.h"

#include <algorithm>
#include <cmath>

namespace mw::gl {
namespace {

constexpr double tolerance_px = 0.1; // a tenth of a pixel is below what 255 grey levels of an edge can show

// Number of equal pieces of a cubic: the second difference bounds the distance of chord and curve (Wang's formula).
int pieces(Vec2 p0, Vec2 c1, Vec2 c2, Vec2 p3) {
  const double bend = std::max(glm::length(p0 - 2.0 * c1 + c2), glm::length(c1 - 2.0 * c2 + p3));
  return std::clamp(static_cast<int>(std::ceil(std::sqrt(0.75 * bend / tolerance_px))), 1, 200);
}

void add_cubic(Polyline& line, Vec2 c1, Vec2 c2, Vec2 to) {
  const Vec2 from = line.back();
  const int n = pieces(from, c1, c2, to);
  for (int i = 1; i <= n; ++i) {
    const double t = static_cast<double>(i) / n, s = 1 - t;
    line.push_back(s * s * s * from + 3 * s * s * t * c1 + 3 * s * t * t * c2 + t * t * t * to);
  }
}

struct Flattener {
  const Affine& to_pixels;
  Rings rings;

  Ring& open() {
    if (rings.empty()) rings.push_back({{Vec2{0, 0}}, false});
    // after a close, the pen stands at the start of the ring that was closed
    if (rings.back().closed) {
      const Vec2 start = rings.back().points.front();
      rings.push_back({{start}, false});
    }
    return rings.back();
  }
  void operator()(const Path::Move& step) { rings.push_back({{to_pixels(step.to)}, false}); }
  void operator()(const Path::Line& step) { open().points.push_back(to_pixels(step.to)); }
  void operator()(const Path::Cubic& step) {
    add_cubic(open().points, to_pixels(step.c1), to_pixels(step.c2), to_pixels(step.to));
  }
  void operator()(const Path::Close&) { open().closed = true; }
};

} // namespace

double Affine::scale() const { return std::sqrt(std::abs(a * d - b * c)); }

Affine then(const Affine& inner, const Affine& outer) {
  const Vec2 origin = outer({inner.tx, inner.ty});
  return {outer.a * inner.a + outer.c * inner.b, outer.b * inner.a + outer.d * inner.b,
          outer.a * inner.c + outer.c * inner.d, outer.b * inner.c + outer.d * inner.d, origin.x, origin.y};
}

Affine inverse(const Affine& m) {
  const double det = m.a * m.d - m.b * m.c;
  if (det == 0) return {};
  const double a = m.d / det, b = -m.b / det, c = -m.c / det, d = m.a / det;
  return {a, b, c, d, -(a * m.tx + c * m.ty), -(b * m.tx + d * m.ty)};
}

Rings flatten(const Path& path, const Affine& to_pixels) {
  Flattener flattener{to_pixels, {}};
  for (const auto& step : path.steps) std::visit(flattener, step);
  return std::move(flattener.rings);
}

} // namespace mw::gl
