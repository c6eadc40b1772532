#pragma once

#include "anatomy/anatomy.h"
#include "tract/outline.h"

#include <vector>

namespace mw {

/// Carries a place of the adult male head to another speaker's: piecewise linear between landmarks both have.
struct HeadWarp {
  std::array<double, 4> x{}, y{}; // nose tip, incisor, end of hard palate, throat wall; glottis, incisor, palate, nose roof
  double scale = 1;
  [[nodiscard]] Vec2 operator()(double male_x, double male_y) const;
};
HeadWarp head_warp(const Anatomy& anatomy);

/// The pieces of the cut-paper head in one pose, skull frame, mm, in no drawing order. Rings are closed, lines open.
struct Section {
  double scale = 1;
  Polyline nose, upper_lip, lower_lip, chin, cut_edge; // lines
  Polyline head;                                        // ring: the whole piece of paper
  Polyline mouth_air, nasal_air, larynx_air;            // rings
  double lips_x = 0;                                    // foremost lip; the air fades out in front of it
  double floor_y = 0;                                   // the paper is cut here below
  Polyline nasal_floor;
  std::vector<Polyline> shelves, vertebrae;             // rings
  Polyline back_tissue, back_wall, back_shadow;         // ring, line, ring
  Polyline gum, gum_shadow, bone, roof_line;
  Polyline velum, velum_line, velum_shadow;
  Polyline upper_flesh, lower_flesh, upper_tooth, lower_tooth, mandible;
  Polyline upper_red, lower_red, upper_light, lower_light; // rings
  Polyline floor_tissue, floor_line, floor_muscle;
  std::vector<Polyline> floor_threads, fibres;          // lines
  Polyline tongue, tongue_edge, tongue_shadow;          // ring, line (root foot .. tip .. floor), ring
  Polyline hyoid, thyroid, cricoid_front, cricoid_back; // rings
  Polyline larynx_tissue, larynx_front, larynx_back, gullet;
  Polyline vallecula, vallecula_tissue, epiglottis;
  Vec2 genial{};
  double glottis_y = 0, chin_y = 0, neck_x = 0;          // lowest point of the chin, foremost point of the neck
};
Section section_of(const Anatomy& anatomy, const Outline& outline, const Pose& pose);

} // namespace mw
