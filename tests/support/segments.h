#pragma once

#include "base/text.h"
#include "ipa/parse.h"
#include "segments/track.h"

#include <cstdio>
#include <string>

namespace mw::testing {

/// A sound in IPA; "ɹ_bunched" names the kind of r that no sign shows.
inline Sound sound_of(const std::string& text) {
  const auto parts = split(text, '_');
  const auto sound = parse_sound(parts[0], Notation::ipa);
  if (!sound) std::fprintf(stderr, "no sound: %s\n", text.c_str());
  MW_EXPECT(sound.has_value());
  Sound out = *sound;
  if (parts.size() > 1) out.kind = parts[1];
  return out;
}

/// Segments "symbol:ms:flags symbol:ms:flags ..." from 0.28 s on; flags: o onset, s stressed onset, i word-initial, y
/// syllabic, v stressed vowel. "_:ms" is a pause.
inline SegmentTrack track_of(const std::string& text) {
  SegmentTrack track;
  double t = lead_s;
  for (const auto& item : split(text, ' ')) {
    const auto parts = split(item, ':');
    const double length = *parse_number(parts[1]) / 1000;
    if (parts[0] != "_") {
      const std::string flags = parts.size() > 2 ? parts[2] : "";
      const auto has = [&](char flag) { return flags.find(flag) != std::string::npos; };
      Segment s;
      s.sound = sound_of(parts[0]);
      s.start_s = t;
      s.end_s = t + length;
      s.syllabic = has('y');
      s.word_initial = has('i');
      s.slot = is_vowel(s.sound) || s.syllabic ? Slot::nucleus : has('o') ? Slot::onset : Slot::coda;
      s.stress = has('s') || has('v') ? 1 : 0;
      track.segments.push_back(s);
    }
    t += length;
  }
  track.duration_s = t + tail_s;
  return track;
}

} // namespace mw::testing
