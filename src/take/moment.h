#pragma once

#include "take/take.h"

namespace mw {

/// The moment that stands for a segment when stepping sound by sound: 40 % of a stop, nasal or affricate, 50 % of other
/// consonants, 55 % of a vowel (tract-model.md section 10, Landmarks).
double step_time(const Take& take, std::size_t segment);

/// Segments, words and clashes alive at one time, as the frame index and captions tell them.
struct Moment {
  double time_s = 0;
  std::optional<std::size_t> segment; // none within a pause
  std::string ipa, word;
  std::vector<std::size_t> clashes; // indices, strongest first
};
Moment moment_at(const Take& take, double t);

} // namespace mw
