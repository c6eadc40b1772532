#pragma once

#include "paint/gl/coverage.h"

#include <map>
#include <memory>
#include <span>

namespace mw::gl {

/// A shape ready to draw: its coverage and the pixel box that its paint is anchored to.
struct Shape {
  Coverage coverage;
  Vec2 low{}, high{};
  std::uint64_t key = 0; // stands for all it was made from
};

/// A number that stands for what a shape was made from; equal makings give equal keys.
class Key {
public:
  Key& add(double value);
  Key& add(const Path& path);
  Key& add(const Affine& affine);
  Key& add(std::string_view text);
  [[nodiscard]] std::uint64_t value() const { return value_; }

private:
  Key& mix(std::uint64_t bits);
  std::uint64_t value_ = 0x9e3779b97f4a7c15u;
};

/// Coverages of marks, kept from scene to scene: what has not changed is not computed again. What no scene asked for
/// in the last `patience` or so is forgotten.
class Shapes {
public:
  /// Starts a scene of so many pixels.
  void begin(int width, int height);
  /// Forgets what was not used for a while.
  void end();

  using Shared = std::shared_ptr<const Shape>;
  Shared fill(const Path& path, const Affine& to_pixels, Winding winding, const Shared& clip);
  Shared stroke(const Path& path, const Affine& to_pixels, double width, std::span<const double> dashes, const Shared& clip);
  /// Strokes of one path and one translucent paint over each other (a soft shadow), as one coverage.
  Shared strokes(const Path& path, const Affine& to_pixels, std::span<const double> widths, double alpha, const Shared& clip);
  /// Letters of a shaped line with its baseline start at the origin of `to_pixels`; `halo` > 0 gives their casing.
  Shared text(const Text& text, const Affine& to_pixels, double halo, const Shared& clip);

  [[nodiscard]] std::size_t made() const { return made_; } // since begin()

private:
  struct Entry { Shared shape; std::uint64_t last_used = 0; };
  template <typename Make> Shared find(Key key, Make make);
  Shared clipped(const Shared& shape, const Shared& clip);
  Shape finish(const Rings& rings, Winding winding);

  static constexpr std::uint64_t patience = 16;
  Rasteriser rasteriser_;
  std::map<std::uint64_t, Entry> entries_;
  std::uint64_t scene_ = 0;
  std::size_t made_ = 0;
  int width_ = 0, height_ = 0;
};

} // namespace mw::gl
