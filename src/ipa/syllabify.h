#pragma once

#include "ipa/sound.h"

#include <cstddef>
#include <vector>

namespace mw {

/// Index of the most sonorous sound (the first of equals); 0 for an empty list.
std::size_t most_sonorous(const std::vector<Sound>& sounds);

/// Whether these consonants may begin an English syllable; broad by letter (r of any kind, any l).
bool is_english_onset(const std::vector<Sound>& consonants);

} // namespace mw
