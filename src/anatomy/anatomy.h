#pragma once

#include "anatomy/pose.h"
#include "base/curve.h"
#include "base/result.h"

#include <map>
#include <memory>
#include <string>
#include <vector>

namespace mw {

/// One control point of a lip with its weights (tract-model.md section 7).
struct LipPoint {
  Vec2 at;
  double protrusion = 0, height = 0;
  Vec2 round{}, spread{};
  double tuck = 0;
};

/// One speaker: fixed walls, jaw hinge, discs, lips, decoration; read from assets/speakers/<id>/. Lengths mm.
struct Anatomy {
  std::string id;   // adult-male, adult-female, child
  std::string name;
  // scales against the adult male (tract-model.md section 2)
  double tongue_scale = 1, jaw_x = 1, jaw_y = 1, width = 1, lip_scale = 1, larynx_scale = 1, palate_step = 1;
  double tip_radius = 2.8, body_radius = 19, root_radius = 15.5, base_radius = 11;
  double jaw_length = 85, glottis_y = -82, epiglottis_tip_y = -42.5, epiglottis_x_min = 57, epiglottis_x_max = 75.6;
  double tuck_reach = 8.2;
  /// Tongue area of the rest posture (mm2) in a fine and in a coarse build. Kept in the speaker's file, because the build
  /// itself lies in tract; a test of tract builds both again and compares.
  double rest_area_fine = 0, rest_area_coarse = 0;
  /// Shares of the tract's length from the lips, in the rest posture, to: the palate's vault, the middle of the bend, the
  /// top of the throat, the larynx tube (lines 13, 22, 30, 40 of the acoustic grid). A test of acoustics measures them.
  std::array<double, 4> path_shares{};
  Vec2 condyle{}, body_neutral{}, grid_centre{}, tongue_base{}, hyoid_rest{}, epiglottis_base{}, genial{}, velum_start{};
  std::array<double, 7> velum_lengths{};
  std::array<double, 8> velum_closed_radius{}, velum_open_radius{};
  std::vector<std::array<double, 8>> velum_weights; // soft palate centreline: 48 samples as weights of its eight joints
  std::vector<LipPoint> upper_lip, lower_lip;
  Polyline palate;       // hard palate, lower face, resampled (1 mm x palate_step)
  Polyline back_wall;    // throat, resampled (1.5 mm x palate_step)
  Polyline upper_incisor; // edge and labial face, control points
  std::map<std::string, Polyline> skull, jaw, larynx; // control points of every named piece, by frame
  Pose rest;
};

/// Ids that can be read, in order: adult-male, adult-female, child.
std::vector<std::string> anatomy_ids();
/// Reads a speaker; Problem (usage) for an unknown id, (missing) for a broken installation. Cached, shared, immutable.
Result<std::shared_ptr<const Anatomy>> read_anatomy(const std::string& id);

/// The jaw's rigid motion: jaw frame (teeth closed) <-> skull frame at one opening.
struct JawTransform {
  double c = 1, s = 0;
  Vec2 hinge{}, slide{};
  [[nodiscard]] Vec2 to_skull(Vec2 jaw_point) const;
  [[nodiscard]] Vec2 to_jaw(Vec2 skull_point) const;
};
JawTransform jaw_transform(const Anatomy& anatomy, double jaw_opening, double jaw_forward = 0);

/// Radius (mm) of the tongue-body disc with this centre.
double body_radius(const Anatomy& anatomy, Vec2 centre);

} // namespace mw
