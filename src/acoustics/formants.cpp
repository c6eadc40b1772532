#include "acoustics/chain.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace mw {
namespace {
// Range and step of the search (tract-model.md section 9): a formant is a peak of |H| on a grid of 12.5 Hz.
constexpr double lowest_hz = 100, highest_hz = 6000, fine_hz = 12.5;
constexpr int fine_per_coarse = 4;
// A formant turns the phase by half a turn within its bandwidth: coarse steps that turn more than this hold or touch
// one.
constexpr double turning = 0.35;
// Broad formants turn slowly, but their top is level: relative change of |H|^2 over a coarse step.
constexpr double level = 0.05;

// Samples of 1 / H on the fine grid, taken only where asked for.
struct Grid {
  explicit Grid(const Chain& of)
      : chain(of), values(static_cast<std::size_t>((highest_hz - lowest_hz) / fine_hz)), known(values.size()) {}
  Complex at(std::size_t i) {
    if (!known[i]) {
      values[i] = chain.inverse_transfer(lowest_hz + fine_hz * static_cast<double>(i));
      known[i] = true;
    }
    return values[i];
  }
  const Chain& chain;
  std::vector<Complex> values;
  std::vector<bool> known;
};

double phase_between(Complex a, Complex b) {
  return std::abs(std::atan2(a.re * b.im - a.im * b.re, a.re * b.re + a.im * b.im));
}

// Fine-grid stretches that may hold a peak: a coarse sample below both neighbours, a step that turns the phase or is
// level.
std::vector<bool> promising(Grid& grid) {
  const std::size_t n = grid.values.size();
  std::vector<bool> look(n, false);
  const auto mark = [&](std::size_t from, std::size_t to) {
    for (std::size_t i = from; i <= std::min(to, n - 1); ++i) look[i] = true;
  };
  for (std::size_t i = 0; i + 1 < n; i += fine_per_coarse) {
    const std::size_t next = std::min(i + fine_per_coarse, n - 1);
    const double here = squared(grid.at(i)), after = squared(grid.at(next));
    if (phase_between(grid.at(i), grid.at(next)) > turning || std::abs(after - here) < level * here) mark(i, next);
    if (i >= fine_per_coarse && here <= squared(grid.at(i - fine_per_coarse)) && here <= after)
      mark(i - fine_per_coarse, next);
  }
  return look;
}

// Smallest |1 / H|^2 near `hz`: two parabolas, the second through steps of an eighth.
double refined(const Chain& chain, double hz, double step) {
  for (int round = 0; round < 2; ++round, step /= 8) {
    const double y0 = squared(chain.inverse_transfer(hz - step)), y1 = squared(chain.inverse_transfer(hz)),
                 y2 = squared(chain.inverse_transfer(hz + step));
    const double bend = y0 - 2 * y1 + y2;
    if (bend <= 0) break;
    hz += std::clamp(0.5 * (y0 - y2) / bend, -1.0, 1.0) * step;
  }
  return hz;
}

bool is_closed(const AreaFunction& tube) {
  return std::ranges::any_of(tube.sections, [](const TubeSection& s) { return s.area_cm2 <= closed_area_cm2; });
}
} // namespace

std::vector<double> formants_hz(const AreaFunction& tube, const TubePhysics& physics) {
  if (tube.sections.empty() || is_closed(tube)) return {};
  const Chain chain(tube, physics);
  Grid grid(chain);
  const std::vector<bool> look = promising(grid);
  std::vector<double> formants;
  for (std::size_t i = 1; i + 1 < look.size(); ++i) {
    if (!look[i]) continue;
    const double here = squared(grid.at(i));
    if (here < squared(grid.at(i - 1)) && here <= squared(grid.at(i + 1)))
      formants.push_back(refined(chain, lowest_hz + fine_hz * static_cast<double>(i), fine_hz));
  }
  return formants;
}

std::vector<double> formants_hz(const AreaFunction& tube) { return formants_hz(tube, TubePhysics{}); }

} // namespace mw
