#pragma once

#include "anatomy/pose.h"
#include "ipa/sound.h"

#include <cstdint>
#include <optional>
#include <string>

namespace mw {

enum class Manner { stop, nasal, fricative, affricate, approximant, lateral, tap, trill, vowel };

/// A place on the vowel chart: height 0 open .. 1 close, back 0 front .. 1 back, round 0 spread .. 1 rounded.
struct ChartPlace {
  double height = 0, back = 0, round = 0;
  bool operator==(const ChartPlace&) const = default;
};

/// What the difficulty measure knows of one sound. All of it follows from the letter's row in the inventory.
struct SoundFacts {
  std::string ipa; // as shown
  std::string key; // the sound without allophonic detail: equal keys = the same sound for a pattern
  bool vowel = false;
  Articulator articulator = Articulator::body; // makes the constriction; body for vowels
  std::optional<Articulator> also{};           // second constriction (w: the back besides the lips)
  Manner manner = Manner::vowel;
  std::string place; // IPA place, empty for vowels
  bool voiced = true, sibilant = false;
  ChartPlace from, to; // vowels; equal unless a glide
  std::uint64_t features = 0; // bit 2k: feature k is plus, bit 2k+1: minus; see features.cpp
  bool operator==(const SoundFacts&) const = default;
};

/// Facts of any sound of the inventory. A letter without a row counts as a glottal approximant: it resembles nothing.
SoundFacts facts_of(const Sound& sound);

/// The bare movement of a consonant, voice left out: "tip alveolar stop". Vowels: their key.
std::string action_of(const SoundFacts& facts);

/// What the move does, in the words of the key of the pattern: shut, hiss, nasal, round the sides, open, shut then hiss,
/// tap, trill; vowel for vowels.
std::string_view manner_word(Manner manner);

} // namespace mw
