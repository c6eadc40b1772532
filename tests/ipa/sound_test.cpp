#include "base/text.h"
#include "ipa/inventory.h"
#include "ipa/parse.h"

#include <doctest/doctest.h>

using namespace mw;

namespace {
void check_round_trip(const Sound& sound) {
  const std::string ipa = to_ipa(sound);
  CAPTURE(ipa);
  const auto again = parse_sound(ipa, Notation::ipa);
  if (!again) FAIL_CHECK(again.error().what);
  else CHECK((*again == sound));
  const auto composed = parse_sound(to_nfd(ipa), Notation::ipa);
  CHECK((composed && *composed == sound));
}
void check_xsampa_round_trip(const Sound& sound) {
  const std::string text = to_xsampa(sound);
  CAPTURE(text);
  CAPTURE(to_ipa(sound));
  const auto again = parse_sound(text, Notation::xsampa);
  if (!again) FAIL_CHECK(again.error().what);
  else CHECK((*again == sound));
}
bool is_tone_letter(const Diacritic& mark) { return is_tone(mark) && mark.name.find("letter") != std::string::npos; }
} // namespace

TEST_CASE("sound: every letter with every legal mark comes back from its IPA and its X-SAMPA") {
  std::size_t pairs = 0;
  for (const auto& letter : letters()) {
    check_round_trip({letter.ipa});
    check_xsampa_round_trip({letter.ipa});
    for (const auto& mark : diacritics()) {
      if (!is_legal(mark, letter)) continue;
      ++pairs;
      check_round_trip({letter.ipa, {mark.ipa}});
      if (!is_tone_letter(mark)) check_xsampa_round_trip({letter.ipa, {mark.ipa}});
    }
  }
  CHECK(pairs > 1000);
}

TEST_CASE("sound: every letter with every two marks that go together comes back") {
  for (const auto& letter : letters())
    for (std::size_t i = 0; i < diacritics().size(); ++i)
      for (std::size_t k = i + 1; k < diacritics().size(); ++k) {
        const auto &one = diacritics()[i], &other = diacritics()[k];
        if (!is_legal(one, letter) || !is_legal(other, letter) || exclude_each_other(one, other)) continue;
        check_round_trip({letter.ipa, {one.ipa, other.ipa}});
        if (!is_tone_letter(one) && !is_tone_letter(other)) check_xsampa_round_trip({letter.ipa, {one.ipa, other.ipa}});
      }
}

TEST_CASE("sound: an illegal mark is refused by the parser too") {
  for (const auto& letter : letters())
    for (const auto& mark : diacritics()) {
      const bool own_letter = (letter.ipa == "l" && mark.ipa == "\u0334") || (mark.ipa == "˞" && (letter.ipa == "ə" || letter.ipa == "ɜ"));
      if (is_legal(mark, letter) || own_letter || mark.xsampa.size() == 0) continue;
      const bool between = mark.name.find("stress") != std::string::npos || mark.name.find("break") != std::string::npos ||
                           mark.name.find("group") != std::string::npos || mark.name.find("global") != std::string::npos ||
                           mark.name.find("step") != std::string::npos || mark.name == "linking";
      if (between) continue;
      CAPTURE(letter.ipa);
      CAPTURE(mark.name);
      CHECK_FALSE(parse_sound(letter.ipa + mark.ipa, Notation::ipa).has_value());
    }
}

TEST_CASE("sound: every pair of vowels comes back as one glide") {
  for (const auto& from : letters())
    for (const auto& to : letters()) {
      if (!from.vowel || !to.vowel || from.ipa == to.ipa) continue;
      check_round_trip({from.ipa, {}, to.ipa});
      check_xsampa_round_trip({from.ipa, {}, to.ipa});
      check_round_trip({from.ipa, {"ː"}, to.ipa, {"\u0303"}});
    }
}

TEST_CASE("sound: IPA text is composed, doubles carry a tie, rings go above descenders") {
  CHECK(to_ipa({"c\u0327"}) == "ç");
  CHECK(to_ipa({"ts"}) == "t͡s");
  CHECK(to_ipa({"kp"}) == "k͡p");
  CHECK(to_ipa({"tʃ"}) == "tʃ");
  CHECK(to_ipa({"ŋ", {"\u0325"}}) == "ŋ̊");
  CHECK(to_ipa({"n", {"\u0325"}}) == "n̥");
  CHECK(to_ipa({"a", {}, "ɪ"}) == "aɪ");
  CHECK(to_ipa({"i", {}, "u"}) == "iu̯");
}

TEST_CASE("sound: what can be a nucleus") {
  CHECK(is_vowel({"ə"}));
  CHECK(is_vowel({"a", {}, "ɪ"}));
  CHECK_FALSE(is_vowel({"n"}));
  CHECK(is_syllabic({"n", {"\u0329"}}));
  CHECK_FALSE(is_syllabic({"n"}));
  CHECK(is_glide({"a", {}, "ɪ"}));
}
