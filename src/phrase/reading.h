#pragma once

#include "base/result.h"
#include "phrase/numbers.h"

#include <string>
#include <string_view>
#include <vector>

namespace mw {

/// One word as it will be said, before anyone looks up how.
struct SpokenWord {
  std::string text;         // as typed, or as expanded from a number or a sign
  std::string key;          // lower-case ASCII letters and apostrophes only, never empty, at most longest_key long
  Span span;                // code points of the phrase
  bool letter_name = false; // the name of the letter `key`
  bool expanded = false;    // not typed as letters: from a number, a sign or an abbreviation
  bool group_end = false;   // a pause follows
  bool capital = false;     // typed with a capital, not at the start of a sentence
};
inline constexpr std::size_t longest_key = 40;       // longer runs of letters are said in pieces
inline constexpr std::size_t longest_phrase = 10000; // code points

struct Reading {
  std::vector<SpokenWord> words;
  std::vector<Note> notes; // kind "unsaid": signs that nobody can say, with their span
};

/// Text to the words a person would say. Problem (input): invalid UTF-8, more than longest_phrase code points, or
/// nothing that can be said.
Result<Reading> read_phrase(std::string_view phrase, Norm norm);

} // namespace mw
