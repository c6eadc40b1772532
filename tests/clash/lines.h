#pragma once

// Phrases for the tests of this layer: IPA and words side by side, said at a steady pace (the pattern looks at no times).

#include "clash/clash.h"
#include "clash/sequence.h"

#include <doctest/doctest.h>

namespace mw::test {

struct Line {
  Pronunciation pronunciation;
  SegmentTrack track;
};

inline Syllable syllable_of(const SpelledSyllable& spelled) {
  return {.onset = spelled.onset, .nucleus = spelled.nucleus, .coda = spelled.coda, .stress = spelled.stress};
}

inline void add_segments(Line& line, const SpelledWord& spelled, int word) {
  double& t = line.track.duration_s;
  for (std::size_t s = 0; s < spelled.syllables.size(); ++s) {
    const SpelledSyllable& syllable = spelled.syllables[s];
    const auto put = [&](const Sound& sound, Slot slot) {
      const double length = slot == Slot::nucleus ? .12 : .07;
      line.track.segments.push_back({.sound = sound, .start_s = t, .end_s = t + length, .word = word,
                                     .syllable = static_cast<int>(s), .slot = slot, .stress = syllable.stress});
      t += length;
    };
    for (const Sound& sound : syllable.onset) put(sound, Slot::onset);
    put(syllable.nucleus, Slot::nucleus);
    for (const Sound& sound : syllable.coda) put(sound, Slot::coda);
  }
  if (spelled.group_end) line.track.segments.back().group_final = true;
}

/// `text`: words parted by spaces, as many as the IPA has; empty: the IPA words themselves.
inline Line said(const std::string& ipa, const std::string& text = {}) {
  const auto spelled = parse_transcription(ipa, Notation::ipa);
  REQUIRE(spelled.has_value());
  Line line;
  line.track.duration_s = lead_s;
  std::vector<std::string> words;
  for (std::size_t from = 0; from < text.size();) {
    const std::size_t to = std::min(text.find(' ', from), text.size());
    words.push_back(text.substr(from, to - from));
    from = to + 1;
  }
  for (std::size_t w = 0; w < spelled->size(); ++w) {
    Word word;
    word.text = w < words.size() ? words[w] : (*spelled)[w].text;
    for (const SpelledSyllable& s : (*spelled)[w].syllables) word.syllables.push_back(syllable_of(s));
    word.group_end = (*spelled)[w].group_end;
    line.pronunciation.words.push_back(word);
    add_segments(line, (*spelled)[w], static_cast<int>(w));
  }
  line.track.duration_s += tail_s;
  return line;
}

inline std::vector<Clash> clashes_of(const Line& line) { return find_clashes(line.pronunciation, line.track, Score{}, Motion{}); }

/// The same line with real times and planned moves.
struct Spoken {
  Line line;
  Score score;
  Motion motion;
};

inline Spoken spoken(const std::string& ipa, const std::string& text = {}, double rate = 4.5) {
  Spoken s{said(ipa, text), {}, {}};
  s.line.track = spell_out(s.line.pronunciation, {.rate = rate});
  const auto anatomy = read_anatomy("adult-male");
  REQUIRE(anatomy.has_value());
  const auto planned = plan(s.line.track, *anatomy);
  REQUIRE(planned.has_value());
  s.score = *planned;
  s.motion = bake(s.score);
  return s;
}

inline std::vector<Clash> clashes_of(const Spoken& s) {
  return find_clashes(s.line.pronunciation, s.line.track, s.score, s.motion);
}

} // namespace mw::test
