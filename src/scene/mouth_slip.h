#pragma once

#include "scene/lit.h"
#include "scene/mouth.h"

#include <string>

namespace mw {

/// A likely slip as it would look: the wanted sound's pose with the intruding sound's values of its articulators laid in, so
/// that both gestures overlap (as recorded by Pouplier 2008; Goldstein et al. 2007).
struct SlipShape {
  Outline outline;                           // at the wanted sound's moment
  Articulator part = Articulator::body;      // that moves most: the rail follows its line
  double shift_mm = 0;                       // farthest that this line lies from the wanted one
  std::string intruder;                      // IPA
  bool voiced = false;                       // the intruding sound has voice
};
/// None when the intruding sound is not in the line or has no row for this speaker.
std::optional<SlipShape> slip_shape(const Take& take, Tracer& tracer, std::size_t slip);

/// The likely slip whose sound is nearest to a time; none without slips.
std::optional<std::size_t> nearest_slip(const Take& take, double t);
/// Which slip is shown when, in wall time: about its sound, never shorter than fades and 350 ms, a second apart.
std::vector<LitSpan> slip_times(const Take& take, double slow);
/// For a picture that stands by itself: the strongest slip of the sound now; none on other sounds.
std::optional<Lit> slip_still(const Take& take, double t);

/// Lines of a part that a rail follows, mm.
std::vector<Polyline> rail_of(const Outline& outline, Articulator part);
/// "k creeps in" beside the rail, off teeth, tongue and what is to be kept clear.
std::vector<Mark> draw_slip_tag(const MouthPicture& mouth, const SlipShape& slip, Rect stage, const std::vector<Rect>& keep, const Theme& theme, double u, double opacity);

} // namespace mw
