#include "ipa/parse.h"

#include "base/text.h"
#include "ipa/inventory.h"
#include "ipa/signs.h"
#include "ipa/syllabify.h"

#include <algorithm>

namespace mw {
namespace {
bool is_nucleus(const Sound& sound) { return is_vowel(sound) || is_syllabic(sound); }

/// Sounds between two breaks, with the stress mark before them.
struct Chunk {
  std::vector<Sound> sounds;
  Span span;
  std::optional<int> stress;
};
struct WordChunks {
  std::vector<Chunk> chunks;
  Span span;
  bool empty = true, group_end = false;
};

/// A word of consonants alone is said on its most sonorous one (shh, mm); one of stops alone cannot be said.
std::optional<Problem> give_nucleus(Chunk& chunk, std::u32string_view text) {
  if (chunk.sounds.empty() || std::any_of(chunk.sounds.begin(), chunk.sounds.end(), is_nucleus)) return std::nullopt;
  Sound& top = chunk.sounds[most_sonorous(chunk.sounds)];
  const Diacritic* syllabic = find_diacritic("\u0329");
  const Letter* letter = find_letter(top.letter);
  if (letter == nullptr || syllabic == nullptr || !is_legal(*syllabic, *letter))
    return sign_problem("a syllable without vowel", text, chunk.span,
                        "add a vowel, or mark a consonant as syllabic (n̩)");
  const auto at = std::find_if(top.marks.begin(), top.marks.end(),
                               [&](const std::string& mark) { return find_diacritic(mark) > syllabic; });
  top.marks.insert(at, syllabic->ipa);
  return std::nullopt;
}

/// A stress mark before the vowel instead of the syllable: the consonants before it are its onset.
void draw_onsets_in(WordChunks& word) {
  for (std::size_t i = 0; i + 1 < word.chunks.size();) {
    Chunk &chunk = word.chunks[i], &next = word.chunks[i + 1];
    const bool bare = std::none_of(chunk.sounds.begin(), chunk.sounds.end(), is_nucleus);
    const bool vowel_next = !next.sounds.empty() && is_nucleus(next.sounds.front());
    if (bare && (chunk.sounds.empty() || (next.stress && vowel_next))) {
      next.sounds.insert(next.sounds.begin(), chunk.sounds.begin(), chunk.sounds.end());
      next.span.start = chunk.span.start;
      if (!next.stress) next.stress = chunk.stress;
      word.chunks.erase(word.chunks.begin() + static_cast<std::ptrdiff_t>(i));
    } else
      ++i;
  }
}

Result<SpelledWord> divide(WordChunks word, std::u32string_view text) {
  draw_onsets_in(word);
  SpelledWord out;
  out.span = word.span;
  out.text = encode_utf8(text.substr(word.span.start, word.span.end - word.span.start));
  out.group_end = word.group_end;
  bool stressed = false;
  for (auto& chunk : word.chunks) {
    if (chunk.sounds.empty()) {
      if (chunk.stress)
        return sign_problem("a stress mark with no syllable after it", text, chunk.span, "leave it out");
      continue;
    }
    if (auto problem = give_nucleus(chunk, text)) return *problem;
    auto syllables = syllabify(chunk.sounds);
    syllables.front().stress = chunk.stress.value_or(0);
    stressed = stressed || chunk.stress.has_value();
    out.syllables.insert(out.syllables.end(), syllables.begin(), syllables.end());
  }
  if (!stressed && !out.syllables.empty()) out.syllables.front().stress = 1;
  return out;
}

/// Collects the entries of join_signs into words and chunks.
struct Divider {
  std::u32string_view text;
  std::vector<SpelledWord> words{};
  WordChunks word{{Chunk{}}, {}, true, false};

  void widen(Span span) {
    word.span = word.empty ? span : Span{std::min(word.span.start, span.start), std::max(word.span.end, span.end)};
    word.empty = false;
  }
  std::optional<Problem> end_word(bool group_end) {
    std::optional<Problem> problem;
    const bool sayable = std::any_of(word.chunks.begin(), word.chunks.end(),
                                     [](const Chunk& chunk) { return !chunk.sounds.empty() || chunk.stress; });
    if (sayable) {
      word.group_end = group_end;
      auto divided = divide(word, text);
      if (divided)
        words.push_back(*divided);
      else
        problem = divided.error();
    } else if (group_end && !words.empty())
      words.back().group_end = true;
    word = WordChunks{{Chunk{}}, {}, true, false};
    return problem;
  }
  void start_chunk(Span span, std::optional<int> stress) {
    widen(span);
    word.chunks.push_back({{}, span, stress});
  }
  void add(const SpelledSound& entry) {
    widen(entry.span);
    Chunk& chunk = word.chunks.back();
    if (chunk.sounds.empty() && !chunk.stress) chunk.span = entry.span;
    chunk.sounds.push_back(entry.sound);
    chunk.span.end = std::max(chunk.span.end, entry.span.end);
  }
  std::optional<Problem> take(const SpelledSound& entry) {
    switch (entry.before) {
    case SignKind::word_break:
      return end_word(false);
    case SignKind::group_break:
      return end_word(true);
    case SignKind::stress:
      start_chunk(entry.span, 1);
      break;
    case SignKind::secondary_stress:
      start_chunk(entry.span, 2);
      break;
    case SignKind::syllable_break:
      start_chunk(entry.span, std::nullopt);
      break;
    case SignKind::intonation:
      break;
    default:
      add(entry);
    }
    return std::nullopt;
  }
};

Result<std::vector<SpelledSound>> read(std::u32string_view text, Notation notation) {
  const auto signs = read_signs(text, notation);
  if (!signs) return signs.error();
  return join_signs(*signs, text);
}
} // namespace

Result<Sound> parse_sound(std::string_view text, Notation notation) {
  const auto points = decode_utf8(text);
  if (!points) return points.error();
  const auto entries = read(*points, notation);
  if (!entries) return entries.error();
  const SpelledSound* found = nullptr;
  for (const auto& entry : *entries) {
    if (entry.before != SignKind::letter) continue;
    if (found != nullptr)
      return sign_problem("this is more than one sound", *points, entry.span,
                          "give one sound with its marks, or one glide");
    found = &entry;
  }
  if (found == nullptr)
    return Problem{ProblemKind::input, "there is no sound in this text", "“" + std::string(text) + "”",
                   "give one sound, such as s or aɪ", Span{0, points->size()}};
  return found->sound;
}

Result<std::vector<SpelledWord>> parse_transcription(std::string_view text, Notation notation) {
  const auto points = decode_utf8(text);
  if (!points) return points.error();
  const auto entries = read(*points, notation);
  if (!entries) return entries.error();
  Divider divider{*points};
  for (const auto& entry : *entries)
    if (auto problem = divider.take(entry)) return *problem;
  if (auto problem = divider.end_word(false)) return *problem;
  return divider.words;
}

} // namespace mw
