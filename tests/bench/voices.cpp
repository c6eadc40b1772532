#include "bench/voices.h"

#include <algorithm>
#include <map>

#include <espeak-ng/speak_lib.h>

namespace mw::bench {

std::vector<VoicedWord> bare_look_up(const std::vector<std::string>& words) {
  std::vector<VoicedWord> answers(words.size());
  for (const bool american : {true, false}) {
    espeak_SetVoiceByName(american ? "gmw/en-US" : "gmw/en");
    for (std::size_t i = 0; i < words.size(); ++i) {
      std::string& answer = american ? answers[i].american : answers[i].british;
      const void* rest = words[i].c_str();
      while (rest != nullptr) {
        const char* clause = espeak_TextToPhonemes(&rest, espeakCHARS_UTF8, '.' << 8);
        if (clause == nullptr) break;
        answer += answer.empty() ? clause : std::string(".") + clause;
      }
    }
  }
  return answers;
}

Result<std::vector<VoicedWord>> ForgetfulPronouncer::look_up(const std::vector<std::string>& words) {
  std::vector<std::string> fresh;
  for (const auto& word : words)
    if (std::find(fresh.begin(), fresh.end(), word) == fresh.end()) fresh.push_back(word);
  const auto found = bare_look_up(fresh);
  asked.insert(asked.end(), fresh.begin(), fresh.end());
  std::map<std::string, VoicedWord> known;
  for (std::size_t i = 0; i < fresh.size(); ++i) known[fresh[i]] = found[i];
  std::vector<VoicedWord> answers;
  for (const auto& word : words) answers.push_back(known.at(word));
  return answers;
}

} // namespace mw::bench
