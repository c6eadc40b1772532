#include "base/assets.h"
#include "base/text.h"
#include "support/program.h"

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>
#include <set>

using mw::test::Folder;
using mw::test::run_program;
using Json = nlohmann::json;

namespace {
Json json_of(const std::vector<std::string>& words) {
  const auto run = run_program(words);
  REQUIRE_MESSAGE(run.code == 0, run.err);
  return Json::parse(run.out);
}

// a shipped accent with one line of it changed
struct Edited {
  Folder folder;
  std::string path = (folder / "own.toml").string();
  std::vector<std::string> lines = mw::split(*mw::read_asset("accents/GA.toml"), '\n');
  // 1 for the first line that starts so
  std::size_t line_of(const std::string& start) const {
    for (std::size_t i = 0; i < lines.size(); ++i)
      if (lines[i].starts_with(start)) return i + 1;
    FAIL("no line starts with " << start);
    return 0;
  }
  mw::test::Outcome check() const {
    std::string text;
    for (const auto& line : lines) text += line + "\n";
    std::ofstream(path, std::ios::binary) << text;
    return run_program({"accents", "--check", path});
  }
};

void refused(const mw::test::Outcome& run, std::size_t line, const std::string& reason) {
  CHECK_MESSAGE(run.code == 2, run.err);
  CHECK(run.out.empty());
  CHECK(run.err.starts_with("mouthwright: "));
  CHECK_MESSAGE(run.err.find("own.toml line " + std::to_string(line) + ",") != std::string::npos, run.err << " wanted " << line);
  CHECK_MESSAGE(run.err.find(reason) != std::string::npos, run.err);
}
} // namespace

TEST_CASE("accents: the list holds every accent once, in words and as JSON, and each can be opened") {
  const Json j = json_of({"accents", "--json"});
  CHECK(j["schema"] == 1);
  const auto text = run_program({"accents"});
  REQUIRE(text.code == 0);
  const auto lines = mw::split(text.out, '\n');
  REQUIRE(lines.size() == j["accents"].size() + 1); // the last line ends
  CHECK(j["accents"].size() >= 19);
  std::set<std::string> ids;
  for (std::size_t i = 0; i < j["accents"].size(); ++i) {
    const Json& a = j["accents"][i];
    const std::string id = a["id"];
    CHECK(ids.insert(id).second);
    CHECK(lines[i].starts_with(id + "  " + a["name"].get<std::string>()));
    CHECK_FALSE(a["status"].get<std::string>().empty());
    CHECK(run_program({"accents", id}).code == 0);
  }
  CHECK(ids.contains("GA"));
  CHECK(ids.contains("SSBE"));
}

TEST_CASE("accents ID --json: every set, rule and shift of posture with its source and status") {
  for (const char* id : {"GA", "SSBE", "SSE"}) {
    const Json j = json_of({"accents", id, "--json"});
    CHECK(j["schema"] == 1);
    CHECK(j["id"] == id);
    CHECK_FALSE(j["name"].get<std::string>().empty());
    for (const char* set : {"KIT", "DRESS", "TRAP", "LOT", "STRUT", "FOOT", "BATH", "CLOTH", "NURSE", "FLEECE", "FACE", "PALM",
                            "THOUGHT", "GOAT", "GOOSE", "PRICE", "CHOICE", "MOUTH", "NEAR", "SQUARE", "START", "NORTH", "FORCE",
                            "CURE", "happY", "lettER", "commA"}) {
      REQUIRE_MESSAGE(j["sets"].contains(set), id << " " << set);
      for (const char* key : {"ipa", "source", "status"}) CHECK_FALSE(j["sets"][set][key].get<std::string>().empty());
    }
    for (const char* group : {"rules", "posture"})
      for (const auto& [name, value] : j[group].items())
        for (const char* key : {"value", "source", "status"}) CHECK_MESSAGE(!value[key].get<std::string>().empty(), name);
    CHECK(j["rules"].contains("rhotic"));
  }
  CHECK(json_of({"accents", "GA", "--json"})["rules"]["rhotic"]["value"] != json_of({"accents", "SSBE", "--json"})["rules"]["rhotic"]["value"]);
}

TEST_CASE("accents ID: in words, the same values as in JSON") {
  const Json j = json_of({"accents", "NZ", "--json"});
  const std::string text = run_program({"accents", "NZ"}).out;
  for (const auto& [set, value] : j["sets"].items())
    CHECK_MESSAGE(text.find("  " + set + ": " + value["ipa"].get<std::string>() + "  [") != std::string::npos, set);
  for (const auto& [name, value] : j["rules"].items())
    CHECK_MESSAGE(text.find("  " + name + ": " + value["value"].get<std::string>()) != std::string::npos, name);
}

TEST_CASE("accents: an unknown id is wrong use, a missing file a problem of the input") {
  const auto unknown = run_program({"accents", "XX"});
  CHECK(unknown.code == 1);
  CHECK(unknown.err.find("XX") != std::string::npos);
  CHECK(unknown.err.find("SSBE") != std::string::npos);
  CHECK(run_program({"accents", "gone.toml"}).code == 2);
  CHECK(run_program({"accents", "--check", "gone.toml"}).code == 2);
  CHECK(run_program({"accents", "GA", "RP"}).code == 1);
}

TEST_CASE("accents --check: every shipped accent is fine") {
  for (const Json list = json_of({"accents", "--json"}); const auto& a : list["accents"]) {
    const auto run = run_program({"accents", "--check", (*mw::assets_folder() / "accents" / (a["id"].get<std::string>() + ".toml")).string()});
    CHECK_MESSAGE(run.code == 0, run.err);
    CHECK(run.out.find("fine") != std::string::npos);
  }
}

TEST_CASE("accents --check: a file cut off in a text is told with the line of the cut") {
  Edited own;
  const std::size_t at = own.line_of("ipa = ");
  own.lines.resize(at);
  own.lines.back().pop_back(); // the closing quotation mark
  CHECK(own.check().code == 2);
  refused(own.check(), at, "string");
}

TEST_CASE("accents --check: a file cut off between tables names what is missing") {
  Edited own;
  own.lines.resize(own.line_of("[sets.DRESS]") - 1);
  const auto run = own.check();
  CHECK(run.code == 2);
  CHECK_MESSAGE(run.err.find("own.toml line ") != std::string::npos, run.err);
}

TEST_CASE("accents --check: a wrong type, an unknown key, a sound that is none, each with its line") {
  Edited type;
  type.lines[0] = "id = 3";
  refused(type.check(), 1, "\"id\" is not a text");
  Edited key;
  const std::size_t set = key.line_of("[sets.STRUT]");
  key.lines.insert(key.lines.begin() + static_cast<long>(set), "colour = \"red\"");
  refused(key.check(), set + 1, "colour");
  Edited sound;
  const std::size_t foot = sound.line_of("[sets.FOOT]");
  sound.lines[foot] = "ipa = \"?!\"";
  refused(sound.check(), foot + 1, "?!");
}

TEST_CASE("accents --check: bytes that are not UTF-8 are told with their line") {
  Edited own;
  const std::size_t at = own.line_of("[sets.TRAP]");
  own.lines[at] = "ipa = \"\xff\"";
  refused(own.check(), at + 1, "UTF-8");
}

TEST_CASE("accents --check: what is too large, goes in circles, is said twice or nests without end is told with its file") {
  Edited circle; // the name of its start is told and never followed, so it cannot run in circles
  circle.lines[1] = "name = \"x\"\nbased_on = \"GA\"";
  CHECK(circle.check().code == 0);
  Edited twice;
  const std::size_t foot = twice.line_of("[sets.FOOT]");
  twice.lines[foot - 1] = "[sets.KIT]";
  refused(twice.check(), foot, "KIT");
  Edited rules; // one rule that speaks of another: rules are values and cannot
  const std::size_t rhotic = rules.line_of("[rules.rhotic]");
  rules.lines[rhotic] = "value = \"linking_r\"";
  refused(rules.check(), rhotic + 1, "not a value of rhotic");
  Edited deep;
  deep.lines[0] = "id = " + std::string(100000, '[');
  refused(deep.check(), 1, "nest");
  Edited large;
  large.lines.push_back(std::string(10u << 20, '#'));
  const auto run = large.check();
  CHECK(run.code == 2);
  CHECK(run.err.find("own.toml") != std::string::npos);
  CHECK(run.err.find("MB") != std::string::npos);
}

TEST_CASE("accents --json: what an accent is based on, and of each rule what it means and whether it acts") {
  Edited own;
  own.lines[0] = "id = \"lane\"\nbased_on = \"GA\"";
  REQUIRE(own.check().code == 0);
  const Json j = json_of({"accents", own.path, "--json"});
  CHECK(j["based_on"] == "GA");
  CHECK_FALSE(json_of({"accents", "GA", "--json"}).contains("based_on"));
  for (const auto& [name, rule] : j["rules"].items()) {
    INFO(name);
    CHECK_FALSE(rule["meaning"].get<std::string>().empty());
    CHECK(rule["acts"].get<bool>() != rule.contains("reason"));
  }
}

TEST_CASE("accents: a coach's own are listed after the shipped ones, taken by --accent, and a broken one is told with its line") {
  const Folder home;
  const std::string old = std::getenv("XDG_DATA_HOME") ? std::getenv("XDG_DATA_HOME") : "";
  setenv("XDG_DATA_HOME", (home / "data").c_str(), 1);
  const auto folder = home / "data" / "mouthwright" / "accents";
  std::filesystem::create_directories(folder);
  const std::string text = mw::replace_all(*mw::read_asset("accents/GA.toml"), "id = \"GA\"", "id = \"lane\"\nbased_on = \"GA\"");
  std::ofstream(folder / "lane.toml", std::ios::binary) << text;
  std::ofstream(folder / "torn.toml", std::ios::binary) << "id = \"torn\"\nname = [";
  const Json list = json_of({"accents", "--json"})["accents"];
  REQUIRE(list.size() >= 21);
  const Json &lane = list[list.size() - 2], &torn = list[list.size() - 1];
  CHECK(lane["id"] == "lane");
  CHECK(lane["status"] == "yours");
  CHECK(lane["based_on"] == "GA");
  CHECK_FALSE(lane.contains("problem"));
  CHECK(torn["problem"].get<std::string>().find("torn.toml line 2") != std::string::npos);
  CHECK(run_program({"explain", "kettle", "--accent", "lane"}).code == 0);
  const auto refused = run_program({"explain", "kettle", "--accent", "torn"});
  CHECK(refused.code == 2);
  CHECK(refused.err.find("torn.toml line 2") != std::string::npos);
  setenv("XDG_DATA_HOME", old.c_str(), 1);
}

TEST_CASE("accents ID -o: the vowels as a picture, alone or with a second accent; what is missing is named") {
  const mw::test::Folder folder;
  const auto draw = [&](const std::vector<std::string>& more) {
    std::vector<std::string> words{"accents"};
    words.insert(words.end(), more.begin(), more.end());
    return mw::test::run_program(words);
  };
  const std::string one = (folder / "one.svg").string(), two = (folder / "two.svg").string();
  REQUIRE(draw({"SSBE", "-o", one}).code == 0);
  REQUIRE(draw({"SSBE", "--with", "GA", "-o", two}).code == 0);
  CHECK(mw::test::whole(two).size() > mw::test::whole(one).size());
  for (const char* ending : {".png", ".pdf"}) CHECK(draw({"GA", "-o", (folder / (std::string("x") + ending)).string(), "--theme", "dark", "--size", "900x600"}).code == 0);
  CHECK(draw({"-o", one}).code == 1);
  CHECK(draw({"SSBE", "--with", "GA"}).code == 1);
  CHECK(draw({"SSBE", "--with", "XX", "-o", (folder / "y.svg").string()}).code == 1);
  CHECK(draw({"SSBE", "-o", one}).code == 3);
}
