#include "phrase/shifts.h"
#include "phrase/spoken.h"
#include "support/phrases.h"

#include <set>

using namespace mw;
using namespace mw::test;

namespace {
Comparison compared(std::string_view phrase, const std::string& a, const std::string& b) {
  return compare(spoken(phrase, a), spoken(phrase, b));
}
} // namespace

TEST_CASE("compare: every sound of both sides stands in one pair, in order") {
  for (const auto line : play_lines) {
    INFO(line);
    const auto a = spoken(line, "GA"), b = spoken(line, "SSBE");
    if (a.words.size() != b.words.size()) continue; // numbers are read otherwise
    std::size_t next_a = 0, next_b = 0;
    for (const auto& pair : compare(a, b).pairs) {
      CHECK((pair.a || pair.b));
      if (pair.a) CHECK(*pair.a == next_a++);
      if (pair.b) CHECK(*pair.b == next_b++);
      CHECK(pair.same == pair.text.empty());
    }
    CHECK(next_a == sounds(a).size());
    CHECK(next_b == sounds(b).size());
  }
}

TEST_CASE("compare: an accent with itself has equal pairs and no shift") {
  for (const auto line : play_lines) {
    const auto alike = compared(line, "NZ", "NZ");
    for (const auto& pair : alike.pairs) CHECK(pair.same);
    CHECK(alike.shifts.empty());
  }
}

TEST_CASE("compare: cot and caught are kept apart in RP and merged in Canada") {
  const auto rp = compared("hot caught", "RP", "CAN");
  REQUIRE(rp.shifts.size() == 1);
  CHECK(rp.shifts[0].kept_apart);
  CHECK(rp.shifts[0].words == std::vector<std::string>{"hot", "caught"});
  CHECK(rp.shifts[0].a_ipa[0] != rp.shifts[0].a_ipa[1]);
  CHECK(rp.shifts[0].b_ipa[0] == rp.shifts[0].b_ipa[1]);
  const auto can = compared("hot caught", "CAN", "RP");
  REQUIRE(can.shifts.size() == 1);
  CHECK_FALSE(can.shifts[0].kept_apart);
  CHECK(compared("pull wool", "NENG", "RP").shifts.empty());
  CHECK(compared("pull cup", "NENG", "RP").shifts.size() == 1);
}

TEST_CASE("compare: a word that one side does not say stands alone, the others still pair") {
  const auto gb = spoken("a hundred and one pots", "SSBE");
  auto us = gb;
  us.words.erase(us.words.begin() + 2);
  us.processes.clear();
  const auto pairs = compare(gb, us).pairs;
  const std::size_t left_out = sounds(gb).size() - sounds(us).size();
  CHECK(left_out >= 2);
  CHECK(static_cast<std::size_t>(std::count_if(pairs.begin(), pairs.end(), [](const SoundPair& p) { return !p.b; })) == left_out);
  for (const auto& p : pairs)
    if (p.b) CHECK(p.same);
}

TEST_CASE("compare: a set coloured by its surroundings still merges with its twin") {
  const Accent ga = *read_accent("GA"), ssbe = *read_accent("SSBE");
  const auto a = spoken("the lamp by the bath", ga), b = spoken("the lamp by the bath", ssbe);
  REQUIRE_FALSE(sounds(a)[3] == sounds(a)[sounds(a).size() - 2]); // raised before m
  const auto shifts = compare(a, b, &ga, &ssbe).shifts;
  REQUIRE(std::any_of(shifts.begin(), shifts.end(), [](const Shift& s) {
    return !s.kept_apart && s.words == std::vector<std::string>{"lamp", "bath"} && s.a_ipa[0] == s.a_ipa[1];
  }));
}

TEST_CASE("compare: allophones of one consonant are no shift, two consonants in one tap are") {
  for (const auto& shift : compared("put a pot of tea", "GA", "SSBE").shifts) CHECK(shift.of != ShiftOf::consonant);
  auto shifts = compared("the latter ladder", "GA", "RP").shifts;
  std::erase_if(shifts, [](const Shift& s) { return s.of != ShiftOf::consonant; });
  REQUIRE(shifts.size() == 1);
  CHECK(shifts[0].b_ipa == std::vector<std::string>{"t", "d"});
}

TEST_CASE("compare: a tapped r and one after the vowel are one r") {
  for (const auto& shift : compared("red beer", "SSE", "SSBE").shifts) CHECK(shift.of != ShiftOf::consonant);
  for (const auto& shift : compared("red beer", "SSE", "GA").shifts) CHECK(shift.of != ShiftOf::consonant);
}

TEST_CASE("compare: words that differ by a sound more or less are told as words") {
  for (const char* phrase : {"do dew", "do the dew", "dew, do"}) { // also where "do" is weak
    auto shifts = compared(phrase, "GA", "RP").shifts;
    std::erase_if(shifts, [](const Shift& s) { return s.of != ShiftOf::word; });
    REQUIRE_MESSAGE(shifts.size() == 1, phrase);
    CHECK_FALSE(shifts[0].kept_apart);
    CHECK(std::set<std::string>(shifts[0].words.begin(), shifts[0].words.end()) == std::set<std::string>{"do", "dew"});
  }
}
