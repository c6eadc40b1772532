#include "paint/gl/surface.h"

#include <epoxy/gl.h>

#include <algorithm>
#include <utility>

namespace mw::gl {

Result<Surface> Surface::make(int width, int height) {
  Surface out;
  out.width_ = width, out.height_ = height;
  glGenTextures(1, &out.texture_);
  glBindTexture(GL_TEXTURE_2D, out.texture_);
  glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA8, width, height, 0, GL_RGBA, GL_UNSIGNED_BYTE, nullptr);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_NEAREST);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_NEAREST);
  glGenFramebuffers(1, &out.frame_);
  glBindFramebuffer(GL_FRAMEBUFFER, out.frame_);
  glFramebufferTexture2D(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_TEXTURE_2D, out.texture_, 0);
  if (glCheckFramebufferStatus(GL_FRAMEBUFFER) != GL_FRAMEBUFFER_COMPLETE)
    return Problem{ProblemKind::missing, "the graphics driver cannot draw off screen", "", "try another driver"};
  return out;
}

Surface Surface::window(int width, int height) {
  Surface out;
  out.width_ = width, out.height_ = height;
  return out;
}

Surface::Surface(Surface&& other) noexcept
    : width_(other.width_), height_(other.height_), texture_(std::exchange(other.texture_, 0)),
      frame_(std::exchange(other.frame_, 0)) {}
Surface& Surface::operator=(Surface&& other) noexcept {
  std::swap(width_, other.width_);
  std::swap(height_, other.height_);
  std::swap(texture_, other.texture_);
  std::swap(frame_, other.frame_);
  return *this;
}
Surface::~Surface() {
  if (frame_) glDeleteFramebuffers(1, &frame_);
  if (texture_) glDeleteTextures(1, &texture_);
}

void Surface::bind() const {
  glBindFramebuffer(GL_FRAMEBUFFER, frame_);
  glViewport(0, 0, width_, height_);
}

std::vector<std::uint8_t> Surface::read_back() const {
  bind();
  std::vector<std::uint8_t> pixels(static_cast<std::size_t>(width_) * static_cast<std::size_t>(height_) * 4);
  glPixelStorei(GL_PACK_ALIGNMENT, 1);
  glReadPixels(0, 0, width_, height_, GL_RGBA, GL_UNSIGNED_BYTE, pixels.data());
  // the first row of a framebuffer is its lowest
  const auto stride = static_cast<std::ptrdiff_t>(width_) * 4;
  for (std::ptrdiff_t a = 0, b = height_ - 1; a < b; ++a, --b)
    std::swap_ranges(pixels.begin() + a * stride, pixels.begin() + (a + 1) * stride, pixels.begin() + b * stride);
  return pixels;
}

void Surface::show() const {
  glBindFramebuffer(GL_READ_FRAMEBUFFER, frame_);
  glBindFramebuffer(GL_DRAW_FRAMEBUFFER, 0);
  glBlitFramebuffer(0, 0, width_, height_, 0, 0, width_, height_, GL_COLOR_BUFFER_BIT, GL_NEAREST);
  glBindFramebuffer(GL_FRAMEBUFFER, 0);
}

} // namespace mw::gl
