#pragma once

#include "base/assets.h"
#include "phrase/pronounce.h"

#include <cstdlib>
#include <map>
#include <string>
#include <vector>

namespace mw {

/// A Pronouncer without the library: answers recorded from espeak-ng 1.51 in tests/data/phrase/voices.csv. Keeps what
/// it was asked; a word that was not recorded is a Problem that names it.
class RecordedVoices final : public Pronouncer {
public:
  RecordedVoices() {
    const char* folder = std::getenv("MOUTHWRIGHT_TEST_DATA");
    const auto text = read_file(std::string(folder == nullptr ? "tests/data" : folder) + "/phrase/voices.csv");
    const auto table = text.and_then([](const std::string& bytes) { return parse_csv(bytes, "voices.csv"); });
    if (table)
      for (const auto& row : table->rows) voices_[row[0]] = {row[1], row[2]};
  }
  Result<std::vector<VoicedWord>> look_up(const std::vector<std::string>& words) override {
    std::vector<VoicedWord> answers;
    for (const auto& word : words) {
      asked.push_back(word);
      const auto at = voices_.find(word);
      if (at == voices_.end()) return Problem{ProblemKind::missing, "the word was not recorded", word, "record it"};
      answers.push_back(at->second);
    }
    return answers;
  }
  std::vector<std::string> asked;

private:
  std::map<std::string, VoicedWord> voices_;
};

/// Answers every word with the same two sounds; for tests of what is asked.
class OneSyllable final : public Pronouncer {
public:
  Result<std::vector<VoicedWord>> look_up(const std::vector<std::string>& words) override {
    asked.insert(asked.end(), words.begin(), words.end());
    return std::vector<VoicedWord>(words.size(), VoicedWord{"d.'V.m", "d.'V.m"});
  }
  std::vector<std::string> asked;
};

} // namespace mw
