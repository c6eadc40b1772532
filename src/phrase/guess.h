#pragma once

#include "phrase/reading.h"
#include "phrase/words.h"

#include <string>

namespace mw {

/// Why the voices' answer for a word is likely to be guessed from its letters, as the end of a sentence that begins
/// with the word; empty where there is no reason to doubt. The voices never say that they do not know a word, so the
/// answer is doubted when no list has it: that finds invented words, slips of the finger and rare names, and misses
/// words of the list that the voices get wrong.
std::string why_a_guess(const WordTables& tables, const SpokenWord& word);

} // namespace mw
