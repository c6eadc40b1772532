#include "paint/gl/painter.h"

#include <embedded/shaders.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <string>
#include <utility>

namespace mw::gl {
namespace {

const void* at_byte(std::size_t offset) { return reinterpret_cast<const void*>(offset); } // as glVertexAttribPointer wants it

// Affine from fragments of the target (first row the lowest) to units of the mark.
Affine to_mark(const Affine& to_pixels, Vec2 offset, double height) {
  return inverse(then(then(to_pixels, {1, 0, 0, 1, offset.x, offset.y}), {1, 0, 0, -1, 0, height}));
}

void set_affine(const Program& program, const Affine& m) { program.set_affine("to_scene", m.a, m.b, m.c, m.d, m.tx, m.ty); }

std::vector<std::uint8_t> premultiplied(std::vector<std::uint8_t> pixels) {
  for (std::size_t i = 0; i + 3 < pixels.size(); i += 4)
    for (std::size_t c = 0; c < 3; ++c) pixels[i + c] = static_cast<std::uint8_t>((pixels[i + c] * pixels[i + 3] + 127) / 255);
  return pixels;
}

void set_stops(const Program& program, const std::vector<std::pair<double, Colour>>& stops) {
  constexpr std::size_t most = 8; // as in blend.frag
  const std::size_t n = std::min(stops.size(), most);
  program.set("count", static_cast<int>(n));
  for (std::size_t i = 0; i < n; ++i) {
    const std::string index = "[" + std::to_string(i) + "]";
    program.set("offsets" + index, stops[i].first);
    program.set("colours" + index, stops[i].second);
  }
}

// Empties the part of the bound layer that will be drawn on; the scissor of the scene stays as it was.
void clear_box(const OpenLayer& box, int target_height) {
  std::array<GLint, 4> kept{};
  glGetIntegerv(GL_SCISSOR_BOX, kept.data());
  glScissor(box.x, target_height - box.y - box.height, box.width, box.height);
  glClearColor(0, 0, 0, 0);
  glClear(GL_COLOR_BUFFER_BIT);
  glScissor(kept[0], kept[1], kept[2], kept[3]);
}

} // namespace

Result<Painter> Painter::make() {
  if (epoxy_gl_version() < 33)
    return Problem{ProblemKind::missing, "the graphics driver offers OpenGL " + std::to_string(epoxy_gl_version() / 10) + "." +
                   std::to_string(epoxy_gl_version() % 10) + ", not 3.3", "", "try LIBGL_ALWAYS_SOFTWARE=1"};
  Painter out;
  using namespace embedded::shaders;
  for (const auto body : {plain_frag, ground_frag, blend_frag, pattern_frag, picture_frag}) {
    auto program = Program::link(quad_vert, std::string(covered_glsl) + std::string(body));
    if (!program) return program.error();
    out.programs_.push_back(std::move(program).value());
  }
  glGenVertexArrays(1, &out.array_);
  glGenBuffers(1, &out.corners_);
  glGenBuffers(1, &out.indices_);
  for (unsigned* texture : {&out.masks_, &out.picture_}) {
    glGenTextures(1, texture);
    glBindTexture(GL_TEXTURE_2D, *texture);
    const int smooth = texture == &out.picture_ ? GL_LINEAR : GL_NEAREST;
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, smooth);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, smooth);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_S, GL_CLAMP_TO_EDGE);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_T, GL_CLAMP_TO_EDGE);
  }
  glBindVertexArray(out.array_);
  glBindBuffer(GL_ARRAY_BUFFER, out.corners_);
  glBindBuffer(GL_ELEMENT_ARRAY_BUFFER, out.indices_);
  for (unsigned i = 0; i < 3; ++i) glEnableVertexAttribArray(i);
  glVertexAttribPointer(0, 2, GL_FLOAT, GL_FALSE, sizeof(Corner), at_byte(offsetof(Corner, x)));
  glVertexAttribIPointer(1, 2, GL_INT, sizeof(Corner), at_byte(offsetof(Corner, mask_x)));
  glVertexAttribPointer(2, 4, GL_UNSIGNED_BYTE, GL_TRUE, sizeof(Corner), at_byte(offsetof(Corner, colour)));
  glBindVertexArray(0);
  return out;
}

Painter::Painter(Painter&& other) noexcept { *this = std::move(other); }
Painter& Painter::operator=(Painter&& other) noexcept {
  std::swap(programs_, other.programs_);
  std::swap(shapes_, other.shapes_);
  std::swap(layers_, other.layers_);
  std::swap(array_, other.array_);
  std::swap(corners_, other.corners_);
  std::swap(indices_, other.indices_);
  std::swap(masks_, other.masks_);
  std::swap(picture_, other.picture_);
  std::swap(indexed_quads_, other.indexed_quads_);
  std::swap(masks_height_, other.masks_height_);
  return *this;
}
Painter::~Painter() {
  if (!array_) return;
  glDeleteVertexArrays(1, &array_);
  glDeleteBuffers(1, &corners_);
  glDeleteBuffers(1, &indices_);
  glDeleteTextures(1, &masks_);
  glDeleteTextures(1, &picture_);
}

void Painter::paint(const Scene& scene, const Surface& target, Vec2 offset, double scale) {
  offset = glm::round(offset);
  const Recording recording = record(scene, scale, offset, shapes_);
  target.bind();
  glEnable(GL_SCISSOR_TEST);
  const int width = static_cast<int>(std::ceil(scene.width * scale)), height = static_cast<int>(std::ceil(scene.height * scale));
  glScissor(static_cast<int>(offset.x), target.height() - static_cast<int>(offset.y) - height, width, height);
  if (scene.ground.a > 0) {
    glClearColor(scene.ground.r * scene.ground.a, scene.ground.g * scene.ground.a, scene.ground.b * scene.ground.a, scene.ground.a);
    glClear(GL_COLOR_BUFFER_BIT);
  }
  upload(recording);
  run(recording, target, offset);
  glDisable(GL_SCISSOR_TEST);
}

void Painter::upload(const Recording& recording) {
  glBindVertexArray(array_);
  glBindBuffer(GL_ARRAY_BUFFER, corners_);
  glBufferData(GL_ARRAY_BUFFER, static_cast<GLsizeiptr>(recording.corners.size() * sizeof(Corner)), recording.corners.data(), GL_STREAM_DRAW);
  // two triangles a quad, the same numbers for every picture
  if (const std::size_t quads = recording.corners.size() / 4; quads > indexed_quads_) {
    indexed_quads_ = quads * 2;
    std::vector<std::uint32_t> indices;
    indices.reserve(indexed_quads_ * 6);
    for (std::uint32_t i = 0; i < indexed_quads_; ++i)
      for (const std::uint32_t corner : {0u, 1u, 2u, 0u, 2u, 3u}) indices.push_back(i * 4 + corner);
    glBufferData(GL_ELEMENT_ARRAY_BUFFER, static_cast<GLsizeiptr>(indices.size() * sizeof(std::uint32_t)), indices.data(), GL_STATIC_DRAW);
  }
  glActiveTexture(GL_TEXTURE0);
  glBindTexture(GL_TEXTURE_2D, masks_);
  glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
  const int height = recording.masks.height();
  if (height > masks_height_) {
    masks_height_ = height * 3 / 2;
    glTexImage2D(GL_TEXTURE_2D, 0, GL_R8, MaskSheet::width, masks_height_, 0, GL_RED, GL_UNSIGNED_BYTE, nullptr);
  }
  if (height > 0) glTexSubImage2D(GL_TEXTURE_2D, 0, 0, 0, MaskSheet::width, height, GL_RED, GL_UNSIGNED_BYTE, recording.masks.pixels.data());
}

void Painter::run(const Recording& recording, const Surface& target, Vec2 offset) {
  glEnable(GL_BLEND);
  glBlendEquation(GL_FUNC_ADD);
  glBlendFunc(GL_ONE, GL_ONE_MINUS_SRC_ALPHA);
  const Vec2 size{target.width(), target.height()};
  std::size_t depth = 0;
  for (const Command& command : recording.commands) {
    if (const auto* quads = std::get_if<Draw>(&command)) draw(*quads, offset, size);
    if (const auto* open = std::get_if<OpenLayer>(&command)) {
      if (depth == layers_.size() || layers_[depth].width() != target.width() || layers_[depth].height() != target.height()) {
        while (layers_.size() > depth) layers_.pop_back();
        auto layer = Surface::make(target.width(), target.height());
        MW_EXPECT(layer.has_value());
        layers_.push_back(std::move(layer).value());
        glBindTexture(GL_TEXTURE_2D, masks_);
      }
      layers_[depth++].bind();
      clear_box(*open, target.height());
    }
    if (const auto* close = std::get_if<CloseLayer>(&command)) {
      const Surface& layer = layers_[--depth];
      depth == 0 ? target.bind() : layers_[depth - 1].bind();
      const Program& program = programs_[picture];
      program.use();
      program.set("target_size", size);
      program.set("masks", 0);
      program.set("picture", 1);
      program.set_affine("to_scene", 1 / size.x, 0, 0, 1 / size.y, 0, 0);
      glActiveTexture(GL_TEXTURE1);
      glBindTexture(GL_TEXTURE_2D, layer.texture());
      glActiveTexture(GL_TEXTURE0);
      draw_quads(close->quad, 1);
    }
  }
  glBindVertexArray(0);
}

void Painter::draw(const Draw& draw, Vec2 offset, Vec2 size) {
  if (draw.quads == 0) return;
  if (draw.image) return draw_image(draw, offset, size);
  if (draw.paint) return draw_pattern(draw, offset, size);
  const Program& program = programs_[draw.ground ? ground : plain];
  program.use();
  program.set("target_size", size);
  if (draw.ground) glDisable(GL_BLEND);
  else program.set("masks", 0);
  draw_quads(draw.first_quad, draw.quads);
  if (draw.ground) glEnable(GL_BLEND);
}

void Painter::draw_pattern(const Draw& draw, Vec2 offset, Vec2 size) {
  const bool blends = std::holds_alternative<RadialBlend>(*draw.paint) || std::holds_alternative<LinearBlend>(*draw.paint);
  const Program& program = programs_[blends ? blend : pattern];
  program.use();
  program.set("target_size", size);
  program.set("masks", 0);
  const Affine from_pixels = inverse(draw.to_pixels);
  set_affine(program, to_mark(draw.to_pixels, offset, size.y));
  // patterns hang on the middle (hatch) or the corner (dots) of the box of what is drawn
  const Vec2 low = from_pixels(draw.low), high = from_pixels(draw.high);
  std::visit(Overloaded{[](const Colour&) {},
                        [&](const RadialBlend& b) {
                          program.set("radial", 1);
                          program.set("from", b.centre);
                          program.set("along", Vec2{b.inner, b.outer});
                          set_stops(program, b.stops);
                        },
                        [&](const LinearBlend& b) {
                          program.set("radial", 0);
                          program.set("from", b.from);
                          program.set("along", b.to - b.from);
                          set_stops(program, b.stops);
                        },
                        [&](const Hatch& h) {
                          const double angle = h.angle_deg * std::numbers::pi / 180;
                          program.set("dots", 0);
                          program.set("ink", h.line);
                          program.set("ground", h.ground);
                          program.set("direction", Vec2{std::cos(angle), std::sin(angle)});
                          program.set("anchor", (low + high) * 0.5);
                          program.set("reach", glm::length(high - low) / 2 + h.pitch);
                          program.set("pitch", h.pitch);
                          program.set("thickness", h.width);
                          program.set("crossed", h.crossed ? 1 : 0);
                          program.set("broken", h.broken ? 1 : 0);
                        },
                        [&](const Dots& d) {
                          program.set("dots", 1);
                          program.set("ink", d.dot);
                          program.set("ground", d.ground);
                          program.set("anchor", low);
                          program.set("pitch", d.pitch);
                          program.set("thickness", d.radius);
                        }}, *draw.paint);
  if (!blends) program.set("pixels", draw.to_pixels.scale());
  draw_quads(draw.first_quad, draw.quads);
}

void Painter::draw_image(const Draw& draw, Vec2 offset, Vec2 size) {
  const Image& image = *draw.image;
  glActiveTexture(GL_TEXTURE1);
  glBindTexture(GL_TEXTURE_2D, picture_);
  glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA8, image.columns, image.rows, 0, GL_RGBA, GL_UNSIGNED_BYTE,
               premultiplied(image.pixels).data());
  glActiveTexture(GL_TEXTURE0);
  const Program& program = programs_[picture];
  program.use();
  program.set("target_size", size);
  program.set("masks", 0);
  program.set("picture", 1);
  const Affine to_unit{1 / image.size.x, 0, 0, 1 / image.size.y, -image.at.x / image.size.x, -image.at.y / image.size.y};
  set_affine(program, then(to_mark(draw.to_pixels, offset, size.y), to_unit));
  draw_quads(draw.first_quad, draw.quads);
}

void Painter::draw_quads(std::size_t first, std::size_t count) {
  glDrawElements(GL_TRIANGLES, static_cast<int>(count * 6), GL_UNSIGNED_INT, at_byte(first * 6 * sizeof(std::uint32_t)));
}

} // namespace mw::gl
