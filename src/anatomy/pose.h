#pragma once

#include <array>
#include <span>
#include <string_view>

namespace mw {

/// The articulators that gestures name (contract: articulator). Screens say back for body, soft palate for velum,
/// voice box for larynx and glottis.
enum class Articulator { lips, tip, body, root, velum, jaw, larynx, glottis };
inline constexpr int articulator_count = 8;
std::string_view to_text(Articulator articulator);    // "lips", "tip", ...
std::string_view learner_name(Articulator articulator); // "lips", "tip of the tongue", "back of the tongue", ...

/// Values of all articulators at one time: the 18 parameters of the model (tract-model.md section 3) and the groove of
/// sibilants. Lengths mm, tip_curl degrees, the rest 0..1 or -1..1. body_* and tip_* are CENTRES of their discs in the
/// skull frame.
struct Pose {
  double jaw_opening = 3.5, jaw_forward = 0;
  double lip_opening = 4, lip_protrusion = 0, lip_rounding = 0, lip_tuck = 0;
  double body_x = 41, body_y = -10.5, root = 0;
  double tip_x = 8.9, tip_y = -5.2, tip_curl = 4;
  double blade = 0.6, sides = 0;
  double velum = 0, larynx = 0, glottis = 0.15, epiglottis = 0;
  double groove = 0;
  bool operator==(const Pose&) const = default;
};

/// One row per articulator value: everything about it.
struct PoseChannel {
  std::string_view column; // contract name, with unit
  double Pose::*value;     // body_height_mm is converted (see column_value)
  double low, high;        // range of the field itself in the adult male model (for body_height_mm: of body_y)
  Articulator articulator;
};
/// In the order of the contract's motion columns (18 rows; groove is not among them).
std::span<const PoseChannel> pose_channels();

struct Anatomy;
/// The value as `motion` and `shape` print it: body_height_mm is the top of the body disc, the rest is the field itself.
double column_value(const Anatomy& anatomy, const Pose& pose, std::size_t channel);
/// The way back for body_height_mm: the height of the disc's centre.
double body_y_of_height(const Anatomy& anatomy, double body_x, double body_height);

} // namespace mw
