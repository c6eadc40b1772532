#pragma once

#include "scene/canvas.h"
#include "scene/section.h"
#include "scene/theme.h"

#include <optional>

namespace mw {

/// A stretch of the section in mm.
struct MmBox {
  double x0 = -40, x1 = 104, y0 = -107, y1 = 65;
};
/// Framings of a speaker: the whole piece of paper, the mouth for small stages, the mouth for presenting, a window that
/// shows little but the mouth (thumbnails), the mouth with the paper's back edge (frames of a sequence).
enum class Framing { full, close, presenter, small, frame };
MmBox framing(const Anatomy& anatomy, Framing kind);

/// Millimetres to scene units. Mirrored: the speaker faces right; text is placed after that and never mirrored.
struct MouthFrame {
  double k = 1, ox = 0, oy = 0;
  double flip = 1; // -1 mirrored
  [[nodiscard]] Vec2 operator()(Vec2 mm) const { return {ox + flip * k * mm.x, oy - k * mm.y}; }
  [[nodiscard]] Vec2 direction(Vec2 mm) const { return {flip * mm.x, -mm.y}; }
  [[nodiscard]] Polyline operator()(const Polyline& mm) const;
  /// Smooth path through the points, thinned to what can be seen.
  [[nodiscard]] Path path(const Polyline& mm, bool closed) const;
};
MouthFrame fit_mouth(const MmBox& box, Rect rect, bool mirrored);

/// The stretch of flesh where two moves pull, drawn as a hatched band inside the surface.
struct ClashBand {
  Articulator articulator = Articulator::body;
  int level = 1;
  double depth_mm = 8.5;
  double opacity = 1; // for the fade
};

struct Ghost {
  const Outline* outline = nullptr;
  enum class Kind { next, own } kind = Kind::next; // dashes; dots
  double opacity = 1;
};

/// Which marks of air and voice a picture carries.
struct AirMarks {
  bool arrows = true, turbulence = true, pressure = true, ripples = true;
  double drift_mm = 0; // how far the arrows have moved along
  double opacity = 1;
};

struct MouthView {
  const Theme* theme = nullptr; // light when none
  Rect rect{};
  std::optional<MmBox> box{};   // full framing of the speaker when none
  double line_scale = 1;        // strokes, in units of the view
  bool mirrored = false;
  bool shadows = true, detail = true; // paper shadows; vertebrae
  std::optional<Colour> backdrop{};   // what lies behind the head; panel when none, clear = leave out
  std::optional<ClashBand> clash{};
  std::vector<Ghost> ghosts{};
  Polyline trail{};                   // past places of the tip, oldest first, mm
  const Outline* slip = nullptr;      // likely slip: the intruding part as a rail
  Articulator slip_part = Articulator::body;
  double slip_opacity = 1;
  std::optional<Articulator> spotlight{};
  double spotlight_strength = 1;
  std::optional<AirMarks> air{};      // none: no marks of air or voice
};

/// A drawn mouth and what others need to place things by it.
struct MouthPicture {
  Group group;
  MouthFrame frame;
  Section section;
  Polyline band_outer, band_inner; // of the clash, mm; empty without one
};
/// The cut-paper mouth in one pose (visual design, section 7).
MouthPicture compose_mouth(const Outline& outline, const Pose& pose, const Anatomy& anatomy, const MouthView& view);

/// Stretch of surface that stands for an articulator in this pose: tongue parts, lips, soft palate, jaw, voice box; mm.
Polyline surface_of(const Outline& outline, Articulator articulator);

/// Midline of the air from the lips to the glottis with the width at each point, mm.
struct Airway {
  Polyline line;
  std::vector<double> gap;
  std::size_t narrowest = 0;
};
Airway airway_of(const Anatomy& anatomy, const Outline& outline, const Pose& pose);

} // namespace mw
