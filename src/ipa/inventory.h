#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace mw {

/// One row per IPA letter; places, manners and heights in the field's standard terms.
struct Letter {
  std::string ipa;     // NFD
  std::string xsampa;
  std::string name;    // "voiceless bilabial plosive"
  bool vowel = false;
  bool voiced = false;
  std::string place;   // bilabial ... glottal; empty for vowels
  std::string manner;  // stop nasal trill tap fricative affricate approximant lateral ... click implosive ejective
  std::string height, backness; // vowels
  bool rounded = false;
  std::string learner_name; // plain words for a student: "s as in kettles"; may be empty
};

/// All letters, in chart order.
std::span<const Letter> letters();
/// The row of a letter (canonical spelling), or nothing.
const Letter* find_letter(std::string_view ipa);

/// One row per diacritic or suprasegmental.
struct Diacritic {
  std::string ipa; // NFD, without the dotted circle
  std::string xsampa;
  std::string name;
  bool moves_shape = false; // false: shown, not moved (tones, length)
};
std::span<const Diacritic> diacritics();
const Diacritic* find_diacritic(std::string_view ipa);
/// Whether a phonetician would write this diacritic on this letter.
bool is_legal(const Diacritic& diacritic, const Letter& letter);

} // namespace mw
