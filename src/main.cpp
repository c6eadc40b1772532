#include "cli/run.h"

#include <cstdio>
#include <exception>

int main(int argc, char** argv) {
  const mw::cli::OpenWindow open_window;
  try {
    return mw::cli::run({argv + 1, argv + argc}, open_window);
  } catch (const std::exception& error) { // only the standard library throws; out of memory above all
    std::fprintf(stderr, "mouthwright: our fault: %s; please report the phrase and the command\n", error.what());
    return 4;
  }
}
