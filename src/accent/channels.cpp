#include "accent/channels.h"

#include <algorithm>
#include <array>

namespace mw {
namespace {
constexpr std::array<PostureChannel, 18> channels{{
    {"lip_opening_mm", 4},
    {"lip_protrusion_mm", 4},
    {"lip_rounding", 0.5},
    {"lip_tuck", 0.5},
    {"jaw_opening_mm", 4},
    {"jaw_forward_mm", 2},
    {"tip_height_mm", 4},
    {"tip_backness_mm", 5},
    {"tip_curl_deg", 30},
    {"blade_doming_mm", 2},
    {"sides_raising", 0.5},
    {"body_height_mm", 5},
    {"body_backness_mm", 6},
    {"root_retraction_mm", 4},
    {"velum_opening", 0.5},
    {"larynx_height_mm", 8},
    {"epiglottis_fold", 0.5},
    {"glottis_opening", 0.3},
}};
} // namespace

std::span<const PostureChannel> posture_channels() { return channels; }

const PostureChannel* find_posture_channel(std::string_view name) {
  const auto at = std::find_if(channels.begin(), channels.end(), [&](const auto& row) { return row.name == name; });
  return at == channels.end() ? nullptr : &*at;
}

} // namespace mw
