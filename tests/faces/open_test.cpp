#include "support/program.h"

#include <doctest/doctest.h>

using mw::test::Folder;
using mw::test::run_program;
using mw::test::whole;
namespace fs = std::filesystem;

namespace {
const std::vector<std::string> offscreen{"SDL_VIDEODRIVER=offscreen", "LIBGL_ALWAYS_SOFTWARE=1"};

// Opens the window off-screen, drives it by a script of events, gives what it shows as text.
std::string state_after(const Folder& folder, const std::string& events, std::vector<std::string> more = {}) {
  std::ofstream(folder / "script") << events << "\nstate " << (folder / "state").string() << "\n";
  std::vector<std::string> words{"open", "--script", (folder / "script").string(), "--shot", (folder / "shot.png").string()};
  words.insert(words.end(), more.begin(), more.end());
  const auto run = run_program(words, "", offscreen);
  REQUIRE_MESSAGE(run.code == 0, run.err);
  return whole(folder / "state");
}
} // namespace

TEST_CASE("open: a lesson shows its line in hand, a broken one is told with file and line") {
  const Folder folder;
  std::ofstream(folder / "good.toml") << "current = 2\n[[line]]\nphrase = \"Mend it\"\n[[line]]\nphrase = \"Tin lamps\"\naccent = \"SSBE\"\n";
  std::ofstream(folder / "bad.toml") << "title = \"x\"\nslow = 99\n";
  const std::string state = state_after(folder, "settle", {(folder / "good.toml").string()});
  CHECK(state.find("Tin lamps") != std::string::npos);
  CHECK(fs::file_size(folder / "shot.png") > 10000);
  const auto bad = run_program({"open", (folder / "bad.toml").string()}, "", offscreen);
  CHECK(bad.code == 2);
  CHECK(bad.err.find("bad.toml line 2") != std::string::npos);
}

TEST_CASE("open: without a display the exit code is 5 and the message names what works without one") {
  const auto run = run_program({"open"}, "", {"DISPLAY=", "WAYLAND_DISPLAY=", "XDG_RUNTIME_DIR=/nonexistent"});
  CHECK(run.code == 5);
  CHECK(run.err.find("frames") != std::string::npos);
}

TEST_CASE("open: wrong words after it are wrong use") {
  CHECK(run_program({"open", "--size", "tiny"}, "", offscreen).code == 1);
  CHECK(run_program({"open", "--no-such-option", "x"}, "", offscreen).code == 1);
}
