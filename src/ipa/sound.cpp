#include "ipa/sound.h"

#include "base/text.h"
#include "ipa/glide.h"
#include "ipa/inventory.h"

#include <algorithm>

namespace mw {
namespace {
/// Letters whose tail leaves no room for a ring or stroke below (Handbook 1999: place the mark above).
bool has_descender(const std::string& letter) {
  constexpr std::string_view tailed[] = {"ɡ", "ŋ", "j", "p", "q", "y", "ɲ", "ɱ", "ɥ", "ʒ", "ɣ",       "ʝ", "ɻ",
                                         "ɳ", "ɭ", "ʂ", "ʐ", "ʈ", "ɖ", "ɟ", "ɰ", "β", "χ", "c\u0327", "ɽ", "ŋm"};
  return std::find(std::begin(tailed), std::end(tailed), letter) != std::end(tailed);
}

/// The first letter of a double letter ends where the tie stands.
std::string tied(const std::string& letter) {
  const auto begins_sign = [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; };
  if (std::ranges::count_if(letter, begins_sign) < 2) return letter;
  if (letter == "tʃ" || letter == "dʒ") return letter; // one affricate without tie (the rule of input)
  const auto signs = decode_utf8(letter);
  if (!signs || signs->size() < 2 || letter == "c\u0327") return letter;
  return encode_utf8(signs->front()) + "\u0361" + encode_utf8(signs->substr(1));
}

std::string spelled(const std::string& letter, const std::vector<std::string>& marks) {
  std::string text = tied(letter);
  for (const auto& mark : marks) {
    if (mark == "\u0325" && has_descender(letter))
      text += "\u030A";
    else if (mark == "\u0329" && has_descender(letter))
      text += "\u030D";
    else
      text += mark;
  }
  return text;
}

std::string in_xsampa(const std::string& letter, const std::vector<std::string>& marks) {
  const Letter* row = find_letter(letter);
  std::string text = row == nullptr || row->xsampa.empty() ? tied(letter) : row->xsampa;
  for (const auto& mark : marks) {
    const Diacritic* diacritic = find_diacritic(mark);
    text += diacritic == nullptr ? mark : diacritic->xsampa;
  }
  return text;
}

bool needs_non_syllabic(const Sound& sound) {
  const bool rising = std::find(sound.marks.begin(), sound.marks.end(), "\u032F") != sound.marks.end();
  return !rising && !is_usual_glide(sound);
}
} // namespace

std::string to_ipa(const Sound& sound) {
  std::string text = spelled(sound.letter, sound.marks);
  if (is_glide(sound)) {
    auto marks = sound.glide_marks;
    if (needs_non_syllabic(sound)) marks.insert(marks.begin(), "\u032F");
    text += spelled(sound.glide_letter, marks);
  }
  return to_nfc(text);
}

std::string to_xsampa(const Sound& sound) {
  std::string text = in_xsampa(sound.letter, sound.marks);
  if (is_glide(sound)) {
    text += in_xsampa(sound.glide_letter, sound.glide_marks);
    if (needs_non_syllabic(sound)) text += "_^";
  }
  return text;
}

bool is_vowel(const Sound& sound) {
  const Letter* letter = find_letter(sound.letter);
  return letter != nullptr && letter->vowel;
}

bool is_syllabic(const Sound& sound) {
  return !is_vowel(sound) && std::find(sound.marks.begin(), sound.marks.end(), "\u0329") != sound.marks.end();
}

} // namespace mw
