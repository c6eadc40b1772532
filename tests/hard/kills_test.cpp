#include "support/effort.h"
#include "support/program.h"

#include <csignal>
#include <doctest/doctest.h>

// The program is killed at any moment: what stands on the disk is whole, and nothing half-written is left under a final name.

using namespace mw::test;
namespace fs = std::filesystem;

namespace {
bool is_whole_png(const fs::path& file) {
  const std::string bytes = whole(file);
  return bytes.starts_with("\x89PNG") && bytes.size() > 20 && bytes.substr(bytes.size() - 8, 4) == "IEND";
}
} // namespace

TEST_CASE("kills: a sequence of pictures that is killed anywhere holds whole pictures only, and resuming ends it as if nothing had been") {
  const std::vector<std::string> phrase{"frames", "Tin cakes, cold trays", "--size", "320x240", "--slow", "2"};
  const Folder folder;
  const auto write = [&](const std::string& name, bool resume) {
    auto arguments = phrase;
    arguments.insert(arguments.end(), {"-o", (folder / name).string()});
    if (resume) arguments.emplace_back("--resume");
    return arguments;
  };
  REQUIRE(run_program(write("whole", false)).code == 0);
  auto random = lots(201);
  for (int i = 0; i < rounds(2, 120); ++i) {
    const std::string name = "k" + std::to_string(i);
    const bool rough = random() % 2 == 0;
    run_and_signal(write(name, false), rough ? SIGKILL : SIGINT, 20 + static_cast<int>(random() % 900));
    if (fs::exists(folder / name))
      for (const auto& entry : fs::directory_iterator(folder / name)) {
        const std::string file = entry.path().filename().string();
        if (file.starts_with("frame-") && file.ends_with(".png")) CHECK_MESSAGE(is_whole_png(entry.path()), file);
        if (!rough) CHECK_MESSAGE((file.starts_with("frame-") || file.starts_with("index.")), file); // what was begun is removed
      }
    REQUIRE(run_program(write(name, true)).code == 0);
    for (const auto& entry : fs::directory_iterator(folder / "whole")) {
      const auto same = folder.path() / name / entry.path().filename();
      CHECK_MESSAGE(whole(same) == whole(entry.path()), same.filename().string());
    }
  }
}

TEST_CASE("kills: a document that is killed while it replaces another leaves the old one or the new one") {
  const Folder folder;
  const auto target = folder / "sheet.pdf";
  const std::vector<std::string> again{"sheet", "Tin cakes, cold trays", "-o", target.string(), "--overwrite"};
  REQUIRE(run_program(again).code == 0);
  const std::string old = whole(target);
  REQUIRE(old.starts_with("%PDF"));
  auto random = lots(202);
  for (int i = 0; i < rounds(4, 120); ++i) {
    const bool rough = random() % 2 == 0;
    run_and_signal(again, rough ? SIGKILL : SIGTERM, 5 + static_cast<int>(random() % 500));
    CHECK(whole(target) == old); // same arguments, same bytes
    for (const auto& entry : fs::directory_iterator(folder.path()))
      if (rough && entry.path() != target) fs::remove(entry.path()); // nobody can put away after that
      else CHECK_MESSAGE(entry.path() == target, entry.path().string());
  }
}
