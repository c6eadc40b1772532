#pragma once

#include "base/result.h"
#include "ipa/sound.h"

#include <string_view>

namespace mw {

enum class Notation { text, ipa, xsampa };

/// What IPA or X-SAMPA input says, before it is timed. Rules: contract.md section 2.
struct SpelledSyllable {
  std::vector<Sound> onset;
  Sound nucleus; // vowel, glide, or syllabic consonant
  std::vector<Sound> coda;
  int stress = 0; // 0 none, 1 primary, 2 secondary
  bool operator==(const SpelledSyllable&) const = default;
};
struct SpelledWord {
  std::vector<SpelledSyllable> syllables;
  bool group_end = false; // `|` follows
  Span span;              // code points of the input
  std::string text;       // the signs as typed
  bool operator==(const SpelledWord&) const = default;
};

/// One sound, with any legal diacritics, from IPA (`ipa`) or X-SAMPA (`xsampa`) text; a Problem names sign and position.
Result<Sound> parse_sound(std::string_view text, Notation notation);

/// A whole transcription. Problem (input) on the first sign that does not fit, with its offset in code points.
Result<std::vector<SpelledWord>> parse_transcription(std::string_view text, Notation notation);

/// Divides a string of sounds (consonants, vowels, glides, syllabic consonants; no marks of stress) by maximal legal
/// English onset; a nucleus is every sound for which is_vowel or is_syllabic holds; without any, the most sonorous
/// sound. Empty for no sounds.
std::vector<SpelledSyllable> syllabify(const std::vector<Sound>& sounds);

} // namespace mw
