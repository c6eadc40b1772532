#pragma once

#include "motion/motion.h"
#include "support/segments.h"
#include "support/speaker.h"

namespace mw::testing {
struct Moving {
  SegmentTrack track;
  Score score;
  Motion motion;
};
/// Plans and bakes "symbol:ms:flags ..." for a speaker.
inline Moving moving(const std::string& segments, const std::string& speaker_id = "adult-male") {
  Moving m;
  m.track = track_of(segments);
  const auto score = plan(m.track, speaker(speaker_id));
  MW_EXPECT(score.has_value());
  m.score = *score;
  m.motion = bake(m.score);
  return m;
}
} // namespace mw::testing
