#pragma once

#include <functional>
#include <string>
#include <vector>

namespace mw::bench {

/// Time of one call, in microseconds: by the wall, or of this thread's own work.
double wall_us(const std::function<void()>& call);
double thread_us(const std::function<void()>& call);

double median(std::vector<double> values);

/// Two ways of doing one job, timed in turn within each round, so that whatever else the machine does meets both.
struct Ratio {
  double ours_us = 0, other_us = 0; // medians over the rounds
  double ratio = 0;                 // median of the rounds' own ratios
};
using Clock = double (*)(const std::function<void()>&);
Ratio compare(Clock clock, int rounds, const std::function<void()>& ours, const std::function<void()>& other);

/// "2.1x bare look-up (other: 540 us, 21 rounds)".
std::string ratio_note(const Ratio& ratio, const std::string& other, int rounds);

} // namespace mw::bench
