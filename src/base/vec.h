#pragma once

#include <glm/geometric.hpp>
#include <glm/vec2.hpp>
#include <vector>

namespace mw {

/// A point or direction of the section, millimetres (origin: edge of the upper central incisor, x back, y up) unless
/// a name says otherwise.
using Vec2 = glm::dvec2;
using Polyline = std::vector<Vec2>;

/// z component of the cross product; > 0 when b lies to the left of a.
inline double cross(Vec2 a, Vec2 b) { return a.x * b.y - a.y * b.x; }

} // namespace mw
