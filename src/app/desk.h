#pragma once

#include "app/ui.h"
#include "paint/gl/painter.h"

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace mw::app {

/// Keeps the picture of the window and repaints only the sheets that changed. Needs a current OpenGL context.
class Desk {
public:
  static Result<Desk> make();
  /// Lays the sheets (the one called "over" on top of all) and shows them in the window's framebuffer. `fresh`: paint all.
  Result<Done> lay(const std::vector<Sheet>& sheets, int width, int height, Colour ground, bool fresh);
  [[nodiscard]] int painted() const { return painted_; } // sheets in the last lay()

private:
  explicit Desk(gl::Painter painter) : painter_(std::move(painter)) {}
  struct Laid { Rect rect; Scene scene; };
  using Arrangement = std::vector<std::pair<std::string, Rect>>;
  Arrangement arrangement_;
  gl::Painter painter_;
  std::optional<gl::Surface> base_;
  std::map<std::string, Laid> laid_;
  Colour ground_{};
  int painted_ = 0;
};

/// What stands in the window's framebuffer: RGBA8, rows from the top.
std::vector<std::uint8_t> read_window(int width, int height);

} // namespace mw::app
