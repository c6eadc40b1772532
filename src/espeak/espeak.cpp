#include "espeak/espeak.h"

#include "base/expect.h"

#include <array>
#include <mutex>
#include <unordered_map>

#include <espeak-ng/speak_lib.h>

namespace mw {
namespace {

// "en" is the British voice: the name en-gb is refused by espeak_SetVoiceByName (measured, 1.51)
constexpr std::array<const char*, 2> voices{"gmw/en-US", "gmw/en"};
// phonemes as mnemonics, parted by '.': bits 8 to 23 hold the separator
constexpr int mnemonics_with_dots = '.' << 8;
// a lesson is a few thousand words; beyond this the memory starts afresh
constexpr std::size_t most_kept = 20000;

Problem missing(const std::string& what) {
  return {ProblemKind::missing, what, "espeak-ng", "install the packages libespeak-ng1 and espeak-ng-data"};
}

/// Only these signs may reach the library: other text can crash it.
bool is_safe(const std::string& word) {
  return !word.empty() && word.size() <= 64 &&
         word.find_first_not_of("abcdefghijklmnopqrstuvwxyz'") == std::string::npos;
}

std::string phonemes_of(const std::string& word) {
  std::string all;
  const void* rest = word.c_str();
  // one call gives one clause, in a buffer that the next call overwrites
  while (rest != nullptr) {
    const char* clause = espeak_TextToPhonemes(&rest, espeakCHARS_UTF8, mnemonics_with_dots);
    if (clause == nullptr) break;
    if (!all.empty()) all += '.';
    all += clause;
  }
  return all;
}

class EspeakPronouncer final : public Pronouncer {
public:
  Result<std::vector<VoicedWord>> look_up(const std::vector<std::string>& words) override;
  Result<Done> start();

private:
  std::mutex mutex_;
  bool started_ = false;
  std::unordered_map<std::string, VoicedWord> kept_;
};

Result<Done> EspeakPronouncer::start() {
  const std::lock_guard lock(mutex_);
  if (started_) return Done{};
  if (espeak_Initialize(AUDIO_OUTPUT_RETRIEVAL, 0, nullptr, espeakINITIALIZE_DONT_EXIT) < 0)
    return missing("the pronouncing library cannot be started");
  for (const char* voice : voices)
    if (espeak_SetVoiceByName(voice) != EE_OK) return missing(std::string("the voice ") + voice + " is not there");
  started_ = true;
  return Done{};
}

Result<std::vector<VoicedWord>> EspeakPronouncer::look_up(const std::vector<std::string>& words) {
  const std::lock_guard lock(mutex_);
  MW_EXPECT(started_);
  if (kept_.size() > most_kept) kept_.clear();
  // all new words in one voice, then all in the other: changing the voice costs as much as several words
  std::vector<std::pair<const std::string*, VoicedWord*>> fresh;
  for (const auto& word : words) {
    MW_EXPECT(is_safe(word));
    const auto [at, is_new] = kept_.try_emplace(word);
    if (is_new) fresh.emplace_back(&at->first, &at->second);
  }
  for (std::size_t voice = 0; voice < voices.size() && !fresh.empty(); ++voice) {
    if (espeak_SetVoiceByName(voices[voice]) != EE_OK) {
      kept_.clear();
      return missing("a voice of the pronouncing library is lost");
    }
    for (const auto& [word, answer] : fresh) (voice == 0 ? answer->american : answer->british) = phonemes_of(*word);
  }
  std::vector<VoicedWord> answers;
  answers.reserve(words.size());
  for (const auto& word : words) answers.push_back(kept_.at(word));
  return answers;
}

} // namespace

Result<std::shared_ptr<Pronouncer>> open_espeak() {
  // one for the whole process: the library hangs when it is started twice
  static const auto pronouncer = std::make_shared<EspeakPronouncer>();
  if (const auto started = pronouncer->start(); !started) return started.error();
  return std::shared_ptr<Pronouncer>(pronouncer);
}

} // namespace mw
