#include "clash/similarity.h"

#include "base/assets.h"
#include "base/text.h"
#include "ipa/parse.h"

#include <doctest/doctest.h>

#include <cmath>
#include <cstdlib>

using namespace mw;

namespace {

SoundFacts facts(std::string_view ipa) {
  // The published table writes the glides of FACE and GOAT with one letter.
  if (ipa == "e") ipa = "eɪ";
  if (ipa == "o") ipa = "oʊ";
  const auto sound = parse_sound(ipa, Notation::ipa);
  REQUIRE(sound.has_value());
  return facts_of(*sound);
}

double alike(std::string_view a, std::string_view b) { return similarity(facts(a), facts(b)); }

CsvTable published() {
  const char* folder = std::getenv("MOUTHWRIGHT_TEST_DATA");
  REQUIRE(folder != nullptr);
  const auto text = read_file(std::filesystem::path(folder) / "difficulty/similarity_natural_classes.csv");
  REQUIRE(text.has_value());
  const auto table = parse_csv(*text, "similarity_natural_classes.csv");
  REQUIRE(table.has_value());
  return *table;
}

} // namespace

TEST_CASE("similarity: features derived from the letters give the figures of the natural-class formula") {
  // tests/data/difficulty: the formula of Frisch, Pierrehumbert & Broe 2004 on a feature table written out by hand.
  std::size_t checked = 0;
  for (const auto& row : published().rows) {
    const auto want = parse_number(row[3]);
    REQUIRE(want.has_value());
    // Two exceptions, told in similarity.cpp: sounds with equal features, and w with r.
    if (*want == 1.0 || (row[1] == "ɹ" && row[2] == "w")) continue;
    INFO(row[1], ' ', row[2]);
    CHECK(alike(row[1], row[2]) == doctest::Approx(*want).epsilon(2e-4));
    ++checked;
  }
  CHECK(checked > 390);
}

TEST_CASE("similarity: the order that experiments ask for") {
  CHECK(alike("n", "d") > alike("n", "b")); // Walker 2007
  CHECK(alike("n", "d") > alike("n", "t")); // Walker 2007
  CHECK(alike("m", "b") > alike("m", "p")); // Walker 2007
  CHECK(alike("m", "b") > alike("m", "d")); // Walker 2007
  CHECK(alike("n", "l") > alike("n", "t")); // Walker 2007
  CHECK(alike("i", "ɪ") > alike("i", "ʌ")); // Yaniv et al. 1990
  CHECK(alike("k", "ɡ") > alike("k", "d")); // McMillan & Corley 2010
  for (auto [a, b] : {std::pair{"s", "ʃ"}, {"p", "f"}, {"t", "θ"}}) CHECK(alike(a, b) > .6);
}

TEST_CASE("similarity: symmetric, within 0 and 1, and nothing between a vowel and a consonant") {
  const std::vector<std::string_view> sounds{"p", "ʈ", "χ", "ʎ", "ɬ", "ʔ", "ħ", "ɰ", "y", "ɯ", "œ", "ɑ", "aɪ", "ʙ", "ǃ", "ɗ"};
  for (auto a : sounds)
    for (auto b : sounds) {
      INFO(a, ' ', b);
      CHECK(alike(a, b) == alike(b, a));
      CHECK(alike(a, b) >= 0);
      CHECK(alike(a, b) <= 1);
      if (facts(a).vowel != facts(b).vowel) CHECK(alike(a, b) == 0);
    }
}

TEST_CASE("similarity: sounds outside English keep their neighbours near") {
  CHECK(alike("x", "χ") > alike("x", "p"));
  CHECK(alike("ʈ", "t") > alike("ʈ", "k"));
  CHECK(alike("y", "i") > alike("y", "ɑ"));
}
