#pragma once

#include <string>
#include <vector>

namespace mw {

/// One sound as the program carries it, from the pronunciation to the shape. `letter` is a letter of the inventory
/// (NFD; affricates and double articulations are one letter without tie: "t\u0283", "k\u0361p" is "kp"; script g is
/// U+0261), `marks` are combining or spacing diacritics in canonical order. A glide is a vowel with a second vowel.
struct Sound {
  std::string letter;
  std::vector<std::string> marks{};
  std::string glide_letter{}; // second vowel of a glide, empty otherwise
  std::vector<std::string> glide_marks{};
  std::string kind{}; // a kind that no sign shows: "bunched" or "tip-up" (r), empty otherwise
  bool operator==(const Sound&) const = default;
};

/// IPA text of a sound, NFC, as shown to people and written to files.
std::string to_ipa(const Sound& sound);
/// X-SAMPA text of a sound; tone letters become tone marks (the notation has one code for both), a letter without code
/// stays as it is.
std::string to_xsampa(const Sound& sound);

/// A vowel, glide or syllabic consonant can be a nucleus.
bool is_vowel(const Sound& sound);
inline bool is_glide(const Sound& sound) { return !sound.glide_letter.empty(); }
/// A consonant that carries the syllabic mark.
bool is_syllabic(const Sound& sound);

} // namespace mw
