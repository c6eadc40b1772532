#pragma once

#include "clash/sequence.h"

#include <optional>

namespace mw {

struct Competition; // measure.h

/// One sound in a lane: what a card of the pattern shows.
struct PatternCard {
  std::size_t segment = 0;
  std::string ipa;
  Articulator articulator = Articulator::tip;
  std::optional<Articulator> also{}; // second articulator (w)
  Manner manner = Manner::stop;      // shape at the card's foot; vowel for vowels
  bool operator==(const PatternCard&) const = default;
};

/// What a vowel does from its start to its end, in parts of the vowel chart: up towards close, forward towards the
/// teeth, round towards rounded lips. All 0 for a steady vowel.
struct GlideMove {
  double up = 0, forward = 0, round = 0;
  [[nodiscard]] bool moves() const { return up != 0 || forward != 0 || round != 0; }
  bool operator==(const GlideMove&) const = default;
};

/// One column of the pattern.
struct PatternSyllable {
  int word = 0, syllable = 0, stress = 0;
  double start_s = 0, end_s = 0;
  std::vector<PatternCard> onset, nucleus, coda;
  GlideMove glide;
  double lips_from = 0, lips_to = 0; // of the vowel, -1 spread .. 1 rounded
  [[nodiscard]] const std::vector<PatternCard>& at(Slot slot) const;
  bool operator==(const PatternSyllable&) const = default;
};

enum class LinkKind { repeat, swap, near_twins, counter_move };
std::string_view to_text(LinkKind kind);

/// Something that joins syllables of one lane (swap over a start and an end: the lane of the first sound).
struct PatternLink {
  LinkKind kind = LinkKind::repeat;
  Slot slot = Slot::onset;
  std::vector<std::size_t> syllables{}; // columns, in order
  std::vector<std::size_t> segments{};  // the sounds joined, in order of the columns
  double strength = 0;                // comparable within a kind; see find_pattern
  int level = 1;                      // 1 mild, 2 clear, 3 strong
  std::string text{};                 // "k, g: only the voice"
  bool operator==(const PatternLink&) const = default;
};

/// How one lane comes round: `items[i]` belongs to the syllable `syllables[i]`; from that place on they repeat after
/// `period` syllables. period 1 = always the same, 0 = nothing comes round.
struct PatternLane {
  Slot slot = Slot::onset;
  std::vector<std::string> items{};    // sounds as shown, one for each syllable of the stretch
  std::vector<std::size_t> syllables{}; // columns of the stretch, in order
  std::vector<std::size_t> segments{};  // first sound of each filled place
  std::size_t period = 0;
  bool operator==(const PatternLane&) const = default;
};

/// Lanes that come round after different numbers of syllables at the same time.
struct OutOfStep {
  PatternLane quick, slow; // quick.period < slow.period
  int level = 1;
  std::string text; // "3 against 2"
  bool operator==(const OutOfStep&) const = default;
};

/// The pattern of the physical actions of a phrase.
struct Pattern {
  std::vector<PatternSyllable> syllables;
  std::vector<PatternLink> links;     // strongest first within a kind
  std::vector<PatternLane> lanes;     // one for each slot, the longest stretch that comes round
  std::vector<OutOfStep> out_of_step; // strongest first
  bool operator==(const Pattern&) const = default;
};

/// Pure; in a loop the last syllables are followed by the first ones. Total: an empty track has an empty pattern.
Pattern find_pattern(const SegmentTrack& track, bool loop = false);
Pattern find_pattern(const Sequence& sequence);
/// The same where the pulls of the sequence (measure.h) are known already.
Pattern find_pattern(const Sequence& sequence, const std::vector<Competition>& competitions);

/// The pattern in plain text, a line for each lane and each finding; empty for an empty pattern.
std::string to_text(const Pattern& pattern);

} // namespace mw
