#include "phrase/pronunciation.h"

namespace mw {

std::string_view to_text(WordSource source) {
  switch (source) {
  case WordSource::voice:
    return "voice";
  case WordSource::override_list:
    return "override";
  case WordSource::correction:
    return "correction";
  case WordSource::choice:
    return "choice";
  case WordSource::guess:
    return "guess";
  case WordSource::typed:
    return "typed";
  }
  return "voice";
}

std::string to_ipa(const Word& word) {
  std::string text;
  for (std::size_t i = 0; i < word.syllables.size(); ++i) {
    const Syllable& syllable = word.syllables[i];
    if (syllable.stress == 1)
      text += "\u02c8";
    else if (syllable.stress == 2)
      text += "\u02cc";
    else if (i > 0)
      text += ".";
    for (const auto& sound : syllable.onset) text += to_ipa(sound);
    text += to_ipa(syllable.nucleus);
    for (const auto& sound : syllable.coda) text += to_ipa(sound);
  }
  return text;
}

} // namespace mw
