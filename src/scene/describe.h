#pragma once

#include "phrase/pronunciation.h"

#include <string>

namespace mw {

/// What a sound asks of the mouth in a few plain words: what, and a detail ("back closes", "up to the soft palate").
struct SoundWords { std::string what, detail; };
SoundWords describe_sound(const Sound& sound);

/// A word written with English letters the way it sounds, stressed syllable in capitals ("KET-uhlz"). Sounds outside
/// English keep their IPA letter.
std::string respell(const Word& word);

} // namespace mw
