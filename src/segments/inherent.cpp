#include "segments/inherent.h"

#include "ipa/inventory.h"

#include <algorithm>
#include <string_view>

// Inherent and minimum durations: Allen, Hunnicutt & Klatt 1987, From Text to Speech: the MITalk system, ch. 9 (after
// Klatt 1979). Rows marked + are our own fall-backs by class: means of the published rows of that class, or common
// practice where it has none.

namespace mw {
namespace {
struct Row {
  const char* letter;
  Inherent ms;
};

constexpr Row letter_rows[] = {
    // vowels
    {"ɑ", {240, 100}},
    {"æ", {230, 80}},
    {"ʌ", {140, 60}},
    {"ɔ", {240, 100}},
    {"ə", {120, 60}},
    {"ɛ", {150, 70}},
    {"ɝ", {180, 80}},
    {"ɪ", {135, 40}},
    {"ɨ", {110, 60}},
    {"i", {155, 55}},
    {"ʊ", {160, 60}},
    {"u", {210, 70}},
    {"ɚ", {150, 70}}, // + between ə and ɝ
    {"ɜ", {180, 80}}, // + as ɝ
    {"ɒ", {200, 80}}, // + between ʌ and ɔ
    {"ɐ", {150, 65}}, // + as ʌ, more open
    // consonants
    {"h", {80, 20}},
    {"l", {80, 40}},
    {"ɫ", {90, 70}},
    {"ɹ", {80, 30}},
    {"w", {80, 60}},
    {"j", {80, 40}},
    {"m", {70, 60}},
    {"n", {60, 50}},
    {"ŋ", {95, 60}},
    {"ð", {50, 30}},
    {"f", {100, 80}},
    {"s", {105, 60}},
    {"ʃ", {105, 80}},
    {"θ", {90, 60}},
    {"v", {60, 40}},
    {"z", {75, 40}},
    {"ʒ", {70, 40}},
    {"b", {85, 60}},
    {"d", {75, 50}},
    {"ɡ", {80, 60}},
    {"k", {80, 60}},
    {"p", {90, 50}},
    {"t", {75, 50}},
    {"ɾ", {27, 27}}, // + table 20; Crystal & House 1988: 29 in connected speech
    {"ʔ", {60, 40}}, // + shorter than an oral stop
    {"tʃ", {120, 85}},
    {"dʒ", {120, 85}}, // + table value is the closure (70, 50); 50 (35) of friction, Stevens 1998
};

// + classes of consonants, first match wins
struct ClassRow {
  const char* manner; // part of Letter::manner
  int voiced;         // 1, 0, or -1 for either
  Inherent ms;
};
constexpr ClassRow class_rows[] = {
    {"affricate", -1, {120, 85}}, // as tʃ
    {"fricative", 0, {105, 70}},  // mean of f θ s ʃ
    {"fricative", 1, {65, 40}},   // mean of v ð z ʒ
    {"tap", -1, {27, 27}},        // as ɾ
    {"trill", -1, {100, 70}},     // two to three beats at 25-30 Hz
    {"click", -1, {120, 90}},     // two closures and a cavity that widens: common practice
    {"implosive", -1, {90, 60}},  // voiced stop with a larynx that moves: common practice
    {"nasal", -1, {75, 57}},      {"stop", 0, {82, 53}},
    {"stop", 1, {80, 57}},        {"approximant", -1, {80, 43}}, // mean of ɹ w j
    {"lateral", -1, {80, 40}},
};

// + classes of vowels: means of the published rows near in height
struct HeightRow {
  const char* height;
  Inherent ms;
};
constexpr HeightRow height_rows[] = {{"close", {175, 60}}, {"near-close", {150, 50}}, {"close-mid", {170, 75}},
                                     {"mid", {120, 60}},   {"open-mid", {165, 70}},   {"near-open", {200, 80}},
                                     {"open", {230, 95}}};

Inherent letter_duration(const Letter& letter) {
  for (const auto& row : letter_rows)
    if (letter.ipa == row.letter) return row.ms;
  if (letter.vowel) {
    for (const auto& row : height_rows)
      if (letter.height == row.height) return row.ms;
  }
  for (const auto& row : class_rows)
    if (letter.manner.find(row.manner) != std::string::npos && (row.voiced < 0 || (row.voiced == 1) == letter.voiced))
      return row.ms;
  return {80, 50};
}

bool is_one_of(std::string_view text, std::initializer_list<std::string_view> choices) {
  return std::find(choices.begin(), choices.end(), text) != choices.end();
}
bool is_open(const Letter& l) { return is_one_of(l.height, {"open", "near-open"}); }
bool is_front(const Letter& l) { return is_one_of(l.backness, {"front", "near-front"}); }
bool is_high(const Letter& l) { return is_one_of(l.height, {"close", "near-close"}); }

/// Rows AY AW OY EY OW and the r-coloured ones of the table, by what the glide does.
Inherent glide_duration(const Letter& from, const Letter& to) {
  const bool centring = to.backness == "central" && !is_high(to);
  if (centring && is_high(from)) return is_front(from) ? Inherent{230, 100} : Inherent{230, 110};
  if (centring) return {270, 130};
  if (is_high(from)) return {170, 70}; // + tightening: a little longer than i
  if (is_front(to)) {
    if (from.rounded) return {280, 150};
    return is_open(from) || from.backness == "back" ? Inherent{250, 150} : Inherent{190, 100};
  }
  return is_open(from) ? Inherent{260, 100} : Inherent{220, 80};
}

/// Consonants as nuclei: rows EL EM EN; + others by the same step (about half as long again).
Inherent syllabic_duration(const Letter& letter) {
  if (letter.manner == "lateral") return {200, 110}; // table 260: shortened to what bottle and kettle allow
  if (letter.manner == "nasal") return {170, letter.ipa == "m" ? 110.0 : 100.0};
  if (is_one_of(letter.ipa, {"ɹ", "ɻ", "r"})) return {150, 70}; // as ɚ
  const Inherent plain = letter_duration(letter);
  return {1.5 * plain.inherent_ms, 1.5 * plain.minimum_ms};
}

/// + Length marks. Vowels: Wiik 1965 measured about 1.6 for English pairs, of which the rows hold a part; long
/// consonants about twice the short ones (common practice).
Inherent with_length(Inherent ms, const std::vector<std::string>& marks, bool vowel) {
  for (const auto& mark : marks) {
    double stretch = 1, least = 1;
    if (mark == "ː") {
      stretch = vowel ? std::clamp(250 / ms.inherent_ms, 1.1, 1.4) : 1.9;
      least = vowel ? 1.2 : 1.6;
    }
    if (mark == "ˑ") stretch = vowel ? 1.2 : 1.4, least = vowel ? 1.1 : 1.3;
    if (mark == "\u0306") stretch = 0.6, least = 0.7;
    ms = {ms.inherent_ms * stretch, ms.minimum_ms * least};
  }
  return ms;
}
} // namespace

Inherent inherent_duration(const Sound& sound, bool nucleus) {
  const Letter *letter = find_letter(sound.letter), *end = find_letter(sound.glide_letter);
  if (letter == nullptr) return {80, 50}; // a sound outside the inventory: a middling consonant
  Inherent ms = letter_duration(*letter);
  if (letter->vowel && end != nullptr)
    ms = glide_duration(*letter, *end);
  else if (!letter->vowel && nucleus)
    ms = syllabic_duration(*letter);
  return with_length(with_length(ms, sound.marks, letter->vowel), sound.glide_marks, true);
}

} // namespace mw
