#pragma once

#include "phrase/reading.h"
#include "phrase/words.h"

#include <span>

namespace mw {

/// What stands round a word, within its group.
struct Neighbours_of_word {
  std::string_view before, after; // "" at the ends of the group
  bool capital = false;           // inside a sentence
  bool after_name = false;        // the word before has a capital: Nell
  bool past = false;              // a word that follows speaks of the past: yesterday, ago
};
Neighbours_of_word look_round(std::span<const SpokenWord> words, std::size_t at);

/// The reading of a heteronym that its neighbours speak for, else the one that the voices say, else the first.
std::size_t likely_reading(const std::vector<HeteronymReading>& readings, const Neighbours_of_word& near,
                           const Phonemes& voiced);

} // namespace mw
