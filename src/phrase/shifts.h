#pragma once

#include "phrase/pronunciation.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace mw {

/// Two sounds that stand in the same place of the same phrase in two accents; indices count the sounds of the whole
/// phrase.
struct SoundPair {
  std::optional<std::size_t> a{}, b{}; // none where a side has no sound there
  bool same = false;
  std::string text{}; // how they differ, empty when they do not
};

/// Two sets (or consonants) of the phrase that one accent merges and the other keeps apart.
struct Shift {
  bool kept_apart = false;                   // a keeps apart what b merges; else a merges what b keeps apart
  std::vector<std::string> words{};          // one word for each of the two
  std::vector<std::string> a_ipa{}, b_ipa{}; // their sounds in each accent
  std::string text{};
};

struct Comparison {
  std::vector<SoundPair> pairs{};
  std::vector<Shift> shifts{}; // in order of the phrase, each pair of sets once
};

/// The same phrase in two accents, side by side. Words pair by position, sounds by place in the syllable; where a place
/// holds different numbers of sounds, by the best fit. Empty when the two are not the same phrase (other number of
/// words).
Comparison compare(const Pronunciation& a, const Pronunciation& b);

/// The letter that stands for a consonant of English in any place or accent: t for a tap or a catch, l for a dark l.
std::string_view broad_letter(std::string_view letter);

} // namespace mw
