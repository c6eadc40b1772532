#pragma once

#include "paint/gl/program.h"
#include "paint/gl/record.h"
#include "paint/gl/surface.h"

#include <optional>
#include <vector>

namespace mw::gl {

/// Plays scenes with OpenGL 3.3 core. The coverage of every pixel is computed on the processor, mark by mark and only
/// where something changed; the card lays paint through it. Holds its programs and buffers; move-only; one per context.
class Painter {
public:
  /// Needs a current context. Problem (missing) when the driver cannot do it.
  static Result<Painter> make();
  Painter(Painter&&) noexcept;
  Painter& operator=(Painter&&) noexcept;
  ~Painter();

  /// Plays `scene` on `target`, its origin at `offset` (whole pixels), so many pixels a scene unit; nothing outside the
  /// scene's own size is touched. The ground is laid unless it is fully transparent.
  void paint(const Scene& scene, const Surface& target, Vec2 offset = {0, 0}, double scale = 1);

  /// Shapes computed anew in the last `paint` (what had not changed is not among them).
  [[nodiscard]] std::size_t shapes_made() const { return shapes_.made(); }

private:
  Painter() = default;
  void upload(const Recording& recording);
  void run(const Recording& recording, const Surface& target, Vec2 offset);
  void draw(const Draw& draw, Vec2 offset, Vec2 size);
  void draw_pattern(const Draw& draw, Vec2 offset, Vec2 size);
  void draw_image(const Draw& draw, Vec2 offset, Vec2 size);
  void draw_quads(std::size_t first, std::size_t count);

  enum Kind { plain, ground, blend, pattern, picture, kinds };
  std::vector<Program> programs_;
  Shapes shapes_;
  std::vector<Surface> layers_;
  unsigned array_ = 0, corners_ = 0, indices_ = 0, masks_ = 0, picture_ = 0;
  std::size_t indexed_quads_ = 0;
  int masks_height_ = 0;
};

} // namespace mw::gl
