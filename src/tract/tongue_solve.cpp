#include "tract/work.h"

#include <algorithm>
#include <cmath>

// A tongue keeps its volume: root and hyoid give way until the midsagittal area is that of the rest posture.
namespace mw {
namespace {
// The area may breathe by this share with the root shift, so that the root moves less (1.7 %: the section is no volume).
constexpr double breathing = 0.017;

struct SecantLimits {
  double slope, slope_low, slope_high, low, high; // mm2 per mm; mm
};
// Times the tongue scale of the speaker; slopes and limits from builds of all target rows.
constexpr SecantLimits root_limits{38, 15, 90, -5, 12}, drop_limits{50, 25, 110, -8, 8};

struct Root {
  double x = 0, slope = 0;
};
// Three evaluations from 0, then one last step: a fixed amount of work, so a pure function of the pose.
template <typename F> Root secant(F f, const SecantLimits& limits, double k) {
  double x = 0, fx = f(0.0), slope = limits.slope * k;
  for (int step = 0;; ++step) {
    const double next = std::clamp(x - fx / slope, limits.low * k, limits.high * k);
    if (step == 2) return {next, slope};
    const double value = f(next);
    if (std::fabs(next - x) > 1e-4)
      slope = std::clamp((value - fx) / (next - x), limits.slope_low * k, limits.slope_high * k);
    x = next;
    fx = value;
  }
}
} // namespace

TongueSolution solve_tongue(const TongueTask& task, TongueBuild& coarse, TongueBuild& fine) {
  const double k = task.anatomy->tongue_scale, rest = task.anatomy->rest_area_coarse;
  const auto area = [&](double shift, double root, double drop) {
    build_tongue(task, shift, root, drop, coarse_sampling, coarse);
    return coarse.area;
  };
  // the root first, without the pose's own retraction: wide throat for i, narrow for low back vowels
  const Root shift = secant([&](double x) { return area(x, 0, 0) - rest; }, root_limits, k);
  const double breath = breathing * std::tanh(shift.x / (5.0 * k));
  TongueSolution solution;
  solution.shift = shift.x - breath * rest / shift.slope;
  // then the hyoid, with it
  const Root drop = secant([&](double y) { return area(solution.shift, task.pose.root, y) - rest * (1 - breath); },
                           drop_limits, k);
  solution.drop = drop.x;
  build_tongue(task, solution.shift, task.pose.root, solution.drop, fine_sampling, fine);
  return solution;
}

RestAreas rest_areas(const std::shared_ptr<const Anatomy>& anatomy) {
  const auto parts = fixed_parts(anatomy);
  const Pose& pose = anatomy->rest;
  Walls walls;
  set_walls(*parts, parts->shut_velum.under, true, walls);
  const TongueTask task = tongue_task(*parts, walls, parts->shut_velum.under, pose, jaw_transform(*anatomy, pose.jaw_opening));
  TongueBuild build;
  RestAreas areas;
  build_tongue(task, 0, 0, 0, coarse_sampling, build);
  areas.coarse = build.area;
  build_tongue(task, 0, 0, 0, fine_sampling, build);
  areas.fine = build.area;
  return areas;
}

} // namespace mw
