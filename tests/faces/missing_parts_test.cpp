#include "support/program.h"

#include <doctest/doctest.h>

using mw::test::Folder;
using mw::test::run_program;
namespace fs = std::filesystem;
using Words = std::vector<std::string>;

TEST_CASE("missing fonts: what draws letters tells which font to install, exit 5, and leaves no file; the rest works") {
  const Folder folder;
  std::ofstream(folder / "fonts.conf") << "<?xml version=\"1.0\"?><!DOCTYPE fontconfig SYSTEM \"fonts.dtd\"><fontconfig/>\n";
  const Words bare{"FONTCONFIG_FILE=" + (folder / "fonts.conf").string()};
  const std::string out = (folder / "out").string();
  for (const Words& words : {Words{"strip", "Lamps", "-o", out + ".svg"}, Words{"strip", "Lamps", "-o", out + ".png"},
                             Words{"shape", "s", "-o", out + ".pdf"}, Words{"sheet", "Lamps", "-o", out + ".pdf"},
                             Words{"sheet", "Lamps", "-o", out + ".svg"}, Words{"chart", "-o", out + ".png"},
                             Words{"frames", "Lamps", "-o", out}}) {
    const auto run = run_program(words, "", bare);
    CHECK_MESSAGE(run.code == 5, words[0] << ": " << run.err);
    CHECK_MESSAGE(run.err.find("font") != std::string::npos, run.err);
    CHECK(run.err.find("install") != std::string::npos);
  }
  CHECK(std::distance(fs::directory_iterator(folder.path()), fs::directory_iterator{}) == 1);
  for (const Words& words : {Words{"explain", "Lamps"}, Words{"shape", "s", "--json"}, Words{"motion", "Lamps"}, Words{"accents"}}) {
    const auto run = run_program(words, "", bare);
    CHECK_MESSAGE(run.code == 0, run.err);
    CHECK(run.out == run_program(words).out);
  }
}

TEST_CASE("missing data: a program far from its data folder tells where it looked, exit 5") {
  const Folder folder;
  const std::string copy = (folder / "mouthwright").string();
  fs::copy_file(std::getenv("MOUTHWRIGHT_BINARY"), copy);
  const Words nowhere{"MOUTHWRIGHT_ASSETS=/nonexistent"};
  for (const Words& words :
       {Words{"explain", "Lamps"}, Words{"motion", "Lamps"}, Words{"shape", "s"}, Words{"accents"}, Words{"accents", "GA"},
        Words{"compare", "Lamps", "--with", "RP"}, Words{"rank", "-"}, Words{"evidence"}, Words{"evidence", "rates"},
        Words{"evidence", "ranking"}, Words{"chart", "-o", (folder / "c.svg").string()},
        Words{"strip", "Lamps", "-o", (folder / "s.svg").string()}, Words{"sheet", "Lamps", "-o", (folder / "s.pdf").string()}}) {
    const auto run = run_program(words, "Lamps\n", nowhere, copy);
    CHECK_MESSAGE(run.code == 5, words[0] << " " << words.back() << ": " << run.err);
    CHECK_MESSAGE(run.err.find("/nonexistent") != std::string::npos, run.err);
    CHECK(run.err.find("MOUTHWRIGHT_ASSETS") != std::string::npos);
    CHECK(run.out.empty());
  }
  CHECK(run_program({"--help"}, "", nowhere, copy).code == 0);
  CHECK(run_program({"--version"}, "", nowhere, copy).code == 0);
  // the data folder that the variable names brings it back
  CHECK(run_program({"accents"}, "", {}, copy).out == run_program({"accents"}).out);
}

TEST_CASE("missing data: a wrong variable does not hide the data beside the program") {
  const auto run = run_program({"accents"}, "", {"MOUTHWRIGHT_ASSETS=/nonexistent"});
  const bool found = run.code == 0 && run.out == run_program({"accents"}).out;
  const bool told = run.code == 5 && run.err.find("MOUTHWRIGHT_ASSETS") != std::string::npos; // built outside the sources
  CHECK((found || told));
}

TEST_CASE("missing display: the window ends with 5 and names commands that work without it") {
  const Folder folder;
  const Words none{"DISPLAY", "WAYLAND_DISPLAY", "SDL_VIDEODRIVER", "XDG_RUNTIME_DIR=" + folder.path().string()};
  for (const Words& words : {Words{}, Words{"open"}}) {
    const auto run = run_program(words, "", none);
    CHECK_MESSAGE(run.code == 5, run.err);
    CHECK(run.out.empty());
    CHECK(run.err.starts_with("mouthwright: "));
    for (const char* command : {"explain", "frames", "strip", "--help"}) CHECK_MESSAGE(run.err.find(command) != std::string::npos, run.err);
  }
}
