#include "support/program.h"

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include <algorithm>

using mw::test::Folder;
using mw::test::run_program;
using Json = nlohmann::json;

namespace {
std::size_t shifts_in(const Json& list) {
  return static_cast<std::size_t>(std::count_if(list.begin(), list.end(), [](const Json& c) { return c["kind"] == "accent_shift"; }));
}
} // namespace

TEST_CASE("explain --learner: accent shifts among the clashes, the learner's words beside them") {
  const Json with = Json::parse(run_program({"explain", "pull the pool cue", "--learner", "SSE", "--json"}).out);
  CHECK(with["learner"] == "SSE");
  CHECK(with["learner_words"].size() == with["words"].size());
  CHECK(shifts_in(with["clashes"]) == 1);
  const Json without = Json::parse(run_program({"explain", "pull the pool cue", "--json"}).out);
  CHECK_FALSE(without.contains("learner"));
  CHECK(shifts_in(without["clashes"]) == 0);
  const auto text = run_program({"explain", "pull the pool cue", "--learner", "SSE"});
  CHECK(text.out.find("your own accent, ") != std::string::npos);
  CHECK(text.out.find("Accent shift") != std::string::npos);
}

TEST_CASE("--learner: an unknown accent is wrong use, a missing file a problem with the input, in every command that takes it") {
  const Folder folder;
  const std::string script = (folder / "script.txt").string();
  std::ofstream(script) << "pull the pool cue\n";
  const std::vector<std::vector<std::string>> commands{
      {"explain", "pool"},
      {"frames", "pool", "-o", (folder / "frames").string()},
      {"strip", "pool", "-o", (folder / "strip.svg").string()},
      {"sheet", "pool", "-o", (folder / "sheet.pdf").string()},
      {"rank", script},
  };
  for (auto words : commands) {
    CHECK(run_program({words[0], "--help"}).out.find("--learner") != std::string::npos);
    words.insert(words.end(), {"--learner", "no-such-accent"});
    CHECK_MESSAGE(run_program(words).code == 1, words[0]);
    words.back() = "./no/such/file.toml";
    CHECK_MESSAGE(run_program(words).code == 2, words[0]);
  }
}

TEST_CASE("rank --learner: shifts are spots of the line, and its bars stay") {
  const Folder folder;
  const std::string script = (folder / "script.txt").string();
  std::ofstream(script) << "pull the pool cue\n";
  const Json with = Json::parse(run_program({"rank", script, "--json", "--learner", "SSE"}).out);
  const Json without = Json::parse(run_program({"rank", script, "--json"}).out);
  CHECK(shifts_in(with["spots"]) == 1);
  CHECK(shifts_in(without["spots"]) == 0);
  CHECK(with["overall"] == without["overall"]);
}

TEST_CASE("frames --learner: the index names the shift") {
  const Folder folder;
  const auto out = folder / "frames";
  const auto run = run_program({"frames", "pull the pool", "-o", out.string(), "--every", "segment", "--size", "128x72", "--learner", "SSE"});
  REQUIRE_MESSAGE(run.code == 0, run.err);
  CHECK(mw::test::whole(out / "index.csv").find("accent_shift") != std::string::npos);
}
