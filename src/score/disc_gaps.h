#pragma once

#include "anatomy/anatomy.h"

namespace mw {

/// The fixed walls against which the commanded discs of tip and body are judged.
struct DiscWalls {
  Polyline teeth_and_palate;      // upper incisors and hard palate: for the tip
  Polyline palate_shut, palate_open; // hard and soft palate in front of the throat, soft palate shut and 0.6 open
};
DiscWalls disc_walls(const Anatomy& anatomy);

/// Openings (mm) that a pose commands; negative is overlap. Discs against walls, nothing drawn.
double tip_gap(const Anatomy& anatomy, const DiscWalls& walls, const Pose& pose);
double body_gap(const Anatomy& anatomy, const DiscWalls& walls, const Pose& pose, bool velum_open);

} // namespace mw
