#include "acoustics/formants.h"
#include "bench/bench.h"
#include "support/targets.h"
#include "tract/measure.h"
#include "tract/outline.h"

namespace {
using namespace mw;

std::vector<bench::Figures> run() {
  std::vector<bench::Figures> out;
  for (const auto& anatomy : test::speakers()) {
    std::vector<Pose> poses, lowered;
    for (const char* table : {"consonants", "vowels", "glides"})
      for (const auto& target : test::targets(anatomy, table)) {
        poses.push_back(target.pose);
        lowered.push_back(target.pose);
        lowered.back().velum = 0.6;
      }
    Tracer tracer(anatomy);
    out.push_back(bench::measure("trace, " + anatomy->id + ", target rows", poses.size(), 6,
                                 [&](std::size_t i) { tracer.trace(poses[i]); }));
    out.push_back(bench::measure("trace, " + anatomy->id + ", soft palate low", lowered.size(), 6,
                                 [&](std::size_t i) { tracer.trace(lowered[i]); }));
    AreaMeter meter(anatomy);
    out.push_back(bench::measure("trace and area function, " + anatomy->id, poses.size(), 6, [&](std::size_t i) {
      (void)meter.measure(tracer.trace(poses[i]), poses[i]);
    }));
    const Outline outline = tracer.trace(anatomy->rest);
    out.push_back(bench::measure("tongue_gap, " + anatomy->id, 1, 20,
                                 [&](std::size_t) { (void)tongue_gap(*anatomy, outline); }));
  }
  return out;
}
const bool registered = bench::add("trace", run);
} // namespace
