#include "base/assets.h"
#include "base/text.h"
#include "support/program.h"

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>
#include <sys/stat.h>

using mw::test::Folder;
using mw::test::run_program;
using mw::test::whole;
using Json = nlohmann::json;
namespace fs = std::filesystem;

namespace {
std::vector<std::string> frames(const fs::path& folder, std::vector<std::string> more = {}) {
  std::vector<std::string> words{"frames", "Lamps", "-o", folder.string(), "--size", "160x120", "--fps", "4", "--slow", "2"};
  words.insert(words.end(), more.begin(), more.end());
  return words;
}
std::size_t pictures(const fs::path& folder) {
  std::size_t n = 0;
  for (const auto& entry : fs::directory_iterator(folder)) n += entry.path().extension() == ".png";
  return n;
}
// width and height from the PNG header
std::pair<int, int> png_size(const std::string& bytes) {
  const auto u32 = [&](std::size_t at) {
    int v = 0;
    for (std::size_t i = 0; i < 4; ++i) v = v * 256 + static_cast<unsigned char>(bytes[at + i]);
    return v;
  };
  REQUIRE(bytes.substr(1, 3) == "PNG");
  return {u32(16), u32(20)};
}
} // namespace

TEST_CASE("frames: image k shows time k / (fps x slow), the index tells file, time, sound and word") {
  const Folder folder;
  const auto run = run_program(frames(folder / "out"));
  REQUIRE_MESSAGE(run.code == 0, run.err);
  const double duration = Json::parse(run_program({"explain", "--json", "Lamps"}).out)["duration_s"];
  const auto expected = static_cast<std::size_t>(std::floor(duration * 8 + 1e-6)) + 1;
  CHECK(pictures(folder / "out") == expected);
  const auto index = mw::parse_csv(whole(folder / "out" / "index.csv"), "index");
  REQUIRE(index.has_value());
  CHECK(index->columns == std::vector<std::string>{"file", "time_s", "segment", "ipa", "word", "clash"});
  REQUIRE(index->rows.size() == expected);
  for (std::size_t k = 0; k < expected; ++k)
    CHECK(*mw::parse_number(index->rows[k][1]) == doctest::Approx(static_cast<double>(k) / 8.0).epsilon(1e-5));
  CHECK(Json::parse(whole(folder / "out" / "index.json"))["frames"].size() == expected);
  CHECK(png_size(whole(folder / "out" / "frame-00001.png")) == std::pair{160, 120});
}

TEST_CASE("frames: the same request gives the same pictures; another time gives another picture") {
  const Folder folder;
  REQUIRE(run_program(frames(folder / "a")).code == 0);
  REQUIRE(run_program(frames(folder / "b")).code == 0);
  std::size_t different = 0;
  std::string last;
  for (std::size_t i = 1; i <= pictures(folder / "a"); ++i) {
    char name[32];
    std::snprintf(name, sizeof name, "frame-%05zu.png", i);
    const std::string a = whole(folder / "a" / name);
    CHECK(a == whole(folder / "b" / name));
    different += a != last;
    last = a;
  }
  CHECK(different >= 4);
}

TEST_CASE("frames: an existing sequence is refused, --overwrite replaces it, --resume fills the gaps") {
  const Folder folder;
  REQUIRE(run_program(frames(folder / "out")).code == 0);
  CHECK(run_program(frames(folder / "out")).code == 3);
  CHECK(run_program(frames(folder / "out", {"--overwrite"})).code == 0);
  const std::string second = whole(folder / "out" / "frame-00002.png");
  fs::remove(folder / "out" / "frame-00002.png");
  CHECK(run_program(frames(folder / "out", {"--resume"})).code == 0);
  CHECK(whole(folder / "out" / "frame-00002.png") == second);
}

TEST_CASE("frames: every segment gives one picture a sound, every landmark more") {
  const Folder folder;
  const auto sounds = Json::parse(run_program({"explain", "--json", "Lamps"}).out)["segments"].size();
  REQUIRE(run_program(frames(folder / "s", {"--every", "segment"})).code == 0);
  CHECK(pictures(folder / "s") == sounds);
  REQUIRE(run_program(frames(folder / "l", {"--every", "landmark"})).code == 0);
  CHECK(pictures(folder / "l") > sounds);
}

TEST_CASE("frames: captions, themes, transparency and odd sizes draw; wrong ones are refused") {
  const Folder folder;
  int n = 0;
  for (const std::vector<std::string>& more : std::vector<std::vector<std::string>>{
           {"--no-captions"}, {"--transparent"}, {"--theme", "dark"}, {"--theme", "high"}, {"--theme", "print"},
           {"--size", "64x64"}, {"--size", "91x333"}, {"--anatomy", "child"}, {"--anatomy", "adult-female"}}) {
    const auto run = run_program(frames(folder / std::to_string(n++), more));
    CHECK_MESSAGE(run.code == 0, more.back() << ": " << run.err);
  }
  for (const std::vector<std::string>& more : std::vector<std::vector<std::string>>{
           {"--size", "63x64"}, {"--size", "9000x100"}, {"--size", "big"}, {"--theme", "neon"}, {"--slow", "99"},
           {"--slow", "0"}, {"--fps", "0"}, {"--fps", "241"}, {"--every", "hour"}})
    CHECK_MESSAGE(run_program(frames(folder / "bad", more)).code == 1, more.back());
  CHECK_FALSE(fs::exists(folder / "bad"));
}

TEST_CASE("frames: a folder that cannot be made or is a file is told, exit 3") {
  const Folder folder;
  std::ofstream(folder / "file") << "x";
  CHECK(run_program(frames(folder / "file")).code == 3);
  CHECK(run_program(frames(folder / "file" / "below")).code == 3);
  CHECK(run_program({"frames", "Lamps"}).code == 1);
}

TEST_CASE("frames: a full disk is told, exit 3, and leaves no half-written picture") {
  // a file size limit stands in for the full disk: every write past it fails
  const Folder folder;
  const std::string command = "ulimit -f 1; trap '' XFSZ; \"$MOUTHWRIGHT_BINARY\" frames Lamps -o " + (folder / "out").string() +
                              " --size 640x480 --fps 2 --slow 1 2>" + (folder / "err").string();
  const int status = std::system(("bash -c '" + mw::replace_all(command, "'", "'\\''") + "'").c_str());
  CHECK(WEXITSTATUS(status) == 3);
  CHECK(pictures(folder / "out") == 0);
  for (const auto& entry : fs::directory_iterator(folder / "out")) CHECK_MESSAGE(false, entry.path().string());
}
