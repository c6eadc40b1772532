#include "phrase/phoneme.h"

#include "base/text.h"
#include "ipa/inventory.h"
#include "ipa/syllabify.h"

#include <algorithm>
#include <array>

namespace mw {
namespace {
template <std::size_t N> bool among(std::string_view letter, const std::array<std::string_view, N>& list) {
  return std::find(list.begin(), list.end(), letter) != list.end();
}
constexpr std::array<std::string_view, 11> voiceless{"p",      "t",       "k", "f",      "\u03b8", "s",
                                                     "\u0283", "t\u0283", "h", "\u028d", "x"};
constexpr std::array<std::string_view, 8> voiced{"b", "d", "\u0261", "v", "\u00f0", "z", "\u0292", "d\u0292"};
constexpr std::array<std::string_view, 6> hissing{"s", "z", "\u0283", "\u0292", "t\u0283", "d\u0292"};
constexpr std::string_view primary = "\u02c8", secondary = "\u02cc";

/// Consonants that a respelling may name: the letters of English and those of its loans.
bool is_consonant(std::string_view text) {
  if (among(text, voiceless) || among(text, voiced)) return true;
  const Letter* letter = find_letter(text);
  return letter != nullptr && !letter->vowel;
}
std::vector<Sound> to_sounds(Phonemes::const_iterator start, Phonemes::const_iterator end) {
  std::vector<Sound> sounds;
  sounds.reserve(static_cast<std::size_t>(end - start));
  for (; start != end; ++start) sounds.push_back({start->consonant});
  return sounds;
}
} // namespace

bool has_r(LexicalSet set) {
  switch (set) {
  case LexicalSet::NURSE:
  case LexicalSet::NEAR:
  case LexicalSet::SQUARE:
  case LexicalSet::START:
  case LexicalSet::NORTH:
  case LexicalSet::FORCE:
  case LexicalSet::CURE:
  case LexicalSet::lettER:
    return true;
  default:
    return false;
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
      return Problem{ProblemKind::input, "\"" + piece + "\" is neither a consonant nor a lexical set",
                     std::string(text),
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
  const auto is_nucleus = [](const Phoneme& phoneme) { return phoneme.set.has_value(); };
  auto start = phonemes.begin(), nucleus = std::find_if(start, phonemes.end(), is_nucleus);
  if (nucleus == phonemes.end())
    nucleus = start + static_cast<std::ptrdiff_t>(most_sonorous(to_sounds(start, phonemes.end())));
  std::vector<LexicalSyllable> syllables;
  while (start != phonemes.end()) {
    const auto next = std::find_if(nucleus + 1, phonemes.end(), is_nucleus);
    // the next syllable takes the longest legal onset out of the consonants in between
    auto end = next;
    if (next != phonemes.end())
      for (end = nucleus + 1; next - end > 0 && !is_english_onset(to_sounds(end, next));) ++end;
    syllables.push_back(LexicalSyllable{{start, nucleus}, *nucleus, {nucleus + 1, end}});
    start = end;
    nucleus = next;
  }
  return syllables;
}

} // namespace mw
