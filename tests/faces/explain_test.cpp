#include "support/program.h"

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>
#include <set>

using mw::test::run_and_signal, mw::test::run_program;
using Json = nlohmann::json;

namespace {
Json explain(const std::vector<std::string>& words) {
  std::vector<std::string> arguments{"explain", "--json"};
  arguments.insert(arguments.end(), words.begin(), words.end());
  const auto run = run_program(arguments);
  REQUIRE_MESSAGE(run.code == 0, run.err);
  REQUIRE(run.out.back() == '\n');
  return Json::parse(run.out);
}

bool has_null(const Json& value) {
  if (value.is_null()) return true;
  for (const auto& item : value)
    if (item.is_structured() ? has_null(item) : item.is_null()) return true;
  return false;
}
} // namespace

TEST_CASE("explain --json: every field of the contract, nothing is null") {
  const Json j = explain({"Mend the kettle."});
  for (const char* key : {"schema", "phrase", "notation", "accent", "anatomy", "rate", "duration_s", "words", "segments",
                          "gestures", "processes", "clashes", "difficulty", "likely_slips", "notes"})
    CHECK_MESSAGE(j.contains(key), key);
  CHECK_FALSE(has_null(j));
  CHECK(j["schema"] == 1);
  CHECK(j["words"].size() == 3);
  CHECK(j["words"][0]["text"] == "Mend");
  CHECK(j["words"][0]["lexical_sets"] == Json::array({"DRESS"}));
  CHECK(j["words"][0]["syllables"][0]["onset"] == Json::array({"m"}));
  CHECK(j["words"][0]["syllables"][0]["nucleus"] == Json::array({"\u025b"}));
  CHECK(j["words"][0]["syllables"][0]["coda"] == Json::array({"n", "d"}));
  CHECK(j["words"][2]["start"] == 9);
  CHECK(j["words"][2]["end"] == 15);
}

TEST_CASE("explain --json: segments follow each other in time without overlap, and belong to their words") {
  const Json j = explain({"The brass ladle rests beside nine kettles, and the lamp is lit."});
  double last = 0;
  for (const auto& s : j["segments"]) {
    CHECK(s["start_s"].get<double>() >= last - 1e-9);
    CHECK(s["end_s"].get<double>() > s["start_s"].get<double>());
    last = s["end_s"];
    CHECK(s["word"].get<std::size_t>() < j["words"].size());
    CHECK(std::set<std::string>{"onset", "nucleus", "coda"}.count(s["slot"]) == 1);
  }
  CHECK(j["duration_s"].get<double>() >= last);
}

TEST_CASE("explain --json: gestures name articulators and goals of the contract") {
  const Json j = explain({"Pink tongs"});
  const std::set<std::string> articulators{"lips", "tip", "body", "root", "velum", "jaw", "larynx", "glottis"};
  const std::set<std::string> degrees{"closed", "critical", "narrow", "open"};
  bool lips_close = false;
  for (const auto& g : j["gestures"]) {
    CHECK(articulators.count(g["articulator"]) == 1);
    CHECK(degrees.count(g["goal"]["degree"]) == 1);
    CHECK(g["segment"].get<std::size_t>() < j["segments"].size());
    CHECK(g["end_s"].get<double>() > g["start_s"].get<double>());
    lips_close = lips_close || (g["articulator"] == "lips" && g["goal"]["degree"] == "closed");
  }
  CHECK(lips_close);
}

TEST_CASE("explain: the same words give the same bytes") {
  const std::vector<std::string> words{"explain", "Nell polishes spoons", "--json", "--accent", "SSBE", "--rate", "6"};
  CHECK(run_program(words).out == run_program(words).out);
}

TEST_CASE("explain: IPA is taken as written, with its glides, affricates and syllables") {
  const Json j = explain({"/\u02c8t\u0283a\u026an\u0259.k\u025bt\u0259l/", "--notation", "ipa"});
  REQUIRE(j["words"].size() == 1);
  CHECK(j["words"][0]["source"] == "typed");
  CHECK(j["words"][0]["lexical_sets"] == Json::array());
  CHECK(j["words"][0]["syllables"][0]["onset"] == Json::array({"t\u0283"}));
  CHECK(j["words"][0]["syllables"][0]["nucleus"] == Json::array({"a\u026a"}));
  CHECK(j["words"][0]["syllables"][0]["stress"] == 1);
}

TEST_CASE("explain: X-SAMPA and IPA of the same sounds give the same segments") {
  CHECK(explain({"\"kEt@l", "--notation", "xsampa"})["segments"] == explain({"\u02c8k\u025bt\u0259l", "--notation", "ipa"})["segments"]);
}

TEST_CASE("explain: the text speaks to people: transcription, bars in words, the caution") {
  const auto run = run_program({"explain", "Six slim sash straps", "--accent", "SSBE"});
  CHECK(run.code == 0);
  for (const char* part : {"Slips", "Slowing", "Late start", "Drift", "speech-language pathologist"})
    CHECK_MESSAGE(run.out.find(part) != std::string::npos, part);
}

TEST_CASE("explain: each articulator's pace is comfortable, fast or beyond most speakers, and worse at a higher rate") {
  const auto judged = [](const char* rate) { return explain({"Tin tops tip ten tall tins", "--rate", rate})["speeds"]; };
  const Json slow = judged("2"), quick = judged("9");
  REQUIRE(slow["articulators"].size() >= 1);
  CHECK(slow["articulators"][0]["articulator"] == "tip");
  CHECK(slow["judgement"] == "comfortable");
  CHECK(quick["judgement"] == "beyond most speakers");
  for (const auto& row : quick["articulators"]) {
    CHECK(row["comfortable_up_to_syllables_per_s"].get<double>() < row["fast_up_to_syllables_per_s"].get<double>());
    CHECK(std::set<std::string>{"comfortable", "fast", "beyond most speakers"}.contains(row["judgement"]));
  }
  CHECK(run_program({"explain", "Tin tops tip ten tall tins", "--rate", "9"}).out.find("The pace is beyond most speakers") != std::string::npos);
}

TEST_CASE("explain: exit codes: wrong use 1, unusable phrase 2, always with a message") {
  struct Case { std::vector<std::string> words; int code; };
  const std::vector<Case> cases{
      {{"explain"}, 1},
      {{"explain", "a", "b"}, 1},
      {{"explain", "kettle", "--rate", "0.5"}, 1},
      {{"explain", "kettle", "--rate", "nine"}, 1},
      {{"explain", "kettle", "--rate", "nan"}, 1},
      {{"explain", "kettle", "--rate", "inf"}, 1},
      {{"explain", "kettle", "--casual", "nan"}, 1},
      {{"motion", "kettle", "--fps", "nan"}, 1},
      {{"frames", "kettle", "--slow", "nan", "-o", "never-written"}, 1},
      {{"explain", "kettle", "--no-such-option"}, 1},
      {{"explain", "kettle", "--accent", "no-such-accent"}, 1},
      {{"explain", "kettle", "--anatomy", "giant"}, 1},
      {{"explain", "kettle", "--notation", "runes"}, 1},
      {{"explain", ""}, 2},
      {{"explain", "?!..."}, 2},
      {{"explain", std::string(10001, 'a')}, 2},
      {{"explain", std::string(100000, 'a')}, 2},
      {{"explain", "kettle \xff\xfe"}, 2},
      {{"explain", "k\u0259t\u00bf", "--notation", "ipa"}, 2},
      {{"explain", "kettle", "--accent", "./no/such/file.toml"}, 2},
      {{"no-such-command"}, 1},
  };
  for (const auto& c : cases) {
    const auto run = run_program(c.words);
    CHECK_MESSAGE(run.code == c.code, c.words.back().substr(0, 40) << ": " << run.err);
    CHECK(run.err.substr(0, 13) == "mouthwright: ");
    CHECK(run.out.empty());
  }
}

TEST_CASE("explain: odd but usable input is fine and noted") {
  const Json tags = explain({"<b>kettles</b> \U0001F600"});
  CHECK(tags["notes"].size() >= 1);
  CHECK(tags["words"].size() >= 1);
  for (const char* phrase : {"12 kettles", "\u201cDon\u2019t\u201d, said Nell", "half-mended", "a\u0301b", "tab\there", "M\u00fcller's caf\u00e9"})
    CHECK_MESSAGE(run_program({"explain", phrase}).code == 0, phrase);
}

TEST_CASE("explain: - reads the phrase from standard input, -- ends the options") {
  CHECK(run_program({"explain", "-", "--json"}, "mend it").code == 0);
  // the end of the line is no part of the phrase
  CHECK(run_program({"explain", "-", "--json"}, "mend it\n").out == run_program({"explain", "mend it", "--json"}).out);
  CHECK(run_program({"explain", "--json", "--", "--mend"}).code == 0);
}

TEST_CASE("interrupted: a long command ends with 130, as an exit of its own") {
  CHECK(run_and_signal({"evidence", "speech"}, SIGINT, 1500) == 130);
}

TEST_CASE("--help and --version answer everywhere") {
  CHECK(run_program({"--help"}).out.find("explain") != std::string::npos);
  CHECK(run_program({"--version"}).out.find("0.3.0") != std::string::npos);
  for (const char* command : {"explain", "motion", "shape", "frames", "accents", "evidence", "rank"}) {
    const auto help = run_program({command, "--help"});
    CHECK(help.code == 0);
    CHECK(help.out.find("Exit codes") != std::string::npos);
    CHECK(run_program({command, "--version"}).code == 0);
  }
}
