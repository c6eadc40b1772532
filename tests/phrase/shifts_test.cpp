#include "phrase/shifts.h"
#include "phrase/spoken.h"
#include "support/phrases.h"

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

TEST_CASE("compare: another number of words gives nothing") {
  CHECK(compare(spoken("pot", "GA"), spoken("hot pot", "GA")).pairs.empty());
}
