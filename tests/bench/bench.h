#pragma once

#include <functional>
#include <string>
#include <vector>

/// Benchmarks register themselves: one file in tests/bench, one `const bool` at file level calling `bench::add`.
namespace mw::bench {

/// What one benchmark found, per call of the thing measured.
struct Figures {
  std::string name;
  double mean_us = 0, worst_us = 0; // best of several rounds each, so that a busy machine does not count
  double allocations = 0;           // per call, after warm-up
  std::string note;
};

using Bench = std::function<std::vector<Figures>()>;
/// Keeps a benchmark for the main program; true, so that it can be called from an initialiser.
bool add(const std::string& name, Bench bench);

/// Allocations of this thread so far (operator new).
long allocations();

/// Times `call(i)` for each i in 0..count: processor time of this thread, best of `rounds`.
Figures measure(const std::string& name, std::size_t count, int rounds, const std::function<void(std::size_t)>& call);

} // namespace mw::bench
