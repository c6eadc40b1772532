#pragma once

#include <string>
#include <string_view>

namespace mw {

inline constexpr char32_t tie_above = 0x361, tie_below = 0x35C;

/// Other spellings of a sign in use (typewriter g, ligatures, look-alikes of other scripts, marks above a descender,
/// spacing forms of marks) as our own signs in NFD; empty when the sign has none. Ligatures give letter, tie, letter.
std::u32string_view other_spelling(char32_t sign);

/// NFD text with every sign in our own spelling, for looking up one letter or mark. Invalid UTF-8 comes back as it is.
std::string fold_spelling(std::string_view text);
std::string without_ties(std::string text);

/// "U+032A"
std::string code_point_name(char32_t sign);

} // namespace mw
