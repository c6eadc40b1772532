// Lexical sets are a property of the word, not of the accent: American and British families give the same ones on the
// 5,000 most frequent words, but for words that the two countries really say with other vowels: those of
// words/national.csv (either, privacy, the strong forms of what and was) and by rule (-ary, -ory, -ile, -isation). Each says
// so by its source. The list of words is fetched by ./check; without it the test is skipped.

#include "accent/shared.h"
#include "base/assets.h"
#include "base/text.h"
#include "espeak/espeak.h"

#include <doctest/doctest.h>

#include <cstdio>
#include <cstdlib>
#include <set>

using namespace mw;

namespace {
std::vector<std::string> frequent_words(std::size_t count) {
  const char* folder = std::getenv("MOUTHWRIGHT_WORDS");
  const auto text = read_file(std::string(folder == nullptr ? ".build/words" : folder) + "/frequency.json");
  std::vector<std::string> words;
  if (!text) return words;
  std::set<std::string> seen;
  for (const auto& line : split(*text, '\n')) {
    const auto parts = split(line, '"');
    if (parts.size() != 5 || parts[1] != "word" || parts[3].size() < 2) continue;
    if (std::string word = to_lower(parts[3]); seen.insert(word).second) words.push_back(std::move(word));
    if (words.size() == count) break;
  }
  return words;
}

std::string sets_of(const Pronunciation& said) {
  std::string sets;
  for (const auto& word : said.words)
    for (const auto& syllable : word.syllables) sets += (syllable.set ? std::string(to_keyword(*syllable.set)) : "-") + " ";
  return sets;
}
} // namespace

TEST_CASE("lexical sets: the same for both families on at least 99 % of the 5,000 most frequent words, in all accents of one") {
  const auto words = frequent_words(5000);
  if (words.empty()) {
    std::printf("SKIPPED: the word list is not there; ./check fetches it\n");
    return;
  }
  auto voices = open_espeak();
  REQUIRE(voices.has_value());
  const Accent american = **read_shared_accent("GA"), british = **read_shared_accent("SSBE"), other = **read_shared_accent("NZ");
  std::size_t asked = 0, differ = 0;
  std::string examples;
  for (const auto& word : words) {
    const PronounceSettings careful{.casual = 0};
    const auto us = pronounce(word, american, **voices, careful), gb = pronounce(word, british, **voices, careful),
               nz = pronounce(word, other, **voices, careful);
    REQUIRE((us.has_value() && gb.has_value() && nz.has_value()));
    ++asked;
    CHECK_MESSAGE(sets_of(*gb) == sets_of(*nz), word); // one family, one list
    if (sets_of(*us) == sets_of(*gb)) continue;
    ++differ;
    CHECK_MESSAGE((us->words[0].source == WordSource::override_list && gb->words[0].source == WordSource::override_list), word);
    if (differ <= 60) examples += " " + word;
  }
  MESSAGE(asked << " words, " << differ << " differ between the families:" << examples);
  CHECK(static_cast<double>(differ) <= 0.01 * static_cast<double>(asked));
}
