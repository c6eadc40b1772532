#pragma once

#include "clash/clash.h"
#include "clash/pattern.h"

namespace mw {

/// Names words and places for the sentences of clashes.
struct Teller {
  const Pronunciation& pronunciation;
  const SegmentTrack& track;
  /// ‘kettles’, without what stands around it in the line; "" when the pronunciation has no such word.
  [[nodiscard]] std::string word(int index) const;
  /// "at the start of ‘kettles’", "in ‘kettles’" for a vowel, "at the end of ‘kettles’".
  [[nodiscard]] std::string place(std::size_t segment) const;
  /// Words of these columns, each once, in order: "‘tin’, ‘cakes’ and ‘cold’".
  [[nodiscard]] std::string words(const Pattern& pattern, const std::vector<std::size_t>& columns) const;
  /// All sounds of the slot that holds this segment: "tɹ".
  [[nodiscard]] std::string slot_ipa(std::size_t segment) const;
};

/// "a, b and c".
std::string listed(const std::vector<std::string>& parts);
/// two, three ... ten; digits beyond.
std::string count_word(std::size_t count);
std::string capital(std::string text); // first ASCII letter

/// Clashes that the order of the actions shows: swap, near twins, counter-move, out of step.
std::vector<Clash> pattern_clashes(const Pronunciation& pronunciation, const SegmentTrack& track, const Pattern& pattern);

} // namespace mw
