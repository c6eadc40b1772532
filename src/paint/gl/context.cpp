#include "paint/gl/context.h"

#include <epoxy/egl.h>

#include <array>
#include <utility>

namespace mw::gl {
namespace {

Problem no_context(std::string where) {
  return {ProblemKind::missing, "this machine offers no OpenGL 3.3", std::move(where),
          "try installing Mesa's drivers (libgl1-mesa-dri); pictures can be written without it: mouthwright frames"};
}

} // namespace

Result<OffscreenContext> OffscreenContext::make() {
  if (!epoxy_has_egl()) return no_context("no EGL library");
  EGLDisplay display = EGL_NO_DISPLAY;
  if (epoxy_has_egl_extension(EGL_NO_DISPLAY, "EGL_MESA_platform_surfaceless"))
    display = eglGetPlatformDisplayEXT(EGL_PLATFORM_SURFACELESS_MESA, nullptr, nullptr);
  if (display == EGL_NO_DISPLAY) display = eglGetDisplay(EGL_DEFAULT_DISPLAY);
  if (display == EGL_NO_DISPLAY || !eglInitialize(display, nullptr, nullptr)) return no_context("no EGL display");
  eglBindAPI(EGL_OPENGL_API);
  const std::array<EGLint, 7> wish{EGL_SURFACE_TYPE, EGL_PBUFFER_BIT, EGL_RENDERABLE_TYPE, EGL_OPENGL_BIT,
                                   EGL_RED_SIZE, 8, EGL_NONE};
  EGLConfig config = nullptr;
  EGLint count = 0;
  if (!eglChooseConfig(display, wish.data(), &config, 1, &count) || count == 0) return no_context("no EGL configuration");
  const std::array<EGLint, 7> version{EGL_CONTEXT_MAJOR_VERSION, 3, EGL_CONTEXT_MINOR_VERSION, 3,
                                      EGL_CONTEXT_OPENGL_PROFILE_MASK, EGL_CONTEXT_OPENGL_CORE_PROFILE_BIT, EGL_NONE};
  EGLContext context = eglCreateContext(display, config, EGL_NO_CONTEXT, version.data());
  if (context == EGL_NO_CONTEXT) return no_context("no context");
  OffscreenContext out(display, context);
  if (!eglMakeCurrent(display, EGL_NO_SURFACE, EGL_NO_SURFACE, context)) return no_context("context refused");
  return out;
}

OffscreenContext::OffscreenContext(OffscreenContext&& other) noexcept
    : display_(std::exchange(other.display_, nullptr)), context_(std::exchange(other.context_, nullptr)) {}

OffscreenContext::~OffscreenContext() {
  if (!context_) return;
  eglMakeCurrent(display_, EGL_NO_SURFACE, EGL_NO_SURFACE, EGL_NO_CONTEXT);
  eglDestroyContext(display_, context_);
}

} // namespace mw::gl
