#include "tract/work.h"

#include <algorithm>
#include <cmath>
#include <numbers>

// What one pose fixes before the area is solved: discs after contact, blade, end of the under side.
namespace mw {
namespace {
// Overlap with the upper wall that a disc may keep (mm, every speaker): it becomes the length of the contact.
constexpr double tip_overlap = 1.8, body_overlap = 2.6;

// Keeps a disc's centre off a wall by its radius less the overlap.
Vec2 keep_disc(Vec2 centre, const Nearest& near, double keep, double softness) {
  return centre + near.normal * (keep + soft_clamp(near.distance - keep, softness) - near.distance);
}

Vec2 placed_tip(const TongueTask& task, const Walls& walls) {
  const Anatomy& a = *task.anatomy;
  // a ramp in the jaw frame lifts the tip over the lower incisors instead of a jump
  Vec2 tip = task.jaw.to_jaw({task.pose.tip_x, task.pose.tip_y});
  const double floor = a.jaw_y * (-8.6 + 12.2 * smooth_step((9.0 * a.jaw_x - tip.x) / (4.4 * a.jaw_x)));
  tip.y = floor + soft_clamp(tip.y - floor, 0.8);
  tip = task.jaw.to_skull(tip);
  const Nearest near = walls.nearest_upper(tip);
  if (near.beyond_end || near.distance <= -15) return tip;
  return keep_disc(tip, near, a.tip_radius - tip_overlap, 0.8);
}

Vec2 placed_body(const TongueTask& task, const FixedParts& fixed, const Walls& walls, std::span<const Vec2> velum_under) {
  Vec2 body(task.pose.body_x, task.pose.body_y);
  const double keep = body_radius(*task.anatomy, body) - body_overlap;
  const auto push = [&](const Nearest& near) {
    if (!near.beyond_end) body = keep_disc(body, near, keep, 1.0);
  };
  push(walls.nearest_upper(body));
  push(nearest_on(velum_under.first(velum_under.size() - 6), body)); // the uvula itself yields
  push(fixed.throat.nearest(body));
  return body;
}

// Blade disc: between the direction the tip points and the line to the body.
void set_blade(TongueTask& task) {
  const double k = task.anatomy->tongue_scale, tip_radius = task.anatomy->tip_radius;
  const double angle = task.pose.tip_curl * std::numbers::pi / 180;
  task.tip_direction = {-std::cos(angle), std::sin(angle)};
  const Vec2 chord = task.tip - task.body;
  const double distance = glm::length(chord), curl = std::sin(std::clamp(angle, 0.0, std::numbers::pi / 2));
  task.tip_reach = std::clamp(0.46 * distance, 6.0 * k, 16.0 * k) + 5.0 * k * curl * curl;
  task.blade = task.tip - task.tip_reach * glm::normalize(0.62 * task.tip_direction + 0.38 * chord / distance);
  task.body_radius = body_radius(*task.anatomy, task.body);
  task.blade_radius = tip_radius +
                      (task.body_radius - tip_radius) * 0.46 * std::pow(std::min(task.tip_reach / k, 16.0) / 16.0, 0.3) +
                      task.pose.blade;
  task.body_blade = glm::distance(task.body, task.blade);
}

double floor_height(std::span<const Vec2> floor, double x) {
  std::size_t i = 1;
  while (i + 1 < floor.size() && x > floor[i].x) ++i;
  const double share = std::clamp((x - floor[i - 1].x) / (floor[i].x - floor[i - 1].x), 0.0, 1.0);
  return floor[i - 1].y + share * (floor[i].y - floor[i - 1].y);
}

// End of the under side on the mouth floor, and the floor's directions there.
void set_frenulum(TongueTask& task, std::span<const Vec2> floor) {
  const Anatomy& a = *task.anatomy;
  task.raised = std::clamp((task.tip.y - task.jaw.to_skull({8.0 * a.jaw_x, -4.0 * a.jaw_y}).y) / (10.0 * a.tongue_scale),
                           0.0, 1.0);
  const Vec2 tip = task.jaw.to_jaw(task.tip);
  double x = (11.3 + 3.2 * task.raised) * a.jaw_x + 0.35 * std::clamp(tip.x - 8.0 * a.jaw_x, 0.0, 14.0 * a.jaw_x);
  // a drawn-back tip that lies on the floor covers this place: the under side ends behind it, or it would cross itself.
  // Every target row keeps its tip 3.3 mm and more off the floor, so this touches none.
  const double k = a.tongue_scale, clear = (tip.y - a.tip_radius - floor_height(floor, tip.x)) / k;
  x += (1 - smooth_step((clear - 0.8) / 0.8)) * soft_clamp(tip.x + 3.8 * k - x, 0.5);
  const double y = floor_height(floor, x);
  task.frenulum = task.jaw.to_skull({x, y});
  task.floor_back = task.jaw.to_skull({x + 1.0, y + 0.05}) - task.frenulum;
  task.floor_up = task.jaw.to_skull({x, y + 1.0}) - task.frenulum;
}

// Root retraction under a raised front body draws a dip behind the front hump (bunched r); 0 for everything else.
double dip_depth(const Anatomy& a, const Pose& pose) {
  const double k = a.tongue_scale, dx = (pose.body_x - a.body_neutral.x) / k, dy = (pose.body_y - a.body_neutral.y) / k;
  return 1.9 * k * soft_clamp(pose.root / k - 1.5, 0.5) * smooth_step((dy - 2.0) / 6.0) * smooth_step((6.0 - dx) / 6.0);
}
} // namespace

TongueTask tongue_task(const FixedParts& fixed, const Walls& walls, std::span<const Vec2> velum_under, const Pose& pose,
                       const JawTransform& jaw) {
  TongueTask task;
  task.anatomy = fixed.anatomy.get();
  task.walls = &walls;
  task.jaw = jaw;
  task.pose = pose;
  task.tip = placed_tip(task, walls);
  task.body = placed_body(task, fixed, walls, velum_under);
  set_blade(task);
  set_frenulum(task, fixed.floor_points);
  task.dip = dip_depth(*task.anatomy, pose);
  task.lower_x_min = 1e300;
  task.lower_x_max = -1e300;
  for (const Vec2 p : fixed.lower.line()) {
    const double x = jaw.to_skull(p).x;
    task.lower_x_min = std::min(task.lower_x_min, x);
    task.lower_x_max = std::max(task.lower_x_max, x);
  }
  task.incisor_edge = {0, -1e300};
  for (const Vec2 p : fixed.lower_incisor_line)
    if (const Vec2 q = jaw.to_skull(p); q.y > task.incisor_edge.y) task.incisor_edge = q;
  return task;
}

} // namespace mw
