#include "practice/script.h"

#include "support/recorded_voices.h"

#include <doctest/doctest.h>

using namespace mw;

TEST_CASE("script: names before a colon and names in capitals give the part, directions are never said") {
  const auto lines = read_script("MENDER\n"
                                 "Put it by the fire.\n"
                                 "(He looks up.)\n"
                                 "\n"
                                 "Girl: It leaks (she shakes it) again.\n"
                                 "And now it sings.\n"
                                 "[Music, long\n"
                                 "and slow] A guest.\n"
                                 "He said one thing to us: never whistle.\n");
  REQUIRE(lines.size() == 5);
  CHECK(lines[0] == ScriptLine{2, "MENDER", "Put it by the fire."});
  CHECK(lines[1] == ScriptLine{5, "Girl", "It leaks again."});
  CHECK(lines[2] == ScriptLine{6, "Girl", "And now it sings."});
  CHECK(lines[3] == ScriptLine{8, "Girl", "A guest."});
  CHECK(lines[4].text == "He said one thing to us: never whistle.");
  CHECK(parts_of(lines) == std::vector<std::string>{"MENDER", "Girl"});
}

TEST_CASE("script: an empty script, one without names, and Windows line ends") {
  CHECK(read_script("").empty());
  CHECK(read_script("(all laugh)\n...\n").empty());
  const auto lines = read_script("Put it down.\r\nNow.\r\n");
  REQUIRE(lines.size() == 2);
  CHECK(lines[1] == ScriptLine{2, "", "Now."});
}

TEST_CASE("script: hardest first, ties in the order of the script, spots on whole words") {
  const auto accent = read_accent("GA");
  REQUIRE(accent.has_value());
  OneSyllable nobody; // IPA asks for no pronouncer
  std::vector<RankedLine> ranked;
  int number = 0;
  for (const char* ipa : {"maɪ ˈænt ˈlɛft ə ˈlæmp", "ˈsʌm ˈʃɑps ˈsɛl ˈʃʌtɚz", "maɪ ˈænt ˈlɛft ə ˈlæmp"}) {
    const auto line = rank_line({++number, "", ipa}, *accent, nobody, {.notation = Notation::ipa});
    REQUIRE(line.has_value());
    ranked.push_back(*line);
  }
  sort_hardest(ranked);
  CHECK(ranked[0].line.line == 2);
  CHECK(ranked[1].line.line == 1);
  CHECK(ranked[2].line.line == 3);
  REQUIRE(!ranked[0].spots.empty());
  CHECK(ranked[0].spots[0].kind == ClashKind::near_twins);
  CHECK(ranked[0].spots[0].span.start == 0);
  CHECK(ranked[1].spots.empty());
  sort_hardest(ranked, RankBy::slips);
  CHECK(ranked[0].line.line == 2);
}

TEST_CASE("script: a line with nothing to say is a problem of the input") {
  const auto accent = read_accent("GA");
  REQUIRE(accent.has_value());
  OneSyllable nobody;
  const auto line = rank_line({1, "", "§"}, *accent, nobody, {.notation = Notation::ipa});
  REQUIRE(!line.has_value());
  CHECK(line.error().kind == ProblemKind::input);
}
