#include "phrase/guess.h"

#include "phrase/known.h"

namespace mw {

std::string why_a_guess(const WordTables& tables, const SpokenWord& word) {
  if (word.expanded) return {};
  if (word.key.size() >= longest_key) return "is too long to be one word: its sounds are guessed from its letters";
  if (is_known(tables.known, word.key) || tables.weak_forms.count(word.key) > 0) return {};
  return word.capital ? "looks like a name that is not in the word list: its sounds are guessed from its letters"
                      : "is not in the word list: its sounds are guessed from its letters";
}

} // namespace mw
