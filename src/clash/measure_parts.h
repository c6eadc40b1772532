#pragma once

#include "clash/measure.h"

#include <utility>

namespace mw {

// The factors of `measure`, by what they look at (measure_order.cpp, measure_words.cpp, measure_returns.cpp).

/// How unevenly the lanes bring their sounds round; lanes that follow one pattern are one.
double order_factor(const Sequence& sequence, const DifficultyData& data);
/// Groups of syllables that do not fit the turns of the sounds, and loops of an odd length.
double grouping_factor(const Sequence& sequence, bool competes, const DifficultyData& data);

/// Onset clusters that hardly a word begins with, as a share of the syllables.
double rare_start_factor(const Sequence& sequence, const DifficultyData& data);
/// Neighbouring words that begin alike, and that end alike.
std::pair<double, double> word_cues(const Sequence& sequence, const DifficultyData& data);
/// First words so alike that the second is slow to be readied.
double like_words_factor(const Sequence& sequence, const DifficultyData& data);
/// Starts of the tip before starts of the lips; syllables that end in a consonant.
double tip_first_factor(const Sequence& sequence, const DifficultyData& data);
double closed_factor(const Sequence& sequence, const DifficultyData& data);

/// The same sounds in one slot.
inline bool same(const SequenceSyllable& a, const SequenceSyllable& b, Slot slot) { return a.key(slot) == b.key(slot); }

/// Repetitions of one syllable a second that an adult reaches with this articulator.
double ceiling(Articulator articulator, const DifficultyData& data);

} // namespace mw
