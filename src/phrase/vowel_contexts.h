#pragma once

#include "accent/contexts.h"
#include "phrase/chain.h"

namespace mw {

/// What a context may look at: the vowel, its neighbours in the word, and the spelling.
struct Place_of_vowel {
  const Chain& chain;
  std::size_t at, before, after, second; // `second` is the sound after `after`
  [[nodiscard]] std::string_view sound_after() const { return chain.consonant(after); }
  [[nodiscard]] std::string_view sound_before() const { return chain.consonant(before); }
  [[nodiscard]] bool vowel_after() const { return after != Chain::none && chain.links[after].is_vowel(); }
  [[nodiscard]] bool r_after() const { return sound_after() == "\u0279" || has_r(*chain.links[at].phoneme.set); }
  [[nodiscard]] bool closes_syllable(std::size_t i) const;
};

Place_of_vowel look_round(const Chain& chain, std::size_t i);
/// Whether a vowel stands in the surroundings of a context.
bool is_true(Context context, const Place_of_vowel& place);
/// Whether the vowel ends its word or the stem before an ending that the spelling shows: tied, paws, he'd.
bool ends_stem(const Place_of_vowel& place);

} // namespace mw
