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
// seven lines, two of them empty; the longest and the shortest stand in the middle
constexpr const char* script = "Mend the kettle.\n"
                               "\n"
                               "Six sash screws, sixth shelf.\n"
                               "   \t\n"
                               "\"Brass ladles, Nell, and lamps,\" said Ned.\n"
                               "No.\n"
                               "Brisk kettles rattle in the mender's shop.\n";
const std::vector<std::string> columns{"line", "slips", "slowing", "late_start", "drift", "overall", "label", "reason", "text"};

struct Script {
  Folder folder;
  std::string path = (folder / "script.txt").string();
  explicit Script(const std::string& text = script) { std::ofstream(path, std::ios::binary) << text; }
};

mw::CsvTable ranked(std::vector<std::string> words, const std::string& input = "") {
  words.insert(words.begin(), "rank");
  const auto run = run_program(words, input);
  REQUIRE_MESSAGE(run.code == 0, run.err);
  CHECK(run.err.empty());
  CHECK(run.out.find('\r') == std::string::npos);
  const auto table = mw::parse_csv(run.out, "rank");
  REQUIRE_MESSAGE(table.has_value(), run.out);
  return *table;
}
std::vector<double> numbers(const mw::CsvTable& table, const std::string& column) {
  std::vector<double> out;
  for (const auto& row : table.rows) out.push_back(*mw::parse_number(row.at(*table.column(column))));
  return out;
}
} // namespace

TEST_CASE("rank: the columns of the contract, one row a line that is not empty, numbered as in the file") {
  const Script file;
  const auto table = ranked({file.path, "--in-order"});
  CHECK(table.columns == columns);
  CHECK(numbers(table, "line") == std::vector<double>{1, 3, 5, 6, 7});
  CHECK(table.rows[2].back() == "\"Brass ladles, Nell, and lamps,\" said Ned.");
  for (const auto& row : table.rows) {
    for (std::size_t i = 1; i <= 5; ++i) CHECK(*mw::parse_number(row[i]) >= 0);
    CHECK(std::set<std::string>{"easy", "moderate", "demanding", "very demanding"}.contains(row[6]));
  }
}

TEST_CASE("rank --json: spots come from moves as well as from the pattern of actions") {
  const Script file("Safe pie, three thick throws.\nSome shops sell shutters.\n");
  const auto run = run_program({"rank", file.path, "--json", "--in-order"});
  REQUIRE_MESSAGE(run.code == 0, run.err);
  std::set<std::string> kinds;
  for (const auto& line : mw::split(run.out, '\n'))
    if (!line.empty()) {
      const Json row = Json::parse(line);
      for (const auto& spot : row["spots"]) kinds.insert(spot["kind"]);
    }
  CHECK(kinds.contains("tug"));
  CHECK(kinds.contains("near_twins"));
}

TEST_CASE("rank: hardest overall first, --by another bar by that bar, --in-order as in the file") {
  const Script file;
  const auto in_order = ranked({file.path, "--in-order"});
  CHECK(numbers(ranked({file.path}), "overall") == numbers(ranked({file.path, "--by", "overall"}), "overall"));
  for (const char* bar : {"overall", "slips", "slowing", "late_start", "drift"}) {
    const auto table = ranked({file.path, "--by", bar});
    const auto sorted = numbers(table, bar);
    CHECK_MESSAGE(std::is_sorted(sorted.rbegin(), sorted.rend()), bar);
    CHECK(sorted.front() > sorted.back());
    // the same rows in another order
    CHECK(std::multiset<std::vector<std::string>>(table.rows.begin(), table.rows.end()) ==
          std::multiset<std::vector<std::string>>(in_order.rows.begin(), in_order.rows.end()));
  }
  CHECK(numbers(ranked({file.path}), "line").front() == 3); // the line of changing s, sh and th
  CHECK(numbers(ranked({file.path}), "line") != numbers(in_order, "line"));
}

TEST_CASE("rank --json: an object a line with the values of the CSV, spots inside the line's text") {
  const Script file;
  const auto table = ranked({file.path});
  const auto run = run_program({"rank", file.path, "--json"});
  REQUIRE(run.code == 0);
  const auto lines = mw::split(run.out, '\n');
  REQUIRE(lines.size() == table.rows.size() + 1);
  std::size_t spots = 0;
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    const Json j = Json::parse(lines[i]);
    CHECK(j["schema"] == 1);
    CHECK(j["line"].get<double>() == *mw::parse_number(table.rows[i][0]));
    for (std::size_t c = 1; c <= 5; ++c) CHECK(j[columns[c]].get<double>() == doctest::Approx(*mw::parse_number(table.rows[i][c])));
    for (std::size_t c = 6; c <= 8; ++c) CHECK(j[columns[c]] == table.rows[i][c]);
    const auto length = mw::decode_utf8(j["text"].get<std::string>())->size();
    for (const auto& spot : j["spots"]) {
      ++spots;
      CHECK(spot["start"].get<std::size_t>() < spot["end"].get<std::size_t>());
      CHECK(spot["end"].get<std::size_t>() <= length);
      CHECK((spot["level"] >= 1 && spot["level"] <= 3));
      CHECK(std::set<std::string>{"tug", "quick_return", "swap", "near_twins", "counter_move", "out_of_step", "accent_shift"}.contains(
          spot["kind"]));
      CHECK_FALSE(spot["text"].get<std::string>().empty());
    }
  }
  CHECK(spots >= 1);
}

TEST_CASE("rank: standard input, ends of line with CR and a last line without an end give the same rows") {
  const Script file, windows(mw::replace_all(script, "\n", "\r\n")), cut(std::string(script, std::string(script).size() - 1));
  const auto rows = ranked({file.path}).rows;
  CHECK(ranked({"-"}, script).rows == rows);
  CHECK(ranked({windows.path}).rows == rows);
  CHECK(ranked({cut.path}).rows == rows);
}

TEST_CASE("rank: the accent, notation and casual setting reach the lines") {
  const Script typed("\u02c8s\u026aks \u02c8\u0283\u025blvz\n");
  CHECK(ranked({typed.path, "--notation", "ipa"}).rows.size() == 1);
  const Script file("Far cars, four doors, her birds.\n");
  CHECK(ranked({file.path, "--accent", "GA"}).rows != ranked({file.path, "--accent", "RP"}).rows);
}

TEST_CASE("rank: a line that cannot be said is told with its number and left out, the others stay") {
  const Script file("Mend it.\n\n\U0001f600\nBrass lamps.\n");
  const auto run = run_program({"rank", file.path, "--in-order"});
  CHECK(run.code == 0);
  CHECK(run.err.find("line 3") != std::string::npos);
  const auto table = mw::parse_csv(run.out, "rank");
  REQUIRE(table.has_value());
  CHECK(numbers(*table, "line") == std::vector<double>{1, 4});
}

TEST_CASE("rank: nothing to rank, missing and broken files are problems of the input, a wrong bar is wrong use") {
  const Folder folder;
  const Script bad("Mend\n\xff\n"), none("\U0001f600\n");
  const auto gone = run_program({"rank", (folder / "gone.txt").string()});
  CHECK(gone.code == 2);
  CHECK(gone.err.find("gone.txt") != std::string::npos);
  CHECK(run_program({"rank", folder.path().string()}).code == 2);
  CHECK(run_program({"rank", bad.path}).code == 2);
  CHECK(run_program({"rank", none.path}).code == 2);
  CHECK(run_program({"rank", "-"}, "\n \n").code == 2);
  CHECK(run_program({"rank"}).code == 1);
  CHECK(run_program({"rank", bad.path, "--by", "age"}).code == 1);
  const Script fine;
  CHECK(run_program({"rank", fine.path, "--accent", "XX"}).code == 1);
}
