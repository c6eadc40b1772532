#include "base/expect.h"

#include <cstdio>
#include <cstdlib>

namespace mw {
void expectation_broken(const char* claim, const char* file, int line) {
  std::fprintf(stderr, "mouthwright: our fault: expected %s at %s:%d; please report the phrase and the command\n", claim,
               file, line);
  std::fflush(nullptr);
  std::_Exit(4);
}
} // namespace mw
