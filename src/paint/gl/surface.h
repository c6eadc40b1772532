#pragma once

#include "base/result.h"

#include <cstdint>
#include <vector>

namespace mw::gl {

/// A picture (RGBA8) that painters draw into; move-only.
class Surface {
public:
  /// Problem (missing) when the driver cannot make it.
  static Result<Surface> make(int width, int height);
  /// The window's own framebuffer; it has no texture.
  static Surface window(int width, int height);
  Surface(Surface&& other) noexcept;
  Surface& operator=(Surface&& other) noexcept;
  ~Surface();

  void bind() const; // drawing goes here, with the whole viewport
  [[nodiscard]] int width() const { return width_; }
  [[nodiscard]] int height() const { return height_; }
  [[nodiscard]] unsigned texture() const { return texture_; }
  /// RGBA8, premultiplied, row by row from the top.
  [[nodiscard]] std::vector<std::uint8_t> read_back() const;
  /// Copies the picture into the window's own framebuffer of the same size.
  void show() const;

private:
  Surface() = default;
  int width_ = 0, height_ = 0;
  unsigned texture_ = 0, frame_ = 0;
};

} // namespace mw::gl
