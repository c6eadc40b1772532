#include "evidence/said.h"

#include "base/assets.h"
#include "base/text.h"
#include "take/posture.h"

namespace mw {
namespace {
constexpr std::array<double, 3> syllables_a_second{3.5, 4.8, 6.6}; // tract-model.md section 14
constexpr std::array<const char*, 2> accents{"GA", "SSBE"};

Result<SpeechPhrase> say(const std::string& text, bool hard, const Accent& accent, Pronouncer& pronouncer) {
  const auto said = pronounce(text, accent, pronouncer);
  if (!said) return said.error();
  SpeechPhrase phrase{accent.id, text, hard, {}, to_shift(accent.posture)};
  for (std::size_t i = 0; i < syllables_a_second.size(); ++i)
    phrase.tracks[i] = spell_out(*said, {.rate = syllables_a_second[i]});
  return phrase;
}
} // namespace

Result<std::vector<SpeechPhrase>> say_phrases(Pronouncer& pronouncer, int every) {
  const auto text = read_asset("evidence/phrases.txt");
  if (!text) return text.error();
  std::vector<SpeechPhrase> phrases;
  for (const char* id : accents) {
    const auto accent = read_accent(id);
    if (!accent) return accent.error();
    int number = 0;
    for (const auto& raw : split(*text, '\n')) {
      const std::string line(trim(raw));
      if (line.empty() || line.front() == '#' || number++ % every != 0) continue;
      const bool hard = line.front() == '!';
      auto phrase = say(hard ? line.substr(1) : line, hard, *accent, pronouncer);
      if (!phrase) return phrase.error();
      phrases.push_back(std::move(*phrase));
    }
  }
  return phrases;
}

} // namespace mw
