#include "phrase/phoneme.h"

#include "base/text.h"
#include "ipa/inventory.h"
#include "ipa/parse.h"

#include <algorithm>
#include <array>

namespace mw {
namespace {
template <std::size_t N> bool among(std::string_view letter, const std::array<std::string_view, N>& list) {
  return std::find(list.begin(), list.end(), letter) != list.end();
}
constexpr std::array<std::string_view, 11> voiceless{"p", "t", "k", "f", "\u03b8", "s", "\u0283", "t\u0283", "h", "\u028d", "x"};
constexpr std::array<std::string_view, 8> voiced{"b", "d", "\u0261", "v", "\u00f0", "z", "\u0292", "d\u0292"};
constexpr std::array<std::string_view, 6> hissing{"s", "z", "\u0283", "\u0292", "t\u0283", "d\u0292"};
constexpr std::string_view primary = "\u02c8", secondary = "\u02cc";

/// Consonants that a respelling may name: the letters of English and those of its loans.
bool is_consonant(std::string_view text) {
  if (among(text, voiceless) || among(text, voiced)) return true;
  const Letter* letter = find_letter(text);
  return letter != nullptr && !letter->vowel;
}
} // namespace

bool has_r(LexicalSet set) {
  switch (set) {
  case LexicalSet::NURSE: case LexicalSet::NEAR: case LexicalSet::SQUARE: case LexicalSet::START:
  case LexicalSet::NORTH: case LexicalSet::FORCE: case LexicalSet::CURE: case LexicalSet::lettER: return true;
  default: return false;
  }
}

bool is_voiceless(std::string_view consonant) { return among(consonant, voiceless); }
bool is_voiced_obstruent(std::string_view consonant) { return among(consonant, voiced); }

Result<Phonemes> parse_respelling(std::string_view text) {
  Phonemes phonemes;
  for (const auto& piece : split(text, ' ')) {
    if (piece.empty()) continue;
    std::string_view rest = piece;
    int stress = 0;
    if (starts_with(rest, primary) || starts_with(rest, secondary)) {
      stress = starts_with(rest, primary) ? 1 : 2;
      rest.remove_prefix(primary.size());
    }
    if (const auto set = parse_keyword(rest)) {
      phonemes.push_back({"", set, stress});
      continue;
    }
    const std::string letter = rest == "g" ? "\u0261" : rest == "r" ? "\u0279" : std::string(rest);
    if (stress != 0 || !is_consonant(letter))
      return Problem{ProblemKind::input, "\"" + piece + "\" is neither a consonant nor a lexical set", std::string(text),
                     "write IPA consonants and set keywords parted by spaces, such as k \u02c8DRESS t commA l"};
    phonemes.push_back({letter});
  }
  if (phonemes.empty()) return Problem{ProblemKind::input, "the respelling is empty", "", "write at least one sound"};
  return phonemes;
}

std::string to_respelling(const Phonemes& phonemes) {
  std::string text;
  for (const auto& phoneme : phonemes) {
    if (!text.empty()) text += ' ';
    if (phoneme.set && phoneme.stress > 0) text += phoneme.stress == 1 ? primary : secondary;
    text += phoneme.set ? std::string(to_keyword(*phoneme.set)) : phoneme.consonant;
  }
  return text;
}

void add_s(Phonemes& phonemes) {
  const std::string last = phonemes.empty() ? std::string() : phonemes.back().consonant;
  if (among(last, hissing)) phonemes.push_back({"", LexicalSet::KIT});
  phonemes.push_back({is_voiceless(last) && !among(last, hissing) ? "s" : "z"});
}

std::vector<LexicalSyllable> to_syllables(const Phonemes& phonemes) {
  // the accent is not known yet: every vowel stands in as the same letter
  std::vector<Sound> sounds;
  for (const auto& phoneme : phonemes) sounds.push_back({phoneme.set ? std::string("\u0259") : phoneme.consonant});
  std::vector<LexicalSyllable> syllables;
  auto at = phonemes.begin();
  for (const auto& spelled : syllabify(sounds)) {
    const auto nucleus = at + static_cast<std::ptrdiff_t>(spelled.onset.size());
    const auto end = nucleus + 1 + static_cast<std::ptrdiff_t>(spelled.coda.size());
    syllables.push_back({{at, nucleus}, *nucleus, {nucleus + 1, end}});
    at = end;
  }
  return syllables;
}

} // namespace mw
