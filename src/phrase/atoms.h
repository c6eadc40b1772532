#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace mw {

/// What one code point of a phrase is good for.
enum class AtomKind {
  letter,     // folds to ASCII letters
  digit,      // 0 to 9
  apostrophe, // straight, curly or modifier
  space,
  pause, // comma, full stop, brackets, dash, line end ...
  hyphen,
  sign,   // & % + = @ # and so on: said, or given meaning by what stands beside it
  silent, // combining marks, joiners, soft hyphen, quotation marks: no sound and no note
  unsayable
};
struct Atom {
  AtomKind kind;
  char32_t point;
  std::string fold{}; // ASCII: letters keep their case ("\u00e9" -> "e", "\u00c6" -> "AE"); digits, apostrophe, hyphen
};
std::vector<Atom> to_atoms(std::u32string_view text);

} // namespace mw
