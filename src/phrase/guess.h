#pragma once

#include "phrase/phoneme.h"
#include "phrase/pronounce.h"
#include "phrase/reading.h"

#include <string>

namespace mw {

/// Why the voices' answer for a word may be letter-to-sound guessing, as the end of a sentence that begins with the word;
/// empty where there is no reason to doubt. The voices never say that they do not know a word.
std::string why_a_guess(const SpokenWord& word, const VoicedWord& voiced, const Phonemes& phonemes);

} // namespace mw
