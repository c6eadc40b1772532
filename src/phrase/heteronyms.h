#pragma once

#include "phrase/words.h"

namespace mw {

/// The likelier reading of a word with several, from the word before it; otherwise what the voice says, or the first.
std::size_t likely_reading(const std::vector<HeteronymReading>& readings, std::string_view before, const Phonemes& voiced);

} // namespace mw
