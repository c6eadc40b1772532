#include "app/glow.h"

#include <algorithm>

namespace mw::app {

Glow glow_on(Glow glow, std::optional<std::size_t> wanted, double wall_s, bool at_once) {
  if (at_once) return {wanted, wanted ? 1.0 : 0.0, wanted ? glow_hold_s : 0.0};
  glow.held_s += wall_s;
  // another clash waits until the lit one has been held; then it takes over without a dark moment
  if (wanted && (!glow.clash || (glow.clash != wanted && glow.held_s >= glow_hold_s)))
    glow = {wanted, glow.clash ? glow.level : 0.0, 0.0};
  if (!glow.clash) return {};
  const bool stays = glow.clash == wanted || glow.held_s < glow_hold_s;
  glow.level = std::clamp(glow.level + (stays ? wall_s / glow_in_s : -wall_s / glow_out_s), 0.0, 1.0);
  if (glow.level == 0.0 && !stays) return {};
  return glow;
}

double fade_on(double level, bool wanted, double wall_s, bool at_once) {
  if (at_once) return wanted ? 1 : 0;
  return std::clamp(level + (wanted ? wall_s : -wall_s) / fade_s, 0.0, 1.0);
}

bool is_fading(const Glow& glow, std::optional<std::size_t> wanted) {
  if (glow.clash != wanted) return true;
  return glow.clash && glow.level < 1;
}

} // namespace mw::app
