#pragma once

#include "take/take.h"

#include <memory>

/// A take of times only: three sounds and three clashes, for what needs no mouth.
inline std::shared_ptr<mw::Take> fake_take() {
  using namespace mw;
  auto take = std::make_shared<Take>();
  take->request.phrase = "tin";
  take->duration_s = 1.2;
  for (int i = 0; i < 3; ++i) {
    Segment segment;
    segment.sound.letter = std::string(1, "tin"[i]);
    segment.start_s = 0.28 + 0.2 * i, segment.end_s = 0.48 + 0.2 * i;
    take->track.segments.push_back(segment);
  }
  take->track.duration_s = 1.2;
  for (const auto& [from, to, level] : {std::tuple{0.60, 0.64, 3}, std::tuple{0.30, 0.36, 2}, std::tuple{0.80, 0.86, 1}}) {
    Clash clash;
    clash.start_s = from, clash.end_s = to, clash.level = level;
    clash.title = "Tug";
    take->clashes.push_back(clash);
  }
  Gesture gesture;
  gesture.onset_s = 0.2, gesture.reached_s = 0.3, gesture.release_s = 0.4, gesture.offset_s = 0.5;
  take->score.gestures.push_back(gesture);
  return take;
}
