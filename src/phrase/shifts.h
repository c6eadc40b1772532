#pragma once

#include "accent/accent.h"
#include "phrase/pronunciation.h"

#include <array>
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

enum class ShiftOf { vowel, consonant, word };

/// Two sets, consonants or whole words of the phrase that one accent merges and the other keeps apart.
struct Shift {
  bool kept_apart = false;                   // a keeps apart what b merges; else a merges what b keeps apart
  std::vector<std::string> words{};          // one word for each of the two
  std::vector<std::string> a_ipa{}, b_ipa{}; // their sounds in each accent (of: word: the whole words)
  std::string text{};
  ShiftOf of = ShiftOf::vowel;
  /// Where the two stand nearest: sounds of each side, counted over the phrase (of: word: its first sound).
  std::array<std::size_t, 2> a_places{}, b_places{};
  std::array<std::size_t, 2> b_ends{}; // last sound of each of the two in b; the place itself unless of: word
  std::size_t apart = 0;               // syllables from the one to the other
  bool weak = false;                   // vowels of which one is unstressed
};

struct Comparison {
  std::vector<SoundPair> pairs{};
  std::vector<Shift> shifts{}; // in order of the phrase, each pair of sets, consonants or words once
};

/// The same phrase in two accents, side by side. Words pair by position; one that a side does not say ("a hundred [and]
/// one") has sounds on the other side only. Sounds pair by place in the syllable; where a place holds different numbers
/// of sounds, by the best fit. With the accents, two sets that share their plain value count as merged also where their
/// surroundings colour one of them (General American lamp beside bath).
Comparison compare(const Pronunciation& a, const Pronunciation& b, const Accent* accent_a = nullptr,
                   const Accent* accent_b = nullptr);

} // namespace mw
