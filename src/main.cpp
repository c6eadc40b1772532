#include "cli/run.h"

#if MW_APP
#include "app/app.h"
#endif

#include <cstdio>
#include <exception>

int main(int argc, char** argv) {
  mw::cli::OpenWindow open_window; // none in a build without the window
#if MW_APP
  open_window = mw::app::open_window;
#endif
  try {
    return mw::cli::run({argv + 1, argv + argc}, open_window);
  } catch (const std::exception& error) { // only the standard library throws; out of memory above all
    std::fprintf(stderr, "mouthwright: our fault: %s; please report the phrase and the command\n", error.what());
    return 4;
  }
}
