#pragma once

#include "anatomy/pose.h"
#include "score/score.h"

#include <memory>

namespace mw {

struct BakedMotion; // ramps by channel, sorted; see motion/baked.h

/// The movement of a whole take: closed form, immutable, shared.
struct Motion {
  std::shared_ptr<const BakedMotion> baked;
  double duration_s = 0;
};

/// Turns a score into ramps. Never fails for a score made by `plan`.
Motion bake(const Score& score);

/// Articulator values at `t` seconds (clamped to 0..duration). Pure, exact, order-independent, allocation-free.
Pose pose_at(const Motion& motion, double t);

} // namespace mw
