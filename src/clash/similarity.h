#pragma once

#include "clash/features.h"

namespace mw {

/// How alike two sounds are, 0..1: shared natural classes over all natural classes that hold either (Frisch,
/// Pierrehumbert & Broe 2004), over the consonants or vowels of English plus the two sounds themselves. 1 for the same
/// key, 0 for a vowel against a consonant. Symmetric.
double similarity(const SoundFacts& a, const SoundFacts& b);

} // namespace mw
