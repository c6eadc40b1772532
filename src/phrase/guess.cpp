#include "phrase/guess.h"

namespace mw {

std::string why_a_guess(const SpokenWord& word, const VoicedWord&, const Phonemes&) {
  if (word.key.size() >= longest_key) return "is too long to be one word: its sounds are guessed from its letters";
  return {};
}

} // namespace mw
