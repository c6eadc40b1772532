#pragma once

#include "base/result.h"
#include "scene/scene.h"

#include <cstdint>
#include <span>
#include <string>
#include <vector>

typedef struct _cairo cairo_t;

namespace mw {

/// Smoothness of edges: `still` for single pictures, `sequence` for frames by the hundred (about 1.6 times as quick).
enum class Finish { still, sequence };

/// Plays a scene on a cairo context whose user space is scene units, origin top left. The ground is painted unless it is
/// fully transparent. Text is drawn as glyph outlines, or as selectable glyphs on a vector surface.
void paint(const Scene& scene, cairo_t* cr, Finish finish = Finish::still);

/// RGBA8, straight alpha, row by row.
struct Pixels {
  int width = 0, height = 0;
  std::vector<std::uint8_t> rgba;
};
/// The scene scaled to `width` x `height` pixels (aspect is the caller's). `transparent` leaves out the ground.
Pixels render(const Scene& scene, int width, int height, bool transparent = false, Finish finish = Finish::still);

/// A PDF of one page a scene, page size = scene size in pt; text can be selected and found. `title` goes into the file's
/// properties. Problem (output) when cairo refuses.
Result<std::string> pdf_of(std::span<const Scene> pages, const std::string& title);

} // namespace mw
