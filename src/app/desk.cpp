#include "app/desk.h"

#include <epoxy/gl.h>

#include <algorithm>

namespace mw::app {

Result<Desk> Desk::make() {
  auto painter = gl::Painter::make();
  if (!painter) return painter.error();
  return Desk(std::move(painter).value());
}

Result<Done> Desk::lay(const std::vector<Sheet>& sheets, int width, int height, Colour ground, bool fresh) {
  painted_ = 0;
  if (!base_ || base_->width() != width || base_->height() != height || !(ground == ground_)) {
    auto made = gl::Surface::make(width, height);
    if (!made) return made.error();
    base_ = std::move(made).value();
    fresh = true;
    ground_ = ground;
  }
  // sheets that go, come or move leave ground behind
  Arrangement arrangement;
  for (const Sheet& sheet : sheets)
    if (sheet.name != "over") arrangement.emplace_back(sheet.name, sheet.rect);
  if (arrangement != arrangement_) fresh = true, arrangement_ = std::move(arrangement);
  if (fresh) {
    laid_.clear();
    base_->bind();
    glClearColor(ground.r, ground.g, ground.b, 1);
    glClear(GL_COLOR_BUFFER_BIT);
  }
  const Sheet* over = nullptr;
  for (const Sheet& sheet : sheets) {
    if (sheet.name == "over") {
      over = &sheet;
      continue;
    }
    auto& laid = laid_[sheet.name];
    if (laid.rect == sheet.rect && laid.scene.ground == sheet.scene.ground && laid.scene.marks == sheet.scene.marks) continue;
    painter_.paint(sheet.scene, *base_, {sheet.rect.x, sheet.rect.y});
    laid = {sheet.rect, sheet.scene};
    ++painted_;
  }
  // what lies over the sheets goes straight into the window: on a software renderer another copy of the whole picture
  // costs more than the mouth
  base_->show();
  if (over && !over->scene.marks.empty()) painter_.paint(over->scene, gl::Surface::window(width, height), {0, 0});
  return Done{};
}

std::vector<std::uint8_t> read_window(int width, int height) {
  const auto stride = static_cast<std::size_t>(width) * 4;
  std::vector<std::uint8_t> pixels(stride * static_cast<std::size_t>(height));
  glBindFramebuffer(GL_FRAMEBUFFER, 0);
  glPixelStorei(GL_PACK_ALIGNMENT, 1);
  glReadPixels(0, 0, width, height, GL_RGBA, GL_UNSIGNED_BYTE, pixels.data());
  // the window's first row is its lowest
  for (std::size_t a = 0, b = static_cast<std::size_t>(height) - 1; a < b; ++a, --b)
    std::swap_ranges(pixels.begin() + static_cast<std::ptrdiff_t>(a * stride), pixels.begin() + static_cast<std::ptrdiff_t>((a + 1) * stride),
                     pixels.begin() + static_cast<std::ptrdiff_t>(b * stride));
  for (std::size_t i = 3; i < pixels.size(); i += 4) pixels[i] = 255;
  return pixels;
}

} // namespace mw::app
