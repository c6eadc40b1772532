#pragma once

#include "phrase/chain.h"
#include "phrase/numbers.h"
#include "phrase/words.h"

namespace mw {

/// Words of grammar that carry no beat of their own: articles, pronouns, prepositions, conjunctions, auxiliaries.
bool is_function_word(std::string_view word);

/// Gives function words the form that fits their place: no stress unless they stand alone, and from the table of weak
/// forms the most reduced one that the casualness and the neighbours allow. Returns, for each word, its strong phonemes
/// where a weak form took their place, else nothing.
std::vector<std::optional<Phonemes>> weaken(std::vector<ChainWord>& words, const Accent& accent, double casual,
                                            Norm norm, const WordTables& tables);

} // namespace mw
