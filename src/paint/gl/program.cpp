#include "paint/gl/program.h"

#include <array>
#include <utility>

namespace mw::gl {
namespace {

// A compiled shader, or the driver's words in `log`.
unsigned compile(unsigned kind, std::string_view body, std::string& log) {
  const unsigned id = glCreateShader(kind);
  const std::string text = "#version 330 core\n" + std::string(body);
  const char* source = text.c_str();
  glShaderSource(id, 1, &source, nullptr);
  glCompileShader(id);
  int good = 0;
  glGetShaderiv(id, GL_COMPILE_STATUS, &good);
  if (good) return id;
  std::array<char, 1024> words{};
  glGetShaderInfoLog(id, static_cast<int>(words.size()), nullptr, words.data());
  log += words.data();
  glDeleteShader(id);
  return 0;
}

Problem refused(const std::string& log) {
  return {ProblemKind::missing, "the graphics driver refuses a shader", log, "try another driver, or LIBGL_ALWAYS_SOFTWARE=1"};
}

} // namespace

Result<Program> Program::link(std::string_view vertex, std::string_view fragment) {
  std::string log;
  const unsigned v = compile(GL_VERTEX_SHADER, vertex, log), f = compile(GL_FRAGMENT_SHADER, fragment, log);
  if (!v || !f) return refused(log);
  Program program(glCreateProgram());
  glAttachShader(program.id_, v);
  glAttachShader(program.id_, f);
  glLinkProgram(program.id_);
  glDeleteShader(v);
  glDeleteShader(f);
  int good = 0;
  glGetProgramiv(program.id_, GL_LINK_STATUS, &good);
  if (!good) return refused("linking");
  return program;
}

Program::Program(Program&& other) noexcept : id_(std::exchange(other.id_, 0)), places_(std::move(other.places_)) {}
Program& Program::operator=(Program&& other) noexcept {
  std::swap(id_, other.id_);
  std::swap(places_, other.places_);
  return *this;
}
Program::~Program() {
  if (id_) glDeleteProgram(id_);
}

void Program::use() const { glUseProgram(id_); }
int Program::place(const std::string& name) const {
  const auto known = places_.find(name);
  if (known != places_.end()) return known->second;
  return places_[name] = glGetUniformLocation(id_, name.c_str());
}
void Program::set(const std::string& name, int value) const { glUniform1i(place(name), value); }
void Program::set(const std::string& name, double value) const { glUniform1f(place(name), static_cast<float>(value)); }
void Program::set(const std::string& name, Vec2 value) const {
  glUniform2f(place(name), static_cast<float>(value.x), static_cast<float>(value.y));
}
void Program::set(const std::string& name, Colour c) const { glUniform4f(place(name), c.r, c.g, c.b, c.a); }
void Program::set_affine(const std::string& name, double a, double b, double c, double d, double tx, double ty) const {
  const std::array<float, 6> columns{static_cast<float>(a), static_cast<float>(b),  static_cast<float>(c),
                                     static_cast<float>(d), static_cast<float>(tx), static_cast<float>(ty)};
  glUniformMatrix3x2fv(place(name), 1, GL_FALSE, columns.data());
}

} // namespace mw::gl
