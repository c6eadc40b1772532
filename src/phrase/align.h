#pragma once

#include "phrase/pronunciation.h"

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace mw {

/// A sound of a phrase with its place, and what it stands for in the language, whatever the accent makes of it.
struct PlacedSound {
  Sound sound;
  std::size_t index = 0;    // within the phrase (= segment index)
  std::size_t word = 0;
  std::size_t syllable = 0; // counted over the phrase
  int stress = 0;           // of its syllable
  bool nucleus = false, r_follows = false; // r_follows: of a nucleus, an r of its own closes its syllable
  bool linking = false;                    // put in between two words (linking r), no part of either
  std::optional<LexicalSet> set{};         // of a nucleus
  std::string stands_for{};                // consonants: the letter before all rules, without allophones
};
/// All sounds in order. What a consonant stood for before rules changed it is read from the processes.
std::vector<PlacedSound> placed_sounds(const Pronunciation& said);

/// Places that belong together: an index into each side's sounds, or none.
using AlignedPlaces = std::vector<std::pair<std::optional<std::size_t>, std::optional<std::size_t>>>;
/// The same phrase in two accents, in order: words that one side does not say ("a hundred [and] one") stand alone; sounds
/// pair by place in the syllable, and where a place holds different numbers of sounds by the best fit.
AlignedPlaces align(const Pronunciation& a, const std::vector<PlacedSound>& left, const Pronunciation& b,
                    const std::vector<PlacedSound>& right);

/// The letter that stands for a consonant of English in any place or accent: t for a tap or a catch, l for a dark l.
std::string_view broad_letter(std::string_view letter);

} // namespace mw
