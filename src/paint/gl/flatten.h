#pragma once

#include "base/vec.h"
#include "scene/scene.h"

#include <vector>

namespace mw::gl {

/// x' = a x + c y + tx, y' = b x + d y + ty.
struct Affine {
  double a = 1, b = 0, c = 0, d = 1, tx = 0, ty = 0;
  [[nodiscard]] Vec2 operator()(Vec2 p) const { return {a * p.x + c * p.y + tx, b * p.x + d * p.y + ty}; }
  /// Square root of the area factor.
  [[nodiscard]] double scale() const;
};
/// First `inner`, then `outer`.
Affine then(const Affine& inner, const Affine& outer);
/// The inverse; the identity for a collapsed one.
Affine inverse(const Affine& affine);

/// One polyline in pixels.
struct Ring {
  Polyline points;
  bool closed = false;
};
using Rings = std::vector<Ring>;

/// Path to polylines in pixels; a cubic is cut by its curvature so that no piece strays more than 0.1 px from it.
Rings flatten(const Path& path, const Affine& to_pixels);

} // namespace mw::gl
