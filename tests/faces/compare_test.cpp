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
Json json_of(const std::vector<std::string>& words, const std::string& input = "") {
  const auto run = run_program(words, input);
  REQUIRE_MESSAGE(run.code == 0, run.err);
  REQUIRE(run.out.back() == '\n');
  return Json::parse(run.out);
}
Json compared(const std::string& phrase, const std::string& a, const std::string& b) {
  return json_of({"compare", phrase, "--accent", a, "--with", b, "--json"});
}
Json segments(const std::string& phrase, const std::string& accent) {
  return json_of({"explain", phrase, "--accent", accent, "--json"})["segments"];
}
// every segment of both sides stands once, in order; `same` says what the two transcriptions say
void check_pairs(const std::string& phrase, const std::string& a, const std::string& b) {
  INFO(phrase << " " << a << " " << b);
  const Json j = compared(phrase, a, b), left = segments(phrase, a), right = segments(phrase, b);
  std::size_t next_a = 0, next_b = 0;
  for (const auto& pair : j["pairs"]) {
    if (pair.contains("a")) CHECK(pair["a"] == next_a++);
    if (pair.contains("b")) CHECK(pair["b"] == next_b++);
    const bool both = pair.contains("a") && pair.contains("b");
    CHECK((pair.contains("a") || pair.contains("b")));
    CHECK(pair["same"].get<bool>() == (both && left.at(pair["a"].get<std::size_t>())["ipa"] == right.at(pair["b"].get<std::size_t>())["ipa"]));
    CHECK(pair["same"].get<bool>() == pair["text"].get<std::string>().empty());
  }
  CHECK(next_a == left.size());
  CHECK(next_b == right.size());
}
} // namespace

TEST_CASE("compare --json: phrase, both accents, pairs and shifts; General American unless asked otherwise") {
  const Json j = json_of({"compare", "Mend the kettle.", "--with", "SSBE", "--json"});
  CHECK(j["schema"] == 1);
  CHECK(j["phrase"] == "Mend the kettle.");
  CHECK(j["accent"] == "GA");
  CHECK(j["with"] == "SSBE");
  CHECK(j["pairs"].size() >= 10);
  CHECK(j["shifts"].is_array());
  CHECK(j == compared("Mend the kettle.", "GA", "SSBE"));
}

TEST_CASE("compare --json: the indices are those of the segments of explain in each accent") {
  check_pairs("Far lamps rattle by the car.", "GA", "SSBE");
  check_pairs("Far lamps rattle by the car.", "COCK", "SSE");
  check_pairs("Nell's brass kettle, and nothing better.", "NZ", "SUS");
}

TEST_CASE("compare --json: numbers that the accents read with other words still pair") {
  check_pairs("101 kettles", "GA", "SSBE");
  check_pairs("Mend 101 kettles on 12/3.", "SSBE", "GA");
}

TEST_CASE("compare --json: a sound that one side does not say leaves its index out") {
  const Json j = compared("far", "GA", "RP");
  REQUIRE(j["pairs"].size() == 3);
  CHECK(j["pairs"][2].contains("a"));
  CHECK_FALSE(j["pairs"][2].contains("b"));
  CHECK_FALSE(j["pairs"][2]["same"].get<bool>());
  const Json other = compared("far", "RP", "GA");
  CHECK_FALSE(other["pairs"][2].contains("a"));
  CHECK(other["pairs"][2]["b"] == 2);
}

TEST_CASE("compare --json: two vowels that one accent merges are kept_apart or merged, by the side") {
  const Json apart = compared("hot, caught", "RP", "CAN")["shifts"];
  REQUIRE(apart.size() == 1);
  CHECK(apart[0]["kind"] == "kept_apart");
  CHECK(apart[0]["words"] == Json::array({"hot", "caught"}));
  CHECK(apart[0]["a_ipa"][0] != apart[0]["a_ipa"][1]);
  CHECK(apart[0]["b_ipa"][0] == apart[0]["b_ipa"][1]);
  CHECK(apart[0]["text"].get<std::string>().find("caught") != std::string::npos);
  const Json merged = compared("hot, caught", "CAN", "RP")["shifts"];
  REQUIRE(merged.size() == 1);
  CHECK(merged[0]["kind"] == "merged");
  CHECK(merged[0]["a_ipa"] == apart[0]["b_ipa"]);
  CHECK(merged[0]["b_ipa"] == apart[0]["a_ipa"]);
}

TEST_CASE("compare --json: one sign made in two ways is the same sound, and the ways are told beside it") {
  const Json j = compared("red", "GA", "SSBE");
  CHECK(j["pairs"][0]["same"] == true);
  CHECK(j["pairs"][0]["text"] == "");
  const std::string way = j["pairs"][0]["way"];
  CHECK_MESSAGE(way.find("bunched") != std::string::npos, way);
  CHECK_FALSE(compared("red", "GA", "GA")["pairs"][0].contains("way"));
  CHECK_FALSE(j["pairs"][1].contains("way"));
}

TEST_CASE("compare: an accent with itself, or typed sounds in any two, differ nowhere") {
  for (const Json& j : {compared("Brass lamps rattle.", "NZ", "NZ"),
                        json_of({"compare", "\u02c8l\u00e6mp", "--notation", "ipa", "--with", "NZ", "--json"})}) {
    REQUIRE(j["pairs"].size() >= 4);
    for (const auto& pair : j["pairs"]) CHECK(pair["same"] == true);
    CHECK(j["shifts"] == Json::array());
  }
}

TEST_CASE("compare: an accent file of one's own is taken on either side, and its id is told") {
  const Folder folder;
  const std::string nz = *mw::read_asset("accents/NZ.toml"), path = (folder / "own.toml").string();
  std::ofstream(path) << mw::replace_all(nz, "id = \"NZ\"", "id = \"OWN\"");
  const Json own = compared("Mend the lamp.", "GA", path), shipped = compared("Mend the lamp.", "GA", "NZ");
  CHECK(own["with"] == "OWN");
  CHECK(own["pairs"] == shipped["pairs"]);
  CHECK(compared("Mend the lamp.", path, "GA")["accent"] == "OWN");
}

TEST_CASE("compare: without --json plain words: both transcriptions, what differs, what merges") {
  const auto run = run_program({"compare", "hot, caught", "--accent", "RP", "--with", "CAN"});
  REQUIRE(run.code == 0);
  for (const char* part : {"hot, caught\n", "\nRP: /", "\nCAN: /", "in the other accent", "two vowels"})
    CHECK_MESSAGE(run.out.find(part) != std::string::npos, part);
  const auto alike = run_program({"compare", "-", "--accent", "RP", "--with", "RP"}, "hot, caught");
  REQUIRE(alike.code == 0);
  CHECK(alike.out.find("is the same") != std::string::npos);
  CHECK(alike.out.find("in the other accent") == std::string::npos);
}

TEST_CASE("compare: what is missing or broken has its exit code and is named") {
  const Folder folder;
  const std::string broken = (folder / "broken.toml").string(), gone = (folder / "gone.toml").string();
  std::ofstream(broken) << "id = \"B\n";
  const auto fails = [](const std::vector<std::string>& words, int code, const std::string& named) {
    const auto run = run_program(words);
    CHECK_MESSAGE(run.code == code, run.err);
    CHECK_MESSAGE(run.err.find(named) != std::string::npos, run.err);
    CHECK(run.out.empty());
  };
  fails({"compare", "lamp"}, 1, "--with");
  fails({"compare", "--with", "GA"}, 1, "PHRASE");
  fails({"compare", "lamp", "--with", "XX"}, 1, "XX");
  fails({"compare", "lamp", "--accent", "YY", "--with", "GA"}, 1, "YY");
  fails({"compare", "lamp", "--with", gone}, 2, "gone.toml");
  fails({"compare", "lamp", "--with", broken}, 2, "broken.toml line 1");
  fails({"compare", "lamp", "--accent", broken, "--with", "GA"}, 2, "broken.toml");
  fails({"compare", "", "--with", "GA"}, 2, "mouthwright: ");
  fails({"compare", "\xff", "--with", "GA"}, 2, "UTF-8");
}

TEST_CASE("compare: for each sound that differs the move is told that reaches it, and the changes hold all pairs that differ") {
  const Json j = compared("Brass kettles rattle.", "SSBE", "GA");
  std::set<std::size_t> told;
  for (const auto& change : j["changes"]) {
    CHECK_FALSE(change["title"].get<std::string>().empty());
    for (const auto& at : change["pairs"]) CHECK(told.insert(at.get<std::size_t>()).second);
  }
  std::size_t moves = 0;
  for (std::size_t i = 0; i < j["pairs"].size(); ++i) {
    if (j["pairs"][i]["same"].get<bool>()) continue;
    CHECK(told.contains(i));
    moves += j["pairs"][i]["text"].get<std::string>().find("; for ") != std::string::npos;
  }
  CHECK(moves >= 3);
  // the other way round the tongue goes the other way
  const std::string there = j["changes"].dump(), back = compared("Brass kettles rattle.", "GA", "SSBE")["changes"].dump();
  CHECK(there.find("the tongue goes back and down") != std::string::npos);
  CHECK(back.find("the tongue goes forward and up") != std::string::npos);
}

TEST_CASE("compare -o: the two mouths as a picture, of the size and in the theme asked for, at the place asked for") {
  const Folder folder;
  const auto draw = [&](const std::string& file, const std::vector<std::string>& more) {
    std::vector<std::string> words{"compare", "Brass kettles rattle.", "--accent", "SSBE", "--with", "GA", "-o", (folder / file).string()};
    words.insert(words.end(), more.begin(), more.end());
    return run_program(words);
  };
  for (const char* file : {"a.svg", "a.pdf", "a.png"}) {
    const auto run = draw(file, {});
    REQUIRE_MESSAGE(run.code == 0, run.err);
    CHECK(run.out.empty());
    CHECK(mw::test::whole(folder / file).size() > 5000);
  }
  const std::string svg = mw::test::whole(folder / "a.svg");
  for (const char* part : {"<svg", "</svg>"}) CHECK(svg.find(part) != std::string::npos);
  const std::string png = mw::test::whole(folder / "a.png");
  for (const std::vector<std::string>& more : {std::vector<std::string>{"--theme", "dark"}, {"--at", "kettles"}, {"--at", "t"}, {"--at", "9"}, {"--anatomy", "child"}, {"--size", "640x480"}}) {
    const std::string file = more[0].substr(2) + more[1] + ".png";
    const auto run = draw(file, more);
    REQUIRE_MESSAGE(run.code == 0, run.err);
    CHECK_MESSAGE(mw::test::whole(folder / file) != png, file);
  }
  CHECK(mw::test::whole(folder / "atkettles.png") == mw::test::whole(folder / "att.png")); // the first t that differs stands in kettles
  CHECK(draw("none.png", {"--at", "spoons"}).code == 1);
  CHECK(draw("none.gif", {}).code == 1);
  CHECK(draw("a.png", {}).code == 3); // it is there
  CHECK(draw("a.png", {"--overwrite"}).code == 0);
  CHECK(run_program({"compare", "Brass", "--with", "GA", "--at", "Brass"}).code == 1);
  const auto both = draw("b.svg", {"--json"});
  REQUIRE(both.code == 0);
  CHECK(Json::parse(both.out)["pairs"].size() > 5);
}
