#pragma once

#include "base/result.h"

namespace mw::gl {

/// An OpenGL 3.3 context without a window, current in this thread while it lives; move-only.
class OffscreenContext {
public:
  /// Problem (missing) when the machine offers none.
  static Result<OffscreenContext> make();
  OffscreenContext(OffscreenContext&& other) noexcept;
  OffscreenContext& operator=(OffscreenContext&&) = delete;
  ~OffscreenContext();

private:
  OffscreenContext(void* display, void* context) : display_(display), context_(context) {}
  void* display_ = nullptr;
  void* context_ = nullptr;
};

} // namespace mw::gl
