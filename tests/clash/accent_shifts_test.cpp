#include "clash/accent_shifts.h"

#include "lines.h"

using namespace mw;
using namespace mw::test;

namespace {

std::vector<Clash> shifts(const std::string& text, const std::string& own, const std::string& target) {
  const Line a = said(own, text), b = said(target, text);
  return find_accent_shifts(a.pronunciation, b.pronunciation, b.track);
}

} // namespace

TEST_CASE("accent shift: a vowel that the own accent merges and the target keeps apart") {
  const auto found = shifts("brass lamp", "ˈbɹæs ˈlæmp", "ˈbɹɑs ˈlæmp");
  REQUIRE(found.size() == 1);
  CHECK(found[0].kind == ClashKind::accent_shift);
  CHECK(found[0].segments == std::vector<std::size_t>{2, 5});
  CHECK(found[0].text == "Your own accent says æ in both ‘brass’ and ‘lamp’; here ‘brass’ has ɑ and ‘lamp’ has æ.");
  CHECK(found[0].level == 3);
}

TEST_CASE("accent shift: a vowel that the target merges") {
  const auto found = shifts("cot caught", "ˈkɒt ˈkɔt", "ˈkɑt ˈkɑt");
  REQUIRE(found.size() == 1);
  CHECK(found[0].text == "Your own accent says ɒ in ‘cot’ and ɔ in ‘caught’; here both have ɑ.");
}

TEST_CASE("accent shift: consonants too, also where a slot has lost one") {
  const auto tap = shifts("metal medal", "ˈmɛɾəl ˈmɛɾəl", "ˈmɛtəl ˈmɛdəl");
  REQUIRE(tap.size() == 1);
  CHECK(tap[0].articulators == std::vector<Articulator>{Articulator::glottis});
  CHECK(shifts("hard cart", "ˈhɑɹd ˈkɑɹt", "ˈhɑd ˈkɑt").empty());
}

TEST_CASE("accent shift: the same accent twice has none, and other vowels that stay apart have none") {
  CHECK(shifts("brass lamp", "ˈbɹæs ˈlæmp", "ˈbɹæs ˈlæmp").empty());
  CHECK(shifts("late coat", "ˈleɪt ˈkoʊt", "ˈlet ˈkot").empty());
}

TEST_CASE("accent shift: nearer pairs are stronger") {
  const auto found = shifts("brass lamp tin tin tin cot tin caught", "ˈbɹæs ˈlæmp ˈtɪn ˈtɪn ˈtɪn ˈkɑt ˈtɪn ˈkɑt",
                            "ˈbɹɑs ˈlæmp ˈtɪn ˈtɪn ˈtɪn ˈkɒt ˈtɪn ˈkɔt");
  REQUIRE(found.size() >= 2);
  CHECK(found[0].strength >= found[1].strength);
  CHECK(found[0].text.find("‘brass’ and ‘lamp’") != std::string::npos);
}

TEST_CASE("accent shift: where many sounds fall together two pairs are told, not all") {
  const auto found = shifts("horse hoarse poor paw", "ˈhɔɹs ˈhoɹs ˈpuɹ ˈpɔ", "ˈhoːs ˈhoːs ˈpoː ˈpoː");
  CHECK(found.size() == 2);
}
