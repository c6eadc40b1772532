#include "base/text.h"
#include "support/program.h"

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

using mw::test::run_program;
using Json = nlohmann::json;

namespace {
Json table(const std::string& name) {
  const auto run = run_program({"evidence", name, "--json"});
  REQUIRE_MESSAGE(run.code == 0, run.err);
  return Json::parse(run.out);
}
bool any_row_fails(const Json& j) {
  for (const auto& row : j["rows"])
    if (row.contains("pass") && !row["pass"].get<bool>()) return true;
  return false;
}
} // namespace

TEST_CASE("evidence: every table of the contract is computed, in words, and ends in a verdict") {
  for (const char* name : {"formants", "places", "areas", "speech", "lexical-sets", "ranking", "rates"}) {
    const auto run = run_program({"evidence", name});
    REQUIRE_MESSAGE(run.code == 0, name << ": " << run.err);
    const auto lines = mw::split(run.out, '\n');
    REQUIRE(lines.size() >= 4);
    const std::string last = lines[lines.size() - 2];
    CHECK_MESSAGE((last.starts_with("pass: ") || last.starts_with("FAIL: ")), name << ": " << last);
    CHECK(lines.back().empty());
  }
}

TEST_CASE("evidence --json: title, rows with both figures and their source, summary; a failing row fails the table") {
  for (const char* name : {"formants", "places", "areas", "lexical-sets", "ranking", "rates"}) {
    const Json j = table(name);
    INFO(name);
    CHECK(j["schema"] == 1);
    CHECK(j["name"] == name);
    for (const char* key : {"title", "summary"}) CHECK_FALSE(j[key].get<std::string>().empty());
    CHECK(j["rows"].size() >= 3);
    for (const auto& row : j["rows"]) {
      for (const char* key : {"what", "ours", "published", "source"}) CHECK_MESSAGE(!row[key].get<std::string>().empty(), key);
      CHECK(row["difference"].is_string());
    }
    if (any_row_fails(j)) CHECK(j["pass"] == false);
  }
}

TEST_CASE("evidence: formants, places, rates and the ranking meet the published figures") {
  for (const char* name : {"formants", "places", "rates", "ranking"}) {
    const Json j = table(name);
    CHECK_MESSAGE(j["pass"] == true, name << ": " << j["summary"]);
    CHECK_FALSE(any_row_fails(j));
  }
}

TEST_CASE("evidence: in words and as JSON the same figures; twice the same bytes") {
  const auto words = run_program({"evidence", "rates"});
  const Json j = table("rates");
  for (const auto& row : j["rows"]) {
    const std::string line = row["what"].get<std::string>() + ": " + row["ours"].get<std::string>() + "; published ";
    CHECK_MESSAGE(words.out.find(line) != std::string::npos, line);
  }
  CHECK(run_program({"evidence", "rates"}).out == words.out);
}

TEST_CASE("evidence: an unknown table is wrong use and the known ones are named") {
  const auto run = run_program({"evidence", "weather"});
  CHECK(run.code == 1);
  CHECK(run.out.empty());
  for (const char* part : {"weather", "formants", "lexical-sets", "rates"}) CHECK(run.err.find(part) != std::string::npos);
  CHECK(run_program({"evidence", "rates", "places"}).code == 1);
}
