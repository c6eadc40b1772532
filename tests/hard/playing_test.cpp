#include "support/effort.h"
#include "window/driver.h"

#include <fstream>
#include <unistd.h>

// A lesson that loops on the wall of a classroom for an hour: it must not grow and not stop.

namespace {
double resident_mb() {
  std::ifstream statm("/proc/self/statm");
  double pages = 0, resident = 0;
  statm >> pages >> resident;
  return resident * static_cast<double>(sysconf(_SC_PAGESIZE)) / 1e6;
}
} // namespace

TEST_CASE("playing: hours of looping do not take more and more memory, and it still plays") {
  const auto window = driver::open("Tin cakes, cold trays, gold keys", 640, 480);
  driver::play(*window, "settle\nkey space\nwait 5");
  REQUIRE(window->session().take);
  REQUIRE(window->session().view.playing);
  const double before = resident_mb();
  const int minutes = mw::test::rounds(1, 60);
  for (int i = 0; i < minutes * 6; ++i) {
    const double t = window->session().view.time_s;
    driver::play(*window, "wait " + std::string(mw::test::rounds(0, 1) ? "10" : "2"));
    CHECK(window->session().view.playing);
    CHECK(window->session().view.time_s != t);
  }
  CHECK(resident_mb() - before < 8);
}
