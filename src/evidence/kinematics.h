#pragma once

#include "base/result.h"

#include <array>
#include <vector>

namespace mw {

/// Closing movements of one part of the mouth: means over a sample of the running-speech phrases at one rate.
struct ClosingFigures {
  int count = 0;
  double size_mm = 0, peak_cm_s = 0;
  double peak_place = 0;        // of the speed peak, share of the movement between 20 % speed thresholds
  double size_speed_correlation = 0;
};
/// How the parts move, means at one rate.
struct Kinematics {
  ClosingFigures tip, body, lips;
  double velum_lead_ms = 0;     // soft palate open by 0.1 before a nasal after a vowel
  double overlap_percent = 0;   // of two closures of different parts, of the shorter one
  int clusters = 0, held = 0;   // stop + stop of different parts, and those without a break between
  std::array<double, 3> hold_ms{}; // closures of plain stops: lips, tip, body
};
/// Measured on every `every`-th phrase of assets/evidence/speech-segments.txt at one rate (index into speech_rates).
Result<Kinematics> measure_kinematics(std::size_t rate, std::size_t every);

} // namespace mw
