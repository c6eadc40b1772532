#include "bench/bench.h"

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <new>

namespace {
thread_local long allocated = 0;

std::vector<std::pair<std::string, mw::bench::Bench>>& known() {
  static std::vector<std::pair<std::string, mw::bench::Bench>> benches;
  return benches;
}

double thread_us() {
  timespec t{};
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &t);
  return static_cast<double>(t.tv_sec) * 1e6 + static_cast<double>(t.tv_nsec) * 1e-3;
}
} // namespace

// Counts every allocation; the default new[] and nothrow forms end here too.
void* operator new(std::size_t size) {
  ++allocated;
  if (void* memory = std::malloc(size > 0 ? size : 1)) return memory;
  std::abort();
}
void operator delete(void* memory) noexcept { std::free(memory); }
void operator delete(void* memory, std::size_t) noexcept { std::free(memory); }

namespace mw::bench {
bool add(const std::string& name, Bench bench) {
  known().emplace_back(name, std::move(bench));
  return true;
}

long allocations() { return allocated; }

Figures measure(const std::string& name, std::size_t count, int rounds, const std::function<void(std::size_t)>& call) {
  for (std::size_t i = 0; i < count; ++i) call(i); // warm-up
  const long before = allocations();
  for (std::size_t i = 0; i < count; ++i) call(i);
  const long made = allocations() - before;
  Figures figures{name, 0, 0, static_cast<double>(made) / static_cast<double>(count), ""};
  constexpr int repeats = 4;
  for (std::size_t i = 0; i < count; ++i) {
    double best = 1e300;
    for (int round = 0; round < rounds; ++round) {
      const double start = thread_us();
      for (int repeat = 0; repeat < repeats; ++repeat) call(i);
      best = std::min(best, (thread_us() - start) / repeats);
    }
    figures.mean_us += best / static_cast<double>(count);
    figures.worst_us = std::max(figures.worst_us, best);
  }
  return figures;
}
} // namespace mw::bench

// mouthwright_bench [name]: runs all benchmarks, or those whose name starts so.
int main(int argc, char** argv) {
  auto& benches = known();
  std::sort(benches.begin(), benches.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  std::printf("%-44s %10s %10s %12s\n", "", "mean us", "worst us", "allocations");
  int ran = 0;
  for (const auto& [name, bench] : benches) {
    if (argc > 1 && name.rfind(argv[1], 0) != 0) continue;
    ++ran;
    for (const auto& f : bench())
      std::printf("%-44s %10.1f %10.1f %12.2f  %s\n", f.name.c_str(), f.mean_us, f.worst_us, f.allocations, f.note.c_str());
  }
  return ran > 0 ? 0 : 1;
}
