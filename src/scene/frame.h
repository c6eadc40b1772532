#pragma once

#include "scene/stage.h"

namespace mw {

struct FrameView {
  double width = 1280, height = 720;
  const Theme* theme = nullptr;
  bool captions = true, transparent = false, mirrored = false;
  double slow = 1;      // wall time = take time x slow: fades and the drift of air
  bool shadows = true;
  bool slips = false;   // the likely slip near the sound now as a rail
  bool still = false;   // a picture that stands by itself: what is lit is lit in full and on its own sounds alone
};
/// One picture of a sequence: mouth, phrase strip with the sound now, the clash in words while it is lit (the presenter's
/// look without its lanes). Any size from 64 x 64; what would be unreadable is left out. Transparent: no ground, no panels.
Scene compose_frame(const Take& take, Tracer& tracer, double t, const FrameView& view);

struct StripView {
  double width = 1800, height = 470;
  const Theme* theme = nullptr;
  bool captions = true;
};
/// A cell for every segment at its best moment, in as many rows as fill the picture best.
Scene compose_strip(const Take& take, Tracer& tracer, const StripView& view);

struct ShapeView {
  double width = 1280, height = 720;
  const Theme* theme = nullptr;
  bool transparent = false, mirrored = false;
};
/// One sound large, with labels and what the side view hides.
Scene compose_shape(Tracer& tracer, const Pose& pose, const Sound& sound, const ShapeView& view);

} // namespace mw
