#include "phrase/heteronyms.h"

#include "base/text.h"
#include "phrase/scan_text.h"

namespace mw {

Neighbours_of_word look_round(std::span<const SpokenWord> words, std::size_t at) {
  constexpr std::string_view of_the_past[]{"yesterday", "ago", "earlier", "once"};
  Neighbours_of_word near;
  near.capital = words[at].capital;
  if (at > 0 && !words[at - 1].group_end) near.before = words[at - 1].key, near.after_name = is_upper(words[at - 1].text);
  for (std::size_t i = at; i + 1 < words.size() && !words[i].group_end; ++i) {
    if (i == at) near.after = words[i + 1].key;
    near.past = near.past || among(words[i + 1].key, of_the_past);
  }
  return near;
}

std::size_t likely_reading(const std::vector<HeteronymReading>& readings, const Neighbours_of_word& near,
                           const Phonemes& voiced) {
  const std::string_view before = near.before;
  constexpr std::string_view starts[]{"", "and", "then", "please", "now"}, pronouns[]{"it", "them", "him", "me", "us"},
      objects[]{"the", "a", "an", "my", "your", "his", "her", "our", "their", "this", "that", "these", "those", "up", "down"},
      subjects[]{"he", "she", "it", "who", "that", "which", "everyone", "everybody", "nobody", "someone", "somebody", "one"};
  constexpr std::string_view before_verb[]{"to",    "will",  "would", "can", "could", "should", "must",
                                           "may",   "might", "i",     "you", "we",    "they",   "don't",
                                           "can't", "won't", "shall", "and", "let's", "not",    "didn't"};
  constexpr std::string_view before_noun[]{"the",   "a",    "an",   "my",   "your", "his", "her",   "our",
                                           "their", "this", "that", "some", "no",   "any", "every", "of",
                                           "in",    "on",   "for",  "with", "into", "its", "one"};
  constexpr std::string_view before_past[]{"have",  "has",  "had",   "was",  "were", "is",     "been",  "be",
                                           "being", "i've", "she'd", "he'd", "we'd", "they'd", "we've", "they've"};
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const std::string& meaning = readings[i].meaning;
    const bool verb = meaning.find("verb") != std::string::npos || starts_with(meaning, "to ");
    const bool noun = meaning.find("noun") != std::string::npos || starts_with(meaning, "a ") ||
                      starts_with(meaning, "an ") || starts_with(meaning, "the ");
    if ((verb && among(before, before_verb)) || (noun && among(before, before_noun))) return i;
    if (verb && !among(before, before_noun) && (among(near.after, pronouns) || (among(before, starts) && among(near.after, objects)))) return i;
    if (meaning == "I read it yesterday" && (near.past || among(before, before_past))) return i;
    if (starts_with(meaning, "from ") && near.capital) return i; // Polish
    if (starts_with(meaning, "she ") && (near.after_name || among(before, subjects))) return i; // she lives here, Nell lives here
  }
  for (std::size_t i = 0; i < readings.size(); ++i)
    if (readings[i].phonemes == voiced) return i;
  return 0;
}

} // namespace mw
