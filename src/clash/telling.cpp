#include "clash/telling.h"

#include "base/text.h"

#include <algorithm>
#include <array>

namespace mw {

std::string Teller::word(int index) const {
  const auto i = static_cast<std::size_t>(index);
  if (index < 0 || i >= pronunciation.words.size() || pronunciation.words[i].text.empty()) return {};
  return "‘" + pronunciation.words[i].text + "’";
}

std::string Teller::place(std::size_t segment) const {
  const Segment& s = track.segments[segment];
  const std::string name = word(s.word);
  if (name.empty()) return {};
  const auto of_word = [&](const Segment& other) { return other.word == s.word; };
  const auto first = std::find_if(track.segments.begin(), track.segments.end(), of_word);
  const auto last = std::find_if(track.segments.rbegin(), track.segments.rend(), of_word);
  if (s.slot == Slot::onset && s.syllable == first->syllable) return "at the start of " + name;
  if (s.slot == Slot::coda && s.syllable == last->syllable) return "at the end of " + name;
  return "in " + name;
}

std::string Teller::words(const Pattern& pattern, const std::vector<std::size_t>& columns) const {
  std::vector<std::string> names;
  int last = -1;
  for (std::size_t column : columns) {
    if (pattern.syllables[column].word == last) continue;
    last = pattern.syllables[column].word;
    if (std::string name = word(last); !name.empty()) names.push_back(std::move(name));
  }
  // More than four are a stretch of the line.
  if (names.size() > 4) return names.front() + " to " + names.back();
  return listed(names);
}

std::string Teller::slot_ipa(std::size_t segment) const {
  const Segment& s = track.segments[segment];
  std::string ipa;
  for (const Segment& other : track.segments)
    if (other.word == s.word && other.syllable == s.syllable && other.slot == s.slot) ipa += to_ipa(other.sound);
  return ipa;
}

std::string listed(const std::vector<std::string>& parts) {
  std::string text;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i > 0) text += i + 1 == parts.size() ? " and " : ", ";
    text += parts[i];
  }
  return text;
}

std::string count_word(std::size_t count) {
  static constexpr std::array<std::string_view, 11> words{"no", "one", "two", "three", "four", "five",
                                                          "six", "seven", "eight", "nine", "ten"};
  return count < words.size() ? std::string(words[count]) : to_text(static_cast<int>(count));
}

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

} // namespace mw
