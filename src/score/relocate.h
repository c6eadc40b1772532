#pragma once

#include "score/targets.h"

namespace mw {

/// Which disc makes the constriction that is moved.
enum class Disc { tip, body };

/// Opening (mm) between the disc and teeth, palate or soft palate; negative is overlap.
double disc_opening(const Anatomy& anatomy, const Pose& pose, Disc disc);

/// Slides the disc `mm` along the upper wall (positive: back) and keeps its opening.
void slide_along(const Anatomy& anatomy, Pose& pose, Disc disc, double mm);
/// Puts the disc to a wall place (mm along the wall from the incisor edge) and keeps its opening.
void slide_to(const Anatomy& anatomy, Pose& pose, Disc disc, double place_mm);
/// Changes the opening to `mm`, at the same place.
void open_to(const Anatomy& anatomy, Pose& pose, Disc disc, double mm);

/// Changes the jaw and lets a tip that rests free in the jaw ride on it.
void move_jaw(const Anatomy& anatomy, Pose& pose, double jaw_opening);

} // namespace mw
