#include "accent/accent.h"
#include "accent/channels.h"
#include "accent/contexts.h"
#include "accent/rules.h"
#include "base/assets.h"
#include "base/text.h"
#include "ipa/sound.h"

#include <doctest/doctest.h>

#include <random>
#include <set>

using namespace mw;

namespace {
std::vector<AccentName> all() { return *list_accents(); }
std::string shipped(const std::string& id) { return *read_asset("accents/" + id + ".toml"); }

/// The shipped text of GA with one piece replaced; the piece must be there.
std::string mended(const std::string& from, const std::string& to) {
  std::string text = shipped("GA");
  const auto at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

Problem refused(const std::string& toml) {
  const auto accent = parse_accent(toml, "mine.toml");
  REQUIRE_FALSE(accent.has_value());
  CHECK(accent.error().kind == ProblemKind::input);
  CHECK(accent.error().where.find("mine.toml") != std::string::npos);
  return accent.error();
}

std::size_t line_of(const std::string& text, const std::string& piece) {
  const auto at = text.find(piece);
  REQUIRE(at != std::string::npos);
  std::size_t line = 1;
  for (std::size_t i = 0; i < at; ++i) line += text[i] == '\n';
  return line;
}
} // namespace

TEST_CASE("accents: nineteen are shipped and each file agrees with the list") {
  const auto list = list_accents();
  REQUIRE(list.has_value());
  CHECK(list->size() == 19);
  CHECK((*list)[0].id == "GA");
  for (const auto& row : *list) {
    const auto accent = read_accent(row.id);
    INFO(row.id << (accent ? "" : " " + accent.error().what + " " + accent.error().where));
    REQUIRE(accent.has_value());
    CHECK(accent->id == row.id);
    CHECK(accent->name == row.name);
    CHECK(accent->status == row.status);
  }
}

TEST_CASE("accents: every shipped value has a source and a status, and every rule is given") {
  for (const auto& row : all()) {
    const Accent accent = *read_accent(row.id);
    INFO(row.id);
    const auto sourced = [](const auto& value) { return !value.source.empty() && !value.status.empty(); };
    for (std::size_t i = 0; i < lexical_set_count; ++i) {
      CHECK(sourced(accent.sets[i]));
      CHECK(is_vowel(accent.sets[i].vowel));
      for (const auto& context : accent.contexts[i]) CHECK(sourced(context.value));
    }
    for (const auto& rule : rule_names()) {
      INFO(rule.name);
      CHECK(accent.rules.count(std::string(rule.name)) == 1);
    }
    for (const auto& [name, rule] : accent.rules) CHECK(sourced(rule));
    for (const auto& [name, shift] : accent.posture) {
      CHECK(sourced(shift));
      CHECK(shift.status == "DERIVED"); // no published setting is numeric
    }
  }
}

TEST_CASE("accents: writing and reading gives an equal accent") {
  for (const auto& row : all()) {
    INFO(row.id);
    const Accent accent = *read_accent(row.id);
    const auto again = parse_accent(write_accent(accent), "again.toml");
    REQUIRE(again.has_value());
    CHECK(*again == accent);
  }
}

TEST_CASE("accents: a text with quotes, line ends and control signs survives writing") {
  Accent accent = *read_accent("SSBE");
  accent.name = "my \"own\" \\ back\nslash \x01 \x7f \u0251";
  accent.sets[3].note = "line one\nline two\t\"x\"";
  const auto again = parse_accent(write_accent(accent), "again.toml");
  REQUIRE(again.has_value());
  CHECK(*again == accent);
}

TEST_CASE("accents: the values of a set are read as vowel, glide and r") {
  CHECK(parse_set_value("\u025b\u0279")->r_follows);
  CHECK(parse_set_value("\u025b\u0279")->vowel.letter == "\u025b");
  const auto glide = *parse_set_value("\u0251e");
  CHECK(glide.vowel.letter == "\u0251");
  CHECK(glide.vowel.glide_letter == "e");
  const auto marked = *parse_set_value("i\u031e\u0279");
  CHECK(marked.vowel.letter == "i");
  CHECK(marked.vowel.marks.size() == 1);
  for (const char* bad : {"", "\u0279", "b", "a\u026a\u028a", "x\u0279", "\u02d0", "a b", "\xff"})
    CHECK_FALSE(parse_set_value(bad).has_value());
}

TEST_CASE("accents: an unknown id is wrong use and a missing file is a problem of the input") {
  CHECK(read_accent("GB").error().kind == ProblemKind::usage);
  CHECK(read_accent("").error().kind == ProblemKind::usage);
  CHECK(read_accent("../accents/GA").error().kind == ProblemKind::input);
  CHECK(read_accent("/nowhere/mine.toml").error().kind == ProblemKind::input);
  CHECK(read_accent("/").error().kind == ProblemKind::input);
}

TEST_CASE("accents: a broken file is refused with file, line and reason") {
  const struct {
    const char* from;
    const char* to;
    const char* reason;
  } rows[] = {
      {"[sets.LOT]", "[sets.LOTT]", "not a lexical set"},
      {"[sets.LOT]\nipa = \"\u0251\"", "[sets.LOT]\nipa = 3", "not a text"},
      {"[sets.LOT]\nipa = \"\u0251\"", "[sets.LOT]\nipa = \"q7\"", "q7"},
      {"[sets.LOT]\nipa = \"\u0251\"", "[sets.LOT]\nipaa = \"\u0251\"", "not known here"},
      {"context = \"before m or n\"", "context = \"before tea\"", "before tea"},
      {"[rules.rhotic]\nvalue = \"yes\"", "[rules.rhotic]\nvalue = \"perhaps\"", "perhaps"},
      {"[rules.rhotic]", "[rules.rhotik]", "not a rule"},
      {"shift = 1.0", "shift = \"much\"", "not a number"},
      {"shift = 1.0", "shift = 400", "out of range"},
      {"shift = 1.0", "shift = nan", "out of range"},
      {"[posture.jaw_opening_mm]", "[posture.chin]", "not an articulator value"},
      {"id = \"GA\"", "id = \"G A/..\"", "not an id"},
      {"id = \"GA\"", "id = [1, 2", ""},
  };
  for (const auto& row : rows) {
    INFO(row.from << " -> " << row.to);
    const std::string text = mended(row.from, row.to);
    const Problem problem = refused(text);
    CHECK(problem.what.find(row.reason) != std::string::npos);
    CHECK_FALSE(problem.remedy.empty());
    // the line named is that of the table or of the key inside it
    const auto first = line_of(text, row.to);
    const auto named = parse_number(problem.where.substr(problem.where.rfind(' ') + 1));
    REQUIRE(named.has_value());
    CHECK(*named >= static_cast<double>(first));
    CHECK(*named <= static_cast<double>(first) + 2);
  }
}

TEST_CASE("accents: a missing set, a huge file and bytes that are not UTF-8 are refused") {
  const std::string whole = shipped("GA");
  CHECK(refused("id = \"x\"\nname = \"x\"\nstatus = \"x\"\n[sets]\n").what.find("KIT") != std::string::npos);
  CHECK(refused(std::string((1u << 20) + 1, '#')).what.find("1 MB") != std::string::npos);
  const Problem bytes = refused("id = \"x\"\nname = \"\xff\"\n");
  CHECK(bytes.what.find("UTF-8") != std::string::npos);
  CHECK(bytes.where == "mine.toml line 2");
  CHECK(refused("").what.find("id") != std::string::npos);
}

TEST_CASE("accents: cut anywhere, a file is refused or keeps all 27 sets") {
  const std::string whole = shipped("SSBE");
  for (std::size_t length = 0; length < whole.size(); length += 97) {
    const auto accent = parse_accent(whole.substr(0, length), "cut.toml");
    if (!accent) continue;
    for (const auto& value : accent->sets) CHECK_FALSE(value.ipa.empty());
  }
}

TEST_CASE("accents: random damage never gives an accent that cannot be written and read again") {
  const std::string whole = shipped("NYC");
  std::mt19937 random(7);
  int accepted = 0;
  for (int round = 0; round < 300; ++round) {
    std::string text = whole;
    for (int i = 0; i < 2; ++i) text[random() % text.size()] = static_cast<char>(' ' + random() % 95);
    const auto accent = parse_accent(text, "damaged.toml");
    if (!accent) continue;
    ++accepted;
    const auto again = parse_accent(write_accent(*accent), "again.toml");
    REQUIRE(again.has_value());
    CHECK(*again == *accent);
  }
  CHECK(accepted > 0);
}

TEST_CASE("rules: yes holds, no does not, variable follows the casualness") {
  Accent accent = *read_accent("SSBE");
  accent.rules["h_dropping"].value = "yes";
  CHECK(holds(accent, "h_dropping", 0));
  accent.rules["h_dropping"].value = "no";
  CHECK_FALSE(holds(accent, "h_dropping", 1));
  accent.rules["h_dropping"].value = "variable";
  CHECK_FALSE(holds(accent, "h_dropping", 0));
  CHECK(holds(accent, "h_dropping", 1));
  accent.rules.erase("h_dropping");
  CHECK_FALSE(holds(accent, "h_dropping", 1));
}

TEST_CASE("tables: every context, rule and channel has a name of its own and a meaning") {
  std::set<std::string_view> seen;
  std::size_t order = 0;
  for (const auto& row : context_names()) {
    CHECK(seen.insert(row.name).second);
    CHECK(static_cast<std::size_t>(row.context) == order++);
    CHECK_FALSE(row.meaning.empty());
  }
  for (const auto& row : rule_names()) {
    CHECK(seen.insert(row.name).second);
    CHECK_FALSE(row.meaning.empty());
    CHECK_FALSE(row.values.empty());
  }
  for (const auto& row : posture_channels()) CHECK(seen.insert(row.name).second);
}

TEST_CASE("lexical sets: keyword and set are one to one") {
  for (int i = 0; i < lexical_set_count; ++i) {
    const auto set = static_cast<LexicalSet>(i);
    CHECK(parse_keyword(to_keyword(set)) == set);
  }
  CHECK_FALSE(parse_keyword("kit").has_value());
  CHECK_FALSE(parse_keyword("").has_value());
}
