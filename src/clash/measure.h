#pragma once

#include "clash/difficulty_data.h"
#include "clash/sequence.h"

#include <array>
#include <span>
#include <string_view>
#include <vector>

namespace mw {

enum class Bar { slips, slowing, late_start, drift };
inline constexpr int bar_count = 4;

/// What makes a phrase hard, each counted for one bar (the sources measured different things and disagree in sign, so no
/// factor ever votes on two).
enum class Factor {
  competition,  // like slots of nearby syllables hold different, similar sounds
  order,        // items of a lane come back after unequal gaps, or lanes follow different patterns
  grouping,     // pauses do not fit the alternation
  reuse,        // one articulator makes many constrictions
  shared_start, // neighbouring words begin alike and go on differently
  shared_end,   // neighbouring words end alike (a help: negative)
  unit,         // length of the unit that repeats
  like_words,   // neighbouring words are alike, so the next one is slow to be readied
  closed,       // syllables that end in consonants
  tip_first,    // tip start before a lip start
  rare_start    // starts with a cluster that the language hardly uses
};
inline constexpr int factor_count = 11;
struct FactorRow {
  Factor factor;
  std::string_view name;
  Bar bar;
};
std::span<const FactorRow> factors();

/// One pull between two like slots, first syllable earlier (or later by a wrap in a loop).
struct Competition {
  std::size_t from = 0, to = 0; // syllables
  Slot slot = Slot::onset;
  double similarity = 0;
  int shared = 0;   // further slots that both fill alike
  double value = 0; // similarity x weights / distance
};

/// The raw figures of a phrase, before they are set against the reference list.
struct Measure {
  std::array<double, factor_count> factor{};
  std::vector<Competition> competitions;
  std::vector<double> load; // per segment: its share of competition and reuse
  [[nodiscard]] double of(Factor f) const { return factor[static_cast<std::size_t>(f)]; }
  /// Sum of the bar's factors (slowing: plus the bare syllable), 0 or more. An empty phrase has 0 in every bar.
  [[nodiscard]] double bar(Bar bar) const;
  double base_s = 0; // slowing of a syllable with nothing in its way
};

/// Pure in sequence and weights; cost grows with the number of syllables.
Measure measure(const Sequence& sequence, const DifficultyData& data);

/// All pulls between like slots.
std::vector<Competition> find_competitions(const Sequence& sequence, const DifficultyData& data);

/// One making of a constriction: neighbouring sounds of one articulator without a vowel between are one return.
struct Return {
  Articulator articulator = Articulator::tip;
  std::vector<std::size_t> segments;
  double gap = 0; // syllables since the articulator's last return; 0 for the first
};
std::vector<Return> find_returns(const Sequence& sequence);

/// Smallest number of syllables after which the whole phrase comes round; the syllable count when it does not.
std::size_t repeat_period(const Sequence& sequence);

} // namespace mw
