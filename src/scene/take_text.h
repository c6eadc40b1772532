#pragma once

#include "take/take.h"

#include <optional>
#include <string>
#include <vector>

namespace mw {

/// A word as the picture shows it: as typed, with its punctuation, and the time it takes.
struct ShownWord {
  std::string text;
  std::size_t first = 0, last = 0; // segments
  double start_s = 0, end_s = 0;
};
std::vector<ShownWord> shown_words(const Take& take);

struct ShownSyllable {
  std::size_t first = 0, last = 0;
  int stress = 0;
  double start_s = 0, end_s = 0;
};
std::vector<ShownSyllable> shown_syllables(const Take& take);

/// Index of the sound at `t`, the nearest one within a pause; none for an empty take.
std::optional<std::size_t> sound_at(const Take& take, double t);
/// IPA of a segment.
std::string ipa_of(const Take& take, std::size_t segment);
/// Name of a sound in the trade ("voiceless velar plosive"), and for a learner ("c as in copper"; the trade name where
/// the inventory has no other).
std::string sound_name(const Sound& sound);
std::string learner_sound_name(const Sound& sound);
/// The moment that shows a segment best: the middle of its constriction, or of its steady part.
double moment_of(const Take& take, std::size_t segment);
/// Where the front section is cut for a sound: 15 mm behind the teeth for tip sounds, 38 for others.
double section_place(const Sound& sound);
bool is_fricative(const Sound& sound);

/// One trace of a lane: up is closing or forward; scaled to 0..1 over the take, all 0.1 when the lane stands still.
std::vector<double> lane_trace(const Take& take, Articulator articulator, double from_s, double to_s, int samples);

/// The sounds a clash is between, each once, in order, at most four: what its tags and titles name.
std::vector<std::string> sounds_of(const Take& take, const Clash& clash);
/// A sentence that stands alone: its first word with a capital, unless that word is a single sound.
std::string sentence(const std::string& text);

/// Pages of a long phrase: at most `most` sounds each, ended at a pause, else a word, else a syllable.
struct Page { std::size_t first = 0, last = 0; };
std::vector<Page> pages_of(const Take& take, std::size_t most = 24);

} // namespace mw
