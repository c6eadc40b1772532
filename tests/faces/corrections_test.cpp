#include "support/program.h"

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

using mw::test::Folder;
using mw::test::run_program;
using Json = nlohmann::json;

TEST_CASE("--say: a word as the user wants it, several times, by sounds or sets") {
  const auto run = run_program({"explain", "the tomato kettle", "--say", "tomato=t commA m PALM t GOAT", "--say", "Kettle=/\u02c8k\u026ad\u0259l/", "--json"});
  REQUIRE_MESSAGE(run.code == 0, run.err);
  const Json j = Json::parse(run.out);
  CHECK(j["words"][1]["source"] == "correction");
  CHECK(j["words"][1]["lexical_sets"] == Json::array({"commA", "PALM", "GOAT"}));
  CHECK(j["words"][2]["ipa"] == "\u02c8k\u026a.d\u0259l");
  CHECK(run_program({"explain", "pot", "--say", "pot"}).code == 1);
  CHECK(run_program({"explain", "pot", "--say", "=x"}).code == 1);
  CHECK(run_program({"explain", "pot", "--say", "pot=/\u00bf/"}).code == 2);
}

TEST_CASE("the coach's own dictionary is read; its errors are notes with file and line; --say wins over it") {
  const Folder home;
  std::filesystem::create_directories(home / "mouthwright");
  std::ofstream(home / "mouthwright/words.txt") << "# names\nnell = n PRICE l\nthis line is no line\n";
  const std::vector<std::string> there{"XDG_CONFIG_HOME=" + home.path().string()};
  const auto run = run_program({"explain", "Nell", "--json"}, "", there);
  REQUIRE_MESSAGE(run.code == 0, run.err);
  const Json j = Json::parse(run.out);
  CHECK(j["words"][0]["source"] == "correction");
  CHECK(j["words"][0]["lexical_sets"] == Json::array({"PRICE"}));
  bool told = false;
  for (const auto& note : j["notes"]) told = told || note["text"].get<std::string>().find("words.txt line 3") != std::string::npos;
  CHECK(told);
  const Json mine = Json::parse(run_program({"explain", "Nell", "--say", "nell=KIT", "--json"}, "", there).out);
  CHECK(mine["words"][0]["lexical_sets"] == Json::array({"KIT"}));
  CHECK(Json::parse(run_program({"explain", "Nell", "--json"}).out)["words"][0]["source"] != "correction");
}
