#include "ipa/inventory.h"
#include "base/text.h"

#include <doctest/doctest.h>
#include <set>

using namespace mw;

namespace {
bool legal(const char* mark, const char* letter) {
  REQUIRE(find_diacritic(mark) != nullptr);
  REQUIRE(find_letter(letter) != nullptr);
  return is_legal(*find_diacritic(mark), *find_letter(letter));
}
} // namespace

TEST_CASE("inventory: every letter of the chart has a row with place and manner, or height and backness") {
  // the chart, revised to 2020: pulmonic, non-pulmonic, vowels, other symbols
  const char* chart = "p b t d ʈ ɖ c ɟ k ɡ q ɢ ʔ m ɱ n ɳ ɲ ŋ ɴ ʙ r ʀ ⱱ ɾ ɽ ɸ β f v θ ð s z ʃ ʒ ʂ ʐ ç ʝ x ɣ χ ʁ ħ ʕ h ɦ ɬ ɮ ʋ ɹ ɻ j ɰ "
                      "l ɭ ʎ ʟ ʘ ǀ ǃ ǂ ǁ ɓ ɗ ʄ ɠ ʛ i y ɨ ʉ ɯ u ɪ ʏ ʊ e ø ɘ ɵ ɤ o ə ɛ œ ɜ ɞ ʌ ɔ æ ɐ a ɶ ɑ ɒ ʍ w ɥ ʜ ʢ ʡ ɕ ʑ ɺ "
                      "ɧ k͡p t͡s tʃ dʒ ɚ ɝ ɫ";
  for (const auto& sign : split(chart, ' ')) {
    CAPTURE(sign);
    const Letter* letter = find_letter(sign);
    REQUIRE(letter != nullptr);
    CHECK((letter->vowel ? !letter->height.empty() && !letter->backness.empty()
                         : !letter->place.empty() && !letter->manner.empty()));
  }
}

TEST_CASE("inventory: letters and their X-SAMPA codes are unique and in NFD") {
  std::set<std::string> seen, codes;
  for (const auto& letter : letters()) {
    CAPTURE(letter.ipa);
    CHECK(seen.insert(letter.ipa).second);
    CHECK(letter.ipa == to_nfd(letter.ipa));
    CHECK((letter.xsampa.empty() || codes.insert(letter.xsampa).second));
    CHECK(find_letter(letter.ipa) == &letter);
    CHECK(find_letter(to_nfc(letter.ipa)) == &letter);
  }
}

TEST_CASE("inventory: names say voice, place and manner") {
  CHECK(find_letter("p")->name == "voiceless bilabial plosive");
  CHECK(find_letter("ɮ")->name == "voiced alveolar lateral fricative");
  CHECK(find_letter("y")->name == "close front rounded vowel");
  CHECK(find_letter("dʒ")->name == "voiced postalveolar affricate");
}

TEST_CASE("inventory: every letter used in English has plain words for a learner") {
  for (const auto& sign : split("p b t d k ɡ m n ŋ f v θ ð s z ʃ ʒ h tʃ dʒ l ɫ ɹ w j ʍ ɾ ʔ i ɪ e ɛ æ a ɑ ɒ ɔ o ʊ u ʌ ə ɜ ɚ ɝ ʉ ɨ", ' ')) {
    CAPTURE(sign);
    CHECK_FALSE(find_letter(sign)->learner_name.empty());
  }
}

TEST_CASE("inventory: other spellings of a letter or mark find the same row") {
  CHECK(find_letter("g") == find_letter("ɡ"));
  CHECK(find_letter("ʧ") == find_letter("tʃ"));
  CHECK(find_letter("t͜ʃ") == find_letter("tʃ"));
  CHECK(find_letter("\u00E7") == find_letter("c\u0327"));
  CHECK(find_diacritic("\u030A") == find_diacritic("\u0325"));
  CHECK(find_diacritic("\u030D") == find_diacritic("\u0329"));
  CHECK(find_letter("%") == nullptr);
  CHECK(find_diacritic("a") == nullptr);
}

TEST_CASE("inventory: a mark stands where its meaning makes sense") {
  CHECK(legal("\u032A", "t"));        // dental on coronals alone
  CHECK_FALSE(legal("\u032A", "k"));
  CHECK_FALSE(legal("\u032A", "a"));
  CHECK(legal("\u0303", "a"));        // nasalised not on plosives or nasals
  CHECK(legal("\u0303", "l"));
  CHECK_FALSE(legal("\u0303", "b"));
  CHECK_FALSE(legal("\u0303", "m"));
  CHECK(legal("\u031A", "p"));        // no audible release on stops alone
  CHECK_FALSE(legal("\u031A", "s"));
  CHECK(legal("\u0325", "n"));        // voiceless on voiced letters and the other way round
  CHECK_FALSE(legal("\u0325", "s"));
  CHECK(legal("\u032C", "s"));
  CHECK_FALSE(legal("\u032C", "z"));
  CHECK(legal("ʼ", "k"));             // ejectives are voiceless and not glottal
  CHECK(legal("ʼ", "tʃ"));
  CHECK_FALSE(legal("ʼ", "ɡ"));
  CHECK_FALSE(legal("ʼ", "h"));
  CHECK(legal("\u0329", "n"));
  CHECK_FALSE(legal("\u0329", "a"));
  CHECK_FALSE(legal("\u0329", "j"));
  CHECK(legal("\u0339", "ɔ"));        // lip marks on vowels and lip-shaped consonants
  CHECK_FALSE(legal("\u0339", "t"));
  CHECK(legal("ʰ", "t"));
  CHECK_FALSE(legal("ʰ", "a"));
  CHECK(legal("ʲ", "t"));
  CHECK_FALSE(legal("ʲ", "j"));
  CHECK(legal("\u0318", "e"));
  CHECK_FALSE(legal("\u0318", "n"));
  CHECK_FALSE(legal("ː", "ɾ"));
}

TEST_CASE("inventory: every mark can stand somewhere, or stands between letters") {
  const std::set<std::string> between{"ˈ", "ˌ", "|", "‖", ".", "‿", "\u0361", "ꜜ", "ꜛ", "↗", "↘"};
  for (const auto& mark : diacritics()) {
    CAPTURE(mark.name);
    std::size_t places = 0;
    for (const auto& letter : letters()) places += is_legal(mark, letter) ? 1 : 0;
    CHECK((places == 0) == (between.count(mark.ipa) > 0));
  }
}
