#include "score/planning.h"

#include "anatomy/places.h"

#include <algorithm>
#include <cmath>

namespace mw {
namespace {
constexpr double beat_hz = 25;      // tongue-tip and uvular trills beat at 25-30 Hz (common practice)
constexpr double beat_mm = 1;       // either way (tract-model.md section 10, Not run in time)
constexpr double uvula_rest = 0.2;  // where it hangs in the rows of uvular sounds (valves.cpp)

/// What beats in a trill: the channel and the change of it that moves its part by one millimetre.
struct Beater {
  double Pose::*value = nullptr;
  double per_mm = 1;
};

/// Opening of the soft palate that carries the end of the uvula one millimetre.
double velum_per_mm(const Anatomy& anatomy) {
  const auto low = velum_shape(anatomy, uvula_rest - 0.1), high = velum_shape(anatomy, uvula_rest + 0.1);
  return 0.2 / std::max(glm::distance(low.centre.back(), high.centre.back()), 0.1);
}

Beater beater_of(const Target& row, const Anatomy& anatomy) {
  switch (row.primary) {
  case Primary::lips: return {&Pose::lip_opening, 1};
  case Primary::tip: return {&Pose::tip_y, 1};
  case Primary::body: return {&Pose::velum, velum_per_mm(anatomy)};
  default: return {};
  }
}

void add_trill(std::vector<Overlay>& out, const Unit& u, std::size_t index, const Anatomy& anatomy) {
  const Beater beater = beater_of(u.target, anatomy);
  if (beater.value == nullptr) return;
  const double from = u.start_s + u.effective_from * u.length(), to = u.start_s + u.effective_to * u.length();
  const int cycles = std::clamp(static_cast<int>(std::lround(beat_hz * (to - from))), 2, 3);
  const double length = std::min(cycles / beat_hz, to - from), start = 0.5 * (from + to - length);
  const double quarter = length / (4 * cycles); // the first beat grows from nothing, the last dies away
  out.push_back({beater.value, {start, start + quarter}, {start + length - quarter, start + length},
                 beat_mm * beater.per_mm, cycles, index});
}

/// The pocket of a click: between two closures the tongue is hollowed and its back closure drawn further back, along the
/// palate so that it stays shut; the front closure then opens first.
void add_pocket(std::vector<Overlay>& out, const Unit& u, std::size_t index, const Anatomy& anatomy) {
  const double from = u.start_s + u.effective_from * u.length(), to = u.start_s + u.effective_to * u.length();
  const Ramp grow{from + 0.4 * (to - from), from + 0.8 * (to - from)}, fall{to, to + 0.06};
  out.push_back({&Pose::blade, grow, fall, -2 * anatomy.tongue_scale, 0, index});
  out.push_back({&Pose::body_x, grow, fall, 3 * anatomy.jaw_x, 0, index});
}
/// A stop let go by the nose or past the sides: the valve opens in its last part, before the mouth does.
void add_release(std::vector<Overlay>& out, const Unit& u, std::size_t index) {
  constexpr double share = 0.6, before_s = 0.01, nose_s = 0.03, sides_s = 0.02; // as the hold of a plain voiceless stop
  constexpr double nose = 0.6, sides = -0.8; // a nasalised vowel's port; the sides of an l
  const double at = u.start_s + share * u.length();
  if (u.mark == "nasal release")
    out.push_back({&Pose::velum, {at - before_s, at + nose_s}, {u.end_s, u.end_s + 0.05}, nose, 0, index});
  if (u.mark == "lateral release")
    out.push_back({&Pose::sides, {at - before_s, at + sides_s}, {u.end_s, u.end_s + 0.04}, sides - u.target.pose.sides, 0,
                   index});
}
} // namespace

std::vector<Overlay> make_overlays(const std::vector<Unit>& units, const Anatomy& anatomy) {
  std::vector<Overlay> out;
  for (std::size_t i = 0; i < units.size(); ++i) {
    if (units[i].target.manner == "trill") add_trill(out, units[i], i, anatomy);
    add_release(out, units[i], i);
    if (units[i].target.manner == "click") add_pocket(out, units[i], i, anatomy);
  }
  return out;
}

} // namespace mw
