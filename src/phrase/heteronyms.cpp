#include "phrase/heteronyms.h"

#include "base/text.h"
#include "phrase/scan_text.h"

namespace mw {

std::size_t likely_reading(const std::vector<HeteronymReading>& readings, std::string_view before,
                           const Phonemes& voiced) {
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
    if (meaning == "I read it yesterday" && among(before, before_past)) return i;
  }
  for (std::size_t i = 0; i < readings.size(); ++i)
    if (readings[i].phonemes == voiced) return i;
  return 0;
}

} // namespace mw
