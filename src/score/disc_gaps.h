#pragma once

#include "anatomy/anatomy.h"

namespace mw {

/// A wall as points, and stretches of a few segments with a circle round each: what lies far away is passed over.
struct DiscWall {
  Polyline points;
  struct Stretch {
    std::size_t first = 0, last = 0; // segments, last one included
    Vec2 centre{};
    double radius = 0;
  };
  std::vector<Stretch> stretches;
};

/// The fixed walls against which the commanded discs of tip and body are judged.
struct DiscWalls {
  DiscWall teeth_and_palate;          // upper incisors and hard palate: for the tip
  DiscWall palate_shut, palate_open; // hard and soft palate in front of the throat, soft palate shut and 0.6 open
};
/// Built once per speaker, kept for the life of the program; safe to call from any thread.
const DiscWalls& disc_walls(const Anatomy& anatomy);

/// Openings (mm) that a pose commands; negative is overlap. Discs against walls, nothing drawn.
double tip_gap(const Anatomy& anatomy, const DiscWalls& walls, const Pose& pose);
double body_gap(const Anatomy& anatomy, const DiscWalls& walls, const Pose& pose, bool velum_open);

} // namespace mw
