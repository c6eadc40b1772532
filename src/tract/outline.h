#pragma once

#include "anatomy/anatomy.h"

#include <memory>

namespace mw {

/// The drawn curves of one pose, skull frame, mm. `tongue`, lips, velum, teeth, jaw, epiglottis are closed rings (first
/// point not repeated); the rest are open lines. Pieces below the first block are parts of the rings that painters and
/// acoustics need on their own.
struct Outline {
  Polyline tongue, upper_lip, lower_lip, velum, upper_incisor, lower_incisor, jaw, epiglottis; // rings
  Polyline palate, back_wall, face;       // open; face: forehead, nose, upper lip ... lower lip, chin, neck
  Polyline larynx_front, larynx_back;     // inner walls, top to bottom
  Polyline upper_wall;                    // incisor edge, palate, soft palate under face (draped)

  // parts of the tongue: root foot to tip along the back, round the tip, under side to the floor
  Polyline dorsum, tip_cap, underside;
  Vec2 frenulum{}, genial{}, hyoid{};
  // soft palate: under face, round end, upper face
  Polyline velum_under, velum_cap, velum_upper;
  // lips: margin lines from the outside in (100 points each) and samples of the red's borders
  Polyline upper_lip_line, lower_lip_line;
  std::array<int, 2> upper_red{}, lower_red{}; // sample of the skin border and of the wet end
  double lip_edge_x = 0, upper_margin_y = 0, lower_margin_y = 0, lower_lip_ratio = 1, lip_tuck = 0;
  Vec2 lip_fold{};
  Polyline lower_incisor_line, mouth_floor; // contact line of the lower teeth; floor
  Polyline epiglottis_front, epiglottis_back, epiglottis_cap;
  double glottis_y = 0;
  int face_mouth = 0;    // index in `face` of the first point of the lower lip: before it the upper half, from it the lower

  double tongue_area_mm2 = 0;
  double area_error = 0;   // (area - rest area) / rest area
  double root_shift = 0, hyoid_drop = 0;
  bool strained = false;   // the pose asks more than one tongue can give (tract-model.md sections 5, 8, 11)
  std::string strain_reason;
  Vec2 body_centre{}, tip_centre{}; // discs after contact
  Vec2 tip_direction{};             // unit, where the tip points
};

/// Draws poses of one speaker. Keeps its working memory: no allocation after the first few calls. One per thread.
class Tracer {
public:
  explicit Tracer(std::shared_ptr<const Anatomy> anatomy);
  ~Tracer();
  Tracer(Tracer&&) noexcept;
  Tracer& operator=(Tracer&&) noexcept;

  /// The outline of a pose; a pure function of it. The reference is good until the next call.
  const Outline& trace(const Pose& pose);
  [[nodiscard]] const Anatomy& anatomy() const;

private:
  struct Work;
  std::unique_ptr<Work> work_;
};

/// One outline, memory of its own.
Outline trace(const std::shared_ptr<const Anatomy>& anatomy, const Pose& pose);

} // namespace mw
