#include "anatomy/anatomy.h"

namespace mw {
namespace {
struct ArticulatorRow {
  std::string_view name, learner;
};
// Screens and paper use the plain names (common practice in voice teaching), files the others.
constexpr std::array<ArticulatorRow, articulator_count> articulators{{
    {"lips", "lips"},
    {"tip", "tip of the tongue"},
    {"body", "back of the tongue"},
    {"root", "root of the tongue"},
    {"velum", "soft palate"},
    {"jaw", "jaw"},
    {"larynx", "voice box"},
    {"glottis", "voice box"},
}};

constexpr std::size_t body_height_channel = 11;
// Ranges: the adult male model's.
constexpr std::array<PoseChannel, 18> channels{{
    {"lip_opening_mm", &Pose::lip_opening, -2, 20, Articulator::lips},
    {"lip_protrusion_mm", &Pose::lip_protrusion, -2, 8, Articulator::lips},
    {"lip_rounding", &Pose::lip_rounding, -1, 1, Articulator::lips},
    {"lip_tuck", &Pose::lip_tuck, 0, 1, Articulator::lips},
    {"jaw_opening_mm", &Pose::jaw_opening, 0.5, 20, Articulator::jaw},
    {"jaw_forward_mm", &Pose::jaw_forward, -2, 4, Articulator::jaw},
    {"tip_height_mm", &Pose::tip_y, -22, 18, Articulator::tip},
    {"tip_backness_mm", &Pose::tip_x, -8, 26, Articulator::tip}, // linguolabials reach the upper lip
    {"tip_curl_deg", &Pose::tip_curl, -30, 110, Articulator::tip},
    {"blade_doming_mm", &Pose::blade, -4, 4, Articulator::tip},
    {"sides_raising", &Pose::sides, -1, 1, Articulator::tip},
    {"body_height_mm", &Pose::body_y, -22, 4, Articulator::body}, // above 1 only where k and g close far forward
    {"body_backness_mm", &Pose::body_x, 28, 60, Articulator::body},
    {"root_retraction_mm", &Pose::root, -4, 6, Articulator::root},
    {"velum_opening", &Pose::velum, 0, 1, Articulator::velum},
    {"larynx_height_mm", &Pose::larynx, -8, 8, Articulator::larynx},
    {"epiglottis_fold", &Pose::epiglottis, 0, 1, Articulator::root},
    {"glottis_opening", &Pose::glottis, 0, 1, Articulator::glottis},
}};
static_assert(channels[body_height_channel].value == &Pose::body_y);
} // namespace

std::string_view to_text(Articulator articulator) { return articulators[static_cast<std::size_t>(articulator)].name; }

std::string_view learner_name(Articulator articulator) {
  return articulators[static_cast<std::size_t>(articulator)].learner;
}

std::span<const PoseChannel> pose_channels() { return channels; }

double column_value(const Anatomy& anatomy, const Pose& pose, std::size_t channel) {
  MW_EXPECT(channel < channels.size());
  if (channel == body_height_channel)
    return pose.body_y + body_radius(anatomy, {pose.body_x, pose.body_y});
  return pose.*channels[channel].value;
}

double body_y_of_height(const Anatomy& anatomy, double body_x, double body_height) {
  // the radius changes by at most 0.15 per mm of height, so each round gains most of a decimal
  double y = body_height - anatomy.body_radius;
  for (int round = 0; round < 12; ++round) y = body_height - body_radius(anatomy, {body_x, y});
  return y;
}

} // namespace mw
