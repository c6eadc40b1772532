#pragma once

#include "base/curve.h"

#include <array>
#include <cstdint>
#include <span>

namespace mw {

/// A point closer than this (mm) to a wall, on its airway side, may feel the contact law; see contact_softness.
inline constexpr double contact_softness = 0.9;

/// Nearest segment found so far.
struct Candidate {
  double distance2 = 1e300;
  std::size_t segment = 0;
  double along = 0;
};
/// Tries the segments [first, last) of a line; keeps the earlier one of two that are equally near.
inline void try_segments(std::span<const Vec2> line, Vec2 p, std::size_t first, std::size_t last, Candidate& best) {
  for (std::size_t i = first; i < last; ++i) {
    const Vec2 ab = line[i + 1] - line[i], ap = p - line[i];
    const double dot = ap.x * ab.x + ap.y * ab.y, l2 = ab.x * ab.x + ab.y * ab.y;
    const double t = dot <= 0 ? 0.0 : dot >= l2 ? 1.0 : dot / l2;
    const Vec2 e(ap.x - t * ab.x, ap.y - t * ab.y);
    const double d2 = e.x * e.x + e.y * e.y;
    if (d2 < best.distance2 || (d2 == best.distance2 && i < best.segment)) best = {d2, i, t};
  }
}
/// Signed distance, normal and foot of a found candidate, by the rules of nearest_on.
Nearest resolve(std::span<const Vec2> line, Vec2 p, const Candidate& found, double side);

/// Boxes round every eight segments of a moving line: a search skips those that cannot be nearer. Gives what nearest_on
/// gives, faster. Fixed memory; at most 320 points. Looks at the line it was given: that must stay.
class BoxedLine {
public:
  /// `first`: segments before it are left out (they are searched elsewhere).
  void set(std::span<const Vec2> line, std::size_t first = 0);
  void search(Vec2 p, Candidate& best) const;
  /// Nearest point within `reach` mm; distance 1e150 when all is farther.
  [[nodiscard]] Nearest nearest(Vec2 p, double side, double reach) const;
  /// True when `p` lies outside the box round everything by more than `margin`.
  [[nodiscard]] bool outside(Vec2 p, double margin) const;
  /// True when `p` lies in front of or below everything by more than `margin`.
  [[nodiscard]] bool before_or_below(Vec2 p, double margin) const;

private:
  struct Box {
    Vec2 low{}, high{};
    std::uint32_t first = 0, last = 0;
  };
  std::span<const Vec2> line_;
  std::array<Box, 40> boxes_{};
  std::size_t count_ = 0;
  mutable std::size_t hint_ = 0; // box of the last hit: queries run along a curve, so the next hit is near it
  Vec2 low_{}, high_{};
};

/// A wall that never moves in its frame: 1 mm cells know the few segments that can be nearest, and whether the whole
/// cell lies beyond the reach of the contact law on the airway side.
class FixedWall {
public:
  FixedWall() = default;
  /// Only the first `segments` of the line (0: all); side as in nearest_on.
  FixedWall(Polyline line, double side, std::size_t segments = 0);
  [[nodiscard]] Nearest nearest(Vec2 p) const;
  void search(Vec2 p, Candidate& best) const;
  /// True only where no contact is possible: beyond the reach of the contact law, or 20 mm and more from the wall on
  /// either side; false says nothing.
  [[nodiscard]] bool far(Vec2 p) const;
  [[nodiscard]] const Polyline& line() const { return line_; }

private:
  struct Cell {
    std::uint8_t first = 0, last = 0;
    bool far = false;
  };
  [[nodiscard]] const Cell* cell(Vec2 p) const;
  Polyline line_;
  double side_ = 1;
  std::size_t segments_ = 0;
  Vec2 corner_{};
  int columns_ = 0, rows_ = 0;
  std::vector<Cell> cells_;
};

} // namespace mw
