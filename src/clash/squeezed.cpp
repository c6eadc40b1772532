#include "clash/squeezed.h"

#include "score/plan.h"

#include <algorithm>
#include <cmath>

namespace mw {

namespace {

constexpr double near_enough_mm = 4; // tract-model.md section 11, squeezed
constexpr int looks = 9;             // times at which the vowel is looked at

double least_distance(const Unit& unit, const Motion& motion) {
  double least = 1e9;
  for (int i = 0; i < looks; ++i) {
    const Pose pose = pose_at(motion, unit.start_s + unit.length() * i / (looks - 1));
    least = std::min(least, std::hypot(pose.body_x - unit.target.pose.body_x, pose.body_y - unit.target.pose.body_y));
  }
  return least;
}

} // namespace

std::vector<std::pair<std::size_t, double>> squeezed_vowels(const SegmentTrack& track, const Score& score, const Motion& motion) {
  std::vector<std::pair<std::size_t, double>> found;
  if (!score.plan) return found;
  for (const Unit& unit : score.plan->units) {
    if (!unit.vowel || unit.half != Half::whole || track.segments[unit.segment].stress == 0) continue;
    const double miss = least_distance(unit, motion) / (near_enough_mm * score.plan->anatomy->tongue_scale);
    if (miss > 1) found.emplace_back(unit.segment, miss);
  }
  return found;
}

} // namespace mw
