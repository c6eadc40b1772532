#include "app/glow.h"

#include <algorithm>

namespace mw::app {

namespace {

bool is_resting(const Glow& glow, int part) { return part >= 0 && part != glow.part && glow.dark_s[static_cast<std::size_t>(part)] < glow_calm_s; }

/// Its part goes off now.
void go_off(Glow& glow) {
  if (glow.part >= 0) glow.dark_s[static_cast<std::size_t>(glow.part)] = 0;
  glow.clash.reset();
  glow.level = glow.held_s = 0, glow.part = -1;
}

} // namespace

Glow glow_on(Glow glow, std::optional<std::size_t> wanted, double wall_s, bool at_once, int part) {
  if (at_once) return {wanted, wanted ? 1.0 : 0.0, wanted ? glow_hold_s : 0.0, wanted ? part : -1, glow.dark_s};
  glow.held_s += wall_s;
  for (double& dark : glow.dark_s) dark += wall_s;
  if (wanted && is_resting(glow, part)) wanted.reset();
  // another clash waits until the lit one has been held; then it takes over without a dark moment
  if (wanted && (!glow.clash || (glow.clash != wanted && glow.held_s >= glow_hold_s))) {
    const double level = glow.clash ? glow.level : 0;
    if (glow.clash && glow.part != part) go_off(glow);
    glow.clash = wanted, glow.level = level, glow.held_s = 0, glow.part = part;
  }
  if (!glow.clash) return go_off(glow), glow;
  const bool stays = glow.clash == wanted || glow.held_s < glow_hold_s;
  glow.level = std::clamp(glow.level + (stays ? wall_s / glow_in_s : -wall_s / glow_out_s), 0.0, 1.0);
  if (glow.level == 0.0 && !stays) go_off(glow);
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
