#include "accent/shared.h"

#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>

#include <unistd.h>

using namespace mw;

TEST_CASE("shared accent: a shipped accent is one value in the process, equal to what the file says") {
  const auto list = list_accents();
  for (const AccentName& row : *list) {
    const auto first = read_shared_accent(row.id), second = read_shared_accent(row.id);
    REQUIRE(first.has_value());
    CHECK(*first == *second);
    CHECK(**first == *read_accent(row.id));
  }
}

TEST_CASE("shared accent: a file is read anew, so that an edit is heard; a failure is told every time") {
  const auto file = std::filesystem::temp_directory_path() / ("mouthwright_shared_" + std::to_string(getpid()) + ".toml");
  Accent accent = *read_accent("GA");
  const auto save = [&](const std::string& name) {
    accent.name = name;
    std::ofstream(file, std::ios::binary) << write_accent(accent);
  };
  save("before");
  const auto before = read_shared_accent(file.string());
  save("after");
  const auto after = read_shared_accent(file.string());
  std::filesystem::remove(file);
  REQUIRE((before.has_value() && after.has_value()));
  CHECK((*before)->name == "before");
  CHECK((*after)->name == "after");
  CHECK_FALSE(read_shared_accent(file.string()).has_value());
  for (int time = 0; time < 2; ++time) CHECK(read_shared_accent("GB").error().kind == ProblemKind::usage);
}
