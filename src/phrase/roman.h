#pragma once

#include <optional>
#include <string_view>

namespace mw {

/// The value of a roman numeral in capitals, 1 to 39 as kings, chapters and acts have them; none for anything else.
std::optional<int> read_roman(std::string_view capitals);

/// Whether a word before a numeral counts parts of a work or a series: "chapter", "act", "volume".
bool counts_parts(std::string_view word);

} // namespace mw
