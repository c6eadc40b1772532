#include "bench/ratio.h"

#include "base/text.h"

#include <algorithm>
#include <chrono>
#include <ctime>

namespace mw::bench {

double wall_us(const std::function<void()>& call) {
  const auto start = std::chrono::steady_clock::now();
  call();
  return std::chrono::duration<double, std::micro>(std::chrono::steady_clock::now() - start).count();
}

double thread_us(const std::function<void()>& call) {
  timespec start{}, end{};
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &start);
  call();
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &end);
  return static_cast<double>(end.tv_sec - start.tv_sec) * 1e6 + static_cast<double>(end.tv_nsec - start.tv_nsec) * 1e-3;
}

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  const std::size_t middle = values.size() / 2;
  return values.size() % 2 == 1 ? values[middle] : (values[middle - 1] + values[middle]) / 2;
}

Ratio compare(Clock clock, int rounds, const std::function<void()>& ours, const std::function<void()>& other) {
  std::vector<double> our_times, other_times, ratios;
  for (int round = 0; round < rounds; ++round) {
    our_times.push_back(clock(ours));
    other_times.push_back(clock(other));
    ratios.push_back(our_times.back() / other_times.back());
  }
  return {median(our_times), median(other_times), median(ratios)};
}

std::string ratio_note(const Ratio& ratio, const std::string& other, int rounds) {
  return to_text(ratio.ratio, 2) + "x " + other + " (" + to_text(ratio.other_us, 1) + " us; medians of " +
         std::to_string(rounds) + " rounds)";
}

} // namespace mw::bench
