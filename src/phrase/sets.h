#pragma once

#include "phrase/numbers.h"
#include "phrase/phoneme.h"
#include "phrase/pronounce.h"

namespace mw {

/// Which lexical set each vowel of a word has, from how two voices say it. `unknown` signs are left out.
struct LexicalWord {
  Phonemes phonemes;
  std::vector<std::string> unknown;
  bool national = false; // American and British English differ in a vowel here, by rule
};

/// The pair method: what the American voice keeps apart (CLOTH) and what the British one does (BATH, yod), vowel by
/// vowel. Where the two countries differ by rule (military, missile) and in consonants and stress (schedule), `norm` decides;
/// else the sets are the same for both. No list of words is applied.
LexicalWord classify(const VoicedWord& word, Norm norm);

} // namespace mw
