#include "scene/lit.h"

#include <algorithm>

namespace mw {
namespace {

// visual design, section 9: seconds of wall time
constexpr double fade_on = 0.15, hold = 0.35, fade_off = 0.25, calm = 1.0;

double off_time(const Take& take, std::size_t i, double slow) {
  const Clash& c = take.clashes[i];
  double off = std::max(c.end_s * slow, c.start_s * slow + fade_on + hold);
  for (const Clash& next : take.clashes) {
    const bool same = !next.articulators.empty() && !c.articulators.empty() && next.articulators.front() == c.articulators.front();
    const double on = next.start_s * slow;
    if (same && on > c.start_s * slow && on >= off && on < off + calm) off = on;
  }
  return off;
}

} // namespace

std::optional<Lit> lit_clash(const Take& take, double t, double slow) {
  const double wall = t * slow;
  std::optional<Lit> best;
  for (std::size_t i = 0; i < take.clashes.size(); ++i) {
    const double on = take.clashes[i].start_s * slow, off = off_time(take, i, slow);
    if (wall < on || wall >= off + fade_off) continue;
    const double opacity = wall < off ? std::min((wall - on) / fade_on, 1.0) : 1 - (wall - off) / fade_off;
    if (!best || opacity > best->opacity + 1e-9) best = Lit{i, opacity};
  }
  if (best && best->opacity <= 0) return {};
  return best;
}

} // namespace mw
