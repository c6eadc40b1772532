#include "score/posture.h"

#include "score/disc_gaps.h"

#include <algorithm>
#include <map>
#include <mutex>
#include <string>
#include <tuple>

namespace mw {
namespace {
// Half: a setting is an average tendency under the sounds (Laver 1980, from memory), not a second set of vowels.
constexpr double own_share = 0.5;
constexpr std::array own_channels{&Pose::lip_opening, &Pose::lip_protrusion, &Pose::lip_rounding, &Pose::lip_tuck,
                                  &Pose::jaw_opening, &Pose::body_x,         &Pose::body_y,       &Pose::root,
                                  &Pose::sides};
// Passages (mm, adult male) that a shift may not narrow further; closer ones of the vowel's own stay as they are.
constexpr double least_tongue_passage = 3.5, least_lip_passage = 1.5;
constexpr int halvings = 12;

Pose shifted(Pose pose, const PostureShift& shift, double share, bool all) {
  const auto channels = pose_channels();
  for (std::size_t i = 0; i < channels.size(); ++i) {
    if (shift.by_channel[i] == 0) continue;
    double& x = pose.*channels[i].value;
    const double to = x + shift.by_channel[i] * (all ? 1 : share * vowel_share(channels[i].value));
    // a value of the tables that lies outside the range already is not pulled in
    x = std::clamp(to, std::min(x, channels[i].low), std::max(x, channels[i].high));
  }
  return pose;
}

double find_free_share(const Anatomy& anatomy, const Pose& pose, const PostureShift& shift) {
  const DiscWalls& walls = disc_walls(anatomy);
  const auto passage = [&](const Pose& p) { return body_gap(anatomy, walls, p, false); };
  const double least = std::min(passage(pose), least_tongue_passage * anatomy.tongue_scale) - 1e-9;
  if (passage(shifted(pose, shift, 1, false)) >= least) return 1;
  double low = 0, high = 1;
  for (int i = 0; i < halvings; ++i) {
    const double middle = 0.5 * (low + high);
    (passage(shifted(pose, shift, middle, false)) >= least ? low : high) = middle;
  }
  return low;
}

/// The largest share, at most 1, that keeps the passage of the tongue body open. Kept: an accent meets the same few
/// vowels in every phrase.
double free_share(const Anatomy& anatomy, const Pose& pose, const PostureShift& shift) {
  const double x = shift.of(&Pose::body_x), y = shift.of(&Pose::body_y);
  if (x == 0 && y == 0) return 1;
  using Key = std::tuple<std::string, double, double, double, double>; // all that the passage depends on
  constexpr std::size_t most_kept = 4096; // every vowel in a hundred postures; beyond it the memory starts afresh
  static std::mutex guard;
  static std::map<Key, double> known;
  const std::lock_guard lock(guard);
  if (known.size() >= most_kept) known.clear();
  const auto [at, is_new] = known.try_emplace({anatomy.id, pose.body_x, pose.body_y, x, y}, 1.0);
  if (is_new) at->second = find_free_share(anatomy, pose, shift);
  return at->second;
}
} // namespace

double PostureShift::of(double Pose::*value) const {
  const auto channels = pose_channels();
  for (std::size_t i = 0; i < channels.size(); ++i)
    if (channels[i].value == value) return by_channel[i];
  return 0;
}

double vowel_share(double Pose::*value) { return std::ranges::count(own_channels, value) > 0 ? own_share : 1; }

Pose at_rest(const Pose& pose, const PostureShift& shift) { return shifted(pose, shift, 1, true); }

Pose in_vowel(const Anatomy& anatomy, const Pose& pose, const PostureShift& shift) {
  if (shift.is_neutral()) return pose;
  Pose p = shifted(pose, shift, 1, false);
  const Pose tongue = shifted(pose, shift, free_share(anatomy, pose, shift), false);
  p.body_x = tongue.body_x;
  p.body_y = tongue.body_y;
  p.lip_opening = std::max(p.lip_opening, std::min(pose.lip_opening, least_lip_passage * anatomy.lip_scale));
  return p;
}

} // namespace mw
