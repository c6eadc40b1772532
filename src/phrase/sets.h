#pragma once

#include "phrase/numbers.h"
#include "phrase/phoneme.h"
#include "phrase/pronounce.h"

namespace mw {

/// Which lexical set each vowel of a word has, from how two voices say it. `unknown` signs are left out.
struct LexicalWord {
  Phonemes phonemes;
  std::vector<std::string> unknown;
};

/// The pair method: what the American voice keeps apart (CLOTH) and what the British one does (BATH, yod), vowel by
/// vowel. Where the voices have different words in mind (tomato, schedule), `norm` decides. No override list is
/// applied.
LexicalWord classify(const VoicedWord& word, Norm norm);

} // namespace mw
