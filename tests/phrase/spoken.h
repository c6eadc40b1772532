#pragma once

#include "base/text.h"
#include "phrase/pronounce.h"
#include "support/recorded_voices.h"

#include <doctest/doctest.h>

#include <algorithm>

namespace mw::test {

inline RecordedVoices& voices() {
  static RecordedVoices all;
  return all;
}

inline Pronunciation spoken(std::string_view phrase, const Accent& accent, double casual = 0.5) {
  PronounceSettings settings;
  settings.casual = casual;
  const auto result = pronounce(phrase, accent, voices(), settings);
  INFO(phrase << (result ? std::string() : ": " + result.error().what + " " + result.error().where));
  REQUIRE(result.has_value());
  return *result;
}
inline Pronunciation spoken(std::string_view phrase, const std::string& accent, double casual = 0.5) {
  return spoken(phrase, *read_accent(accent), casual);
}

/// Words of a pronunciation in IPA, parted by spaces.
inline std::string ipa(const Pronunciation& said) {
  std::string text;
  for (const auto& word : said.words) text += (text.empty() ? "" : " ") + to_ipa(word);
  return text;
}
inline std::size_t count(const Pronunciation& said, std::string_view process) {
  return static_cast<std::size_t>(std::count_if(said.processes.begin(), said.processes.end(),
                                                [&](const Process& row) { return row.name == process; }));
}
/// All sounds of a phrase in order.
inline std::vector<Sound> sounds(const Pronunciation& said) {
  std::vector<Sound> all;
  for (const auto& word : said.words)
    for (const auto& syllable : word.syllables) {
      all.insert(all.end(), syllable.onset.begin(), syllable.onset.end());
      all.push_back(syllable.nucleus);
      all.insert(all.end(), syllable.coda.begin(), syllable.coda.end());
    }
  return all;
}
inline Accent with_rule(const std::string& id, const std::string& rule, const std::string& value) {
  Accent accent = *read_accent(id);
  accent.rules[rule].value = value;
  return accent;
}

} // namespace mw::test
