#pragma once

#include "clash/features.h"
#include "ipa/parse.h"
#include "segments/track.h"

#include <array>
#include <vector>

namespace mw {

struct SequenceSound {
  SoundFacts facts;
  std::size_t segment = 0; // index in the track
};

inline constexpr std::array<Slot, 3> all_slots{Slot::onset, Slot::nucleus, Slot::coda};

/// One syllable as its three slots, filled with what the difficulty measure knows of each sound.
struct SequenceSyllable {
  std::vector<SequenceSound> onset, nucleus, coda;
  int word = 0;
  int syllable = 0; // within the word
  int stress = 0;
  bool group_final = false; // a pause follows
  double start_s = 0, end_s = 0;
  std::array<std::string, 3> keys{}; // of the three slots, in the order of all_slots; see key_of
  [[nodiscard]] const std::vector<SequenceSound>& at(Slot slot) const;
  [[nodiscard]] const std::string& key(Slot slot) const { return keys[static_cast<std::size_t>(slot)]; }
};

/// A phrase as the order of its syllables: all that the pattern and the bars are computed from. Times are carried along
/// and never decide anything, so a phrase keeps its bars at every rate.
struct Sequence {
  std::vector<SequenceSyllable> syllables;
  bool loop = false;
  std::size_t segment_count = 0;
};

Sequence sequence_of(const SegmentTrack& track, bool loop);

/// A syllable without stress, or on schwa or a syllabic consonant whatever its mark: a transcription stresses every word
/// of one syllable ("ðə"), running English never does.
bool is_weak(const SequenceSyllable& syllable);
/// The same for the syllable of one segment.
bool in_weak_syllable(const SegmentTrack& track, std::size_t segment);

/// For transcriptions without times (the reference list). Segments are numbered in order.
Sequence sequence_of(const std::vector<SpelledWord>& words, bool loop);

/// Keys of a slot joined by a space; empty for an empty slot.
std::string key_of(const std::vector<SequenceSound>& slot);
/// Actions of a slot joined by a comma: voice left out, so k and g are one action.
std::string action_of(const std::vector<SequenceSound>& slot);
/// Mean likeness over member pairs; 0 when a side is empty.
double similarity(const std::vector<SequenceSound>& a, const std::vector<SequenceSound>& b);

} // namespace mw
