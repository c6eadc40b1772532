#pragma once

#include "base/result.h"
#include "phrase/pronunciation.h"

#include <vector>

namespace mw {

enum class Slot { onset, nucleus, coda };
std::string_view to_text(Slot slot);

/// One sound with its time and its place in the word.
struct Segment {
  Sound sound;
  double start_s = 0, end_s = 0;
  int word = 0;
  int syllable = 0; // within the word
  Slot slot = Slot::nucleus;
  int stress = 0;   // of its syllable
  bool word_initial = false, word_final = false;
  bool syllabic = false;       // a consonant that is a nucleus
  bool group_final = false;    // last of its rhythmic group (a pause follows)
  bool operator==(const Segment&) const = default;
};

/// Segments in order of time, without overlap; pauses are the gaps. The phrase starts at 0.28 s from a ready posture and
/// the take ends 0.40 s after the last segment (tract-model.md section 10).
struct SegmentTrack {
  std::vector<Segment> segments;
  double duration_s = 0; // of the whole take; 0.68 for an empty phrase
  bool operator==(const SegmentTrack&) const = default;
};
inline constexpr double lead_s = 0.28, tail_s = 0.40;

struct TimingSettings {
  double rate = 4.5;  // syllables a second of the phrase without its pauses, 1..9
  bool loop = false;  // the phrase is said again and again: its end is not lengthened, its first sound follows its last
};

/// Gives every sound its time: Klatt-type rules (Klatt 1979 as in Allen, Hunnicutt & Klatt 1987 ch. 9), then scaled
/// above the minimum durations to the rate asked for.
SegmentTrack spell_out(const Pronunciation& pronunciation, const TimingSettings& settings = {});

} // namespace mw
