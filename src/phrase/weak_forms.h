#pragma once

#include "phrase/chain.h"
#include "phrase/numbers.h"
#include "phrase/words.h"

namespace mw {

/// Words of grammar that carry no beat of their own: articles, pronouns, prepositions, conjunctions, auxiliaries.
bool is_function_word(std::string_view word);

/// What a function word could also have been here: its full form where a weak one took its place, or the weak form where the
/// accent keeps full vowels.
struct OtherForm {
  std::optional<Phonemes> full{}, weak{};
};

/// Gives function words the form that fits their place: no stress unless they stand alone, and from the table of weak
/// forms the most reduced one that the casualness and the neighbours allow. Returns the other form of each word.
std::vector<OtherForm> weaken(std::vector<ChainWord>& words, const Accent& accent, double casual, Norm norm,
                              const WordTables& tables);

} // namespace mw
