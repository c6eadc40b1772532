#pragma once

#include "base/vec.h"

#include <variant>
#include <vector>

namespace mw {

/// A path of lines and cubics; cubics are kept until a painter flattens them. Units: whatever its owner says.
struct Path {
  struct Move { Vec2 to; bool operator==(const Move&) const = default; };
  struct Line { Vec2 to; bool operator==(const Line&) const = default; };
  struct Cubic { Vec2 c1, c2, to; bool operator==(const Cubic&) const = default; };
  struct Close { bool operator==(const Close&) const = default; };
  std::vector<std::variant<Move, Line, Cubic, Close>> steps;
  bool operator==(const Path&) const = default;
};

/// The visitor of a variant, one lambda an alternative; a missing one does not compile.
template <typename... F> struct Overloaded : F... { using F::operator()...; };
template <typename... F> Overloaded(F...) -> Overloaded<F...>;

} // namespace mw
