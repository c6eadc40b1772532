#pragma once

#include "accent/accent.h"
#include "phrase/align.h"

namespace mw {

/// The sounds of a word said alone, from its IPA.
std::vector<PlacedSound> sounds_alone(const std::string& ipa);

/// The full form, in IPA, of every word that is in its weak form; "" for the others. From the processes.
std::vector<std::string> full_forms(const Pronunciation& said);

/// Gives the vowel of each weak word of one syllable the sound and set that its full form has: what a person thinks of as
/// its vowel. The set is the first one whose values in both accents are the two sounds; where none is, the weak vowel stays.
void give_full_vowels(const Pronunciation& a, const Accent& accent_a, std::vector<PlacedSound>& left,
                      const Pronunciation& b, const Accent& accent_b, std::vector<PlacedSound>& right);

} // namespace mw
