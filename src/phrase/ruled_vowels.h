#pragma once

#include "phrase/vowel_contexts.h"

namespace mw {

/// The vowel of a set in one place, and why it is not the plain one of the accent's file.
struct VowelChoice {
  SetValue value;
  std::string_view context{}; // the row of the file that holds here, "" for none
  std::string_view rule{};    // the rule of the accent behind it, "" for none
};

/// What the file and the rules of the accent give a set in a place: a row of the file for these surroundings (unless its rule
/// says no), else the vowel of a rule that says yes where the file has none, else the plain one.
VowelChoice choose_vowel(LexicalSet set, const Place_of_vowel& place);

/// Adds to a process why a rule that varies is heard.
std::string with_reason(const Chain& chain, std::string text, std::string_view rule);

} // namespace mw
