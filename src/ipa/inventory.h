#pragma once

#include "ipa/sound.h"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace mw {

/// One row per IPA letter; places, manners and heights in the field's standard terms.
struct Letter {
  std::string ipa;     // NFD
  std::string xsampa;
  std::string name;    // "voiceless bilabial plosive"
  bool vowel = false;
  bool voiced = false;
  std::string place;   // bilabial ... glottal; empty for vowels
  std::string manner;  // stop nasal trill tap fricative affricate approximant lateral, "lateral fricative",
                       // "lateral tap", "lateral affricate", click, "lateral click", "nasal click",
                       // "nasal lateral click", implosive; "vowel" for vowels. An ejective is a mark, not a letter.
  std::string height;   // vowels: close near-close close-mid mid open-mid near-open open
  std::string backness; // vowels: front near-front central near-back back
  bool rounded = false;
  std::string learner_name; // plain words for a student: "s as in kettles"; may be empty
};

/// All letters, in chart order.
std::span<const Letter> letters();
/// The row of a letter, or nothing; ties, typewriter g, other spellings and any normalisation are folded.
const Letter* find_letter(std::string_view ipa);

/// The ejectives printed on the chart as examples.
std::vector<Sound> chart_ejectives();

/// One row per diacritic or suprasegmental, in the order in which a sound carries its marks.
struct Diacritic {
  std::string ipa; // NFD, without the dotted circle
  std::string xsampa;
  std::string name;
  bool moves_shape = false; // false: shown, not moved (tones, length)
};
std::span<const Diacritic> diacritics();
const Diacritic* find_diacritic(std::string_view ipa);
/// Whether a phonetician would write this diacritic on this letter. False too for signs that stand between letters
/// (stress, breaks, ties, intonation) and where the pair is written as a letter of its own (ə + rhoticity = ɚ).
bool is_legal(const Diacritic& diacritic, const Letter& letter);
/// Whether two marks cannot stand on one letter together (raised and lowered, dental and linguolabial, ...).
bool exclude_each_other(const Diacritic& one, const Diacritic& other);
/// A tone mark or tone letter: shown, not moved.
bool is_tone(const Diacritic& diacritic);

} // namespace mw
