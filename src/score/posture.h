#pragma once

#include "anatomy/anatomy.h"

#include <array>

namespace mw {

/// An accent's posture: what it adds to every articulator value, in the order and units of pose_channels().
struct PostureShift {
  std::array<double, 18> by_channel{};
  bool operator==(const PostureShift&) const = default;
  [[nodiscard]] bool is_neutral() const { return by_channel == PostureShift{}.by_channel; }
  [[nodiscard]] double of(double Pose::*value) const; // 0 for a value without a channel
};

/// The share of the shift that a vowel takes on one channel: half where the vowel sets the value itself (lips, jaw, body,
/// root, sides), all where it leaves it free (tip, larynx, jaw forward, ...).
double vowel_share(double Pose::*value);

/// The mouth at rest takes the whole shift, within the ranges of the channels.
Pose at_rest(const Pose& pose, const PostureShift& shift);
/// A vowel takes its share, as far as it stays a vowel: lips and tongue keep a passage.
Pose in_vowel(const Anatomy& anatomy, const Pose& pose, const PostureShift& shift);

} // namespace mw
