#include "evidence/speech.h"

#include "base/assets.h"
#include "base/text.h"
#include "ipa/parse.h"

namespace mw {
namespace {
Problem broken(const std::string& what) {
  return {ProblemKind::missing, what, "evidence/speech-segments.txt", "install the program again"};
}

/// "t:79:61:48:sio": symbol, milliseconds at the three rates, flags. "ɹ_bunched" names the kind of r no sign shows.
Result<Done> add_segment(SpeechPhrase& phrase, const std::string& item, std::array<double, 3>& clock) {
  const auto parts = split(item, ':');
  if (parts.size() != 5) return broken("a segment needs five fields: " + item);
  const auto symbol = split(parts[0], '_');
  auto sound = parse_sound(symbol[0], Notation::ipa);
  if (!sound) return broken("this is no sound: " + item);
  if (symbol.size() > 1) sound->kind = symbol[1];
  const auto has = [&](char flag) { return parts[4].find(flag) != std::string::npos; };
  Segment s;
  s.syllabic = has('y');
  s.word_initial = has('i');
  s.slot = is_vowel(*sound) || s.syllabic ? Slot::nucleus : has('o') ? Slot::onset : Slot::coda;
  s.stress = has('s') || has('v') ? 1 : 0;
  s.sound = *sound;
  for (std::size_t r = 0; r < 3; ++r) {
    const auto ms = parse_number(parts[r + 1]);
    if (!ms) return broken("a duration is no number: " + item);
    s.start_s = clock[r];
    s.end_s = clock[r] += *ms / 1000;
    phrase.tracks[r].segments.push_back(s);
  }
  return Done{};
}

Result<SpeechPhrase> parse_phrase(const std::string& line) {
  const auto parts = split(line, '|');
  if (parts.size() != 4) return broken("a phrase needs four fields: " + line);
  SpeechPhrase phrase{parts[0], parts[2], parts[1] == "!", {}};
  std::array<double, 3> clock{lead_s, lead_s, lead_s};
  for (const auto& item : split(parts[3], ' '))
    if (const auto done = add_segment(phrase, item, clock); !done) return done.error();
  for (std::size_t r = 0; r < 3; ++r) phrase.tracks[r].duration_s = clock[r] + tail_s;
  return phrase;
}
} // namespace

Result<std::vector<SpeechPhrase>> read_speech_phrases() {
  const auto text = read_asset("evidence/speech-segments.txt");
  if (!text) return text.error();
  std::vector<SpeechPhrase> out;
  for (const auto& line : split(*text, '\n')) {
    if (line.empty() || line[0] == '#') continue;
    auto phrase = parse_phrase(line);
    if (!phrase) return phrase.error();
    out.push_back(std::move(*phrase));
  }
  return out;
}

} // namespace mw
