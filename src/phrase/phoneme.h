#pragma once

#include "accent/lexical_set.h"
#include "base/result.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace mw {

/// One sound of a word before any accent: a consonant by its IPA letter, or a vowel by its lexical set.
struct Phoneme {
  std::string consonant{};         // empty for a vowel
  std::optional<LexicalSet> set{}; // of a vowel
  int stress = 0;                  // of a vowel: 0 none, 1 primary, 2 secondary
  bool loose_yod = false;          // a j that some accents leave out: new, tune
  bool operator==(const Phoneme&) const = default;
};
using Phonemes = std::vector<Phoneme>;

/// Sets whose vowel stands for vowel + r of the spelling.
bool has_r(LexicalSet set);
bool is_voiceless(std::string_view consonant);
bool is_voiced_obstruent(std::string_view consonant);

/// A word written by its sets: IPA consonants and set keywords parted by spaces, a stress sign right before the keyword
/// of the vowel it falls on: "k \u02c8DRESS t commA l". Problem (input) names the piece that does not fit.
Result<Phonemes> parse_respelling(std::string_view text);
std::string to_respelling(const Phonemes& phonemes);

/// The plural, possessive or third-person ending on a word: s, z, or KIT z after a hissing sound.
void add_s(Phonemes& phonemes);

/// One syllable before any accent; in a word without a vowel the nucleus is its most sonorous consonant.
struct LexicalSyllable {
  Phonemes onset;
  Phoneme nucleus;
  Phonemes coda;
};
/// Divides by maximal legal English onset.
std::vector<LexicalSyllable> to_syllables(const Phonemes& phonemes);

} // namespace mw
