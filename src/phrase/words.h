#pragma once

#include "base/result.h"
#include "phrase/numbers.h"
#include "phrase/phoneme.h"

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace mw {

struct OverriddenVowel {
  std::size_t vowel;
  LexicalSet set;
}; // vowel counted from 1
/// A vowel that American and British English say with two sets.
struct NationalVowel {
  std::size_t vowel; // counted from 1
  LexicalSet american, british;
};
struct HeteronymReading {
  Phonemes phonemes;
  std::string meaning;
};
/// One way to weaken a function word. All conditions of `where` must hold, and the speech be at least this casual.
struct WeakForm {
  Phonemes phonemes;
  std::vector<std::string> where;
  double casual = 0;
};
/// A whole word that the program spells itself, for one norm or both.
struct OwnSpelling {
  Phonemes phonemes;
  std::optional<Norm> norm;
};

/// What the program knows about single words: assets/words/*.csv, read once.
struct WordTables {
  std::map<std::string, std::vector<OverriddenVowel>, std::less<>> overrides;
  std::map<std::string, std::vector<NationalVowel>, std::less<>> national;
  std::map<std::string, std::vector<OwnSpelling>, std::less<>> spellings;
  std::map<std::string, std::vector<OwnSpelling>, std::less<>> letters;
  std::map<std::string, std::vector<HeteronymReading>, std::less<>> heteronyms;
  std::map<std::string, std::vector<WeakForm>, std::less<>> weak_forms;
  std::string known; // sorted lines: words that spelling checkers know
};
/// Problem (missing) when a table is not there, (fault) when a row does not fit.
const Result<WordTables>& word_tables();

/// Applies the override list to the vowels of a word; inflected words (dogs, halted) follow their stem. True if it did.
bool apply_overrides(const WordTables& tables, std::string_view word, Phonemes& phonemes);
/// Gives a word that the two countries say with other vowels (either, tomato) the sets of one. True if it stands in the list.
bool apply_national(const WordTables& tables, std::string_view word, Norm norm, Phonemes& phonemes);
/// The program's own spelling of a word for a norm, or nothing.
const Phonemes* find_spelling(const std::map<std::string, std::vector<OwnSpelling>, std::less<>>& table,
                              std::string_view word, Norm norm);

} // namespace mw
