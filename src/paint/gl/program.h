#pragma once

#include "base/result.h"
#include "scene/scene.h"

#include <epoxy/gl.h>

#include <map>
#include <string>
#include <string_view>

namespace mw::gl {

/// A linked pair of shaders; move-only. Uniforms are set by name on the program in use.
class Program {
public:
  /// GLSL 3.30 core without its version line; Problem (missing) with the driver's words.
  static Result<Program> link(std::string_view vertex, std::string_view fragment);
  Program(Program&& other) noexcept;
  Program& operator=(Program&& other) noexcept;
  ~Program();

  void use() const;
  void set(const std::string& name, int value) const;
  void set(const std::string& name, double value) const;
  void set(const std::string& name, Vec2 value) const;
  void set(const std::string& name, Colour value) const;
  /// 2 x 3, by columns.
  void set_affine(const std::string& name, double a, double b, double c, double d, double tx, double ty) const;

private:
  explicit Program(unsigned id) : id_(id) {}
  [[nodiscard]] int place(const std::string& name) const;
  unsigned id_ = 0;
  mutable std::map<std::string, int> places_;
};

} // namespace mw::gl
