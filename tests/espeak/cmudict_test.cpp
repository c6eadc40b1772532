// General American beside the CMU pronouncing dictionary on the 5,000 most frequent words it holds. The two lists are
// fetched by ./check (tests/data/fetch-words.sh) and never shipped; without them the test says so and is skipped.

#include "accent/shared.h"
#include "base/assets.h"
#include "base/text.h"
#include "espeak/espeak.h"
#include "phrase/align.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <map>
#include <set>

using namespace mw;

namespace {

constexpr std::size_t word_count = 5000;
using Phones = std::vector<std::string>;

std::string data_file(const std::string& name) {
  const char* folder = std::getenv("MOUTHWRIGHT_WORDS");
  const auto text = read_file(std::string(folder == nullptr ? ".build/words" : folder) + "/" + name, 32u << 20);
  return text ? *text : std::string();
}

/// Words of the dictionary with every pronunciation it gives: lines  "word": "W ER1 D",  and  "word(2)": ...
std::map<std::string, std::vector<Phones>> dictionary(const std::string& text) {
  std::map<std::string, std::vector<Phones>> words;
  for (const auto& line : split(text, '\n')) {
    const auto parts = split(line, '"');
    if (parts.size() != 5) continue;
    Phones phones;
    for (auto phone : split(parts[3], ' ')) {
      while (!phone.empty() && phone.back() >= '0' && phone.back() <= '9') phone.pop_back(); // stress
      phones.push_back(phone);
    }
    words[parts[1].substr(0, parts[1].find('('))].push_back(std::move(phones));
  }
  return words;
}

/// Words by frequency, small letters, each once: lines  "word": "the",
std::vector<std::string> by_frequency(const std::string& text) {
  std::vector<std::string> words;
  std::set<std::string> seen;
  for (const auto& line : split(text, '\n')) {
    const auto parts = split(line, '"');
    if (parts.size() != 5 || parts[1] != "word") continue;
    if (std::string word = to_lower(parts[3]); seen.insert(word).second) words.push_back(std::move(word));
  }
  return words;
}

/// What each sound of the accent is in the dictionary's alphabet (ARPABET); an r after a vowel stands by itself there too.
const std::map<std::string, Phones>& alphabet() {
  static const std::map<std::string, Phones> table{
      {"i", {"IY"}}, {"ɪ", {"IH"}}, {"ɛ", {"EH"}}, {"æ", {"AE"}}, {"ɑ", {"AA"}}, {"ɔ", {"AO"}}, {"ʊ", {"UH"}}, {"u", {"UW"}},
      {"ʌ", {"AH"}}, {"ə", {"AH"}}, {"ɝ", {"ER"}}, {"ɚ", {"ER"}}, {"eɪ", {"EY"}}, {"aɪ", {"AY"}}, {"ɔɪ", {"OY"}},
      {"aʊ", {"AW"}}, {"oʊ", {"OW"}}, {"ɛə", {"AE"}}, {"p", {"P"}}, {"b", {"B"}}, {"t", {"T"}}, {"d", {"D"}}, {"k", {"K"}},
      {"ɡ", {"G"}}, {"m", {"M"}}, {"n", {"N"}}, {"ŋ", {"NG"}}, {"f", {"F"}}, {"v", {"V"}}, {"θ", {"TH"}}, {"ð", {"DH"}},
      {"s", {"S"}}, {"z", {"Z"}}, {"ʃ", {"SH"}}, {"ʒ", {"ZH"}}, {"tʃ", {"CH"}}, {"dʒ", {"JH"}}, {"h", {"HH"}}, {"l", {"L"}},
      {"ɹ", {"R"}}, {"j", {"Y"}}, {"w", {"W"}}, {"ʍ", {"W"}}};
  return table;
}

Phones phones_of(const Pronunciation& said, std::set<std::string>& unknown) {
  Phones phones;
  for (const auto& placed : placed_sounds(said)) {
    // a consonant by what it stands for (a tap is t or d); a syllabic one has a schwa of its own there
    const bool consonant = !is_vowel(placed.sound);
    if (consonant && placed.nucleus) phones.emplace_back("AH");
    const std::string key = consonant ? placed.stands_for : to_ipa(placed.sound);
    const auto at = alphabet().find(key);
    if (at == alphabet().end()) unknown.insert(key);
    else phones.insert(phones.end(), at->second.begin(), at->second.end());
  }
  return phones;
}

std::size_t distance(const Phones& a, const Phones& b) {
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t corner = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t up = row[j];
      row[j] = std::min({up + 1, row[j - 1] + 1, corner + (a[i - 1] == b[j - 1] ? 0 : 1)});
      corner = up;
    }
  }
  return row[b.size()];
}

std::string joined(const Phones& phones) {
  std::string text;
  for (const auto& phone : phones) text += (text.empty() ? "" : " ") + phone;
  return text;
}

} // namespace

TEST_CASE("General American: at least 97 % of the dictionary's phonemes on the 5,000 most frequent words") {
  const std::string dictionary_text = data_file("cmudict.js"), frequency_text = data_file("frequency.json");
  if (dictionary_text.empty() || frequency_text.empty()) {
    const std::string why = data_file("why-not.txt");
    std::printf("SKIPPED: %s\n", why.empty() ? "the word lists are not there; ./check fetches them" : why.c_str());
    return;
  }
  const auto known = dictionary(dictionary_text);
  const auto words = by_frequency(frequency_text);
  REQUIRE(known.size() > 100000);
  REQUIRE(words.size() > 50000);
  auto voices = open_espeak();
  REQUIRE(voices.has_value());
  const auto accent = read_shared_accent("GA");
  std::size_t asked = 0, phonemes = 0, wrong = 0, whole = 0;
  std::set<std::string> unknown;
  std::map<std::string, int> confusions;
  for (const auto& word : words) {
    if (asked == word_count) break;
    const auto at = known.find(word);
    if (at == known.end() || word.size() < 2) continue; // "s", "t": pieces of contractions, not words
    const auto said = pronounce(word, **accent, **voices, {.casual = 0});
    REQUIRE(said.has_value());
    const Phones ours = phones_of(*said, unknown);
    const auto nearest = std::min_element(at->second.begin(), at->second.end(), [&](const Phones& x, const Phones& y) {
      return distance(ours, x) < distance(ours, y);
    });
    ++asked;
    phonemes += nearest->size();
    const std::size_t off = distance(ours, *nearest);
    wrong += off;
    if (off == 0) ++whole;
    if (off > 0 && std::getenv("MOUTHWRIGHT_SHOW") != nullptr) std::printf("%s: %s / %s\n", word.c_str(), joined(ours).c_str(), joined(*nearest).c_str());
  }
  const double share = 1 - static_cast<double>(wrong) / static_cast<double>(phonemes);
  MESSAGE(asked << " words, " << phonemes << " phonemes, " << to_text(100 * share, 2) << " % agree; whole words "
                << to_text(100.0 * static_cast<double>(whole) / static_cast<double>(asked), 1) << " %");
  for (const auto& sign : unknown) MESSAGE("no sign of the dictionary's alphabet for " << sign);
  CHECK(asked == word_count);
  CHECK(unknown.empty());
  CHECK(share >= 0.97);
}
