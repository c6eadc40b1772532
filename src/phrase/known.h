#pragma once

#include <string_view>

namespace mw {

/// Whether a lower-case word itself stands in a sorted list of lines.
bool is_listed(std::string_view list, std::string_view word);
/// Whether a lower-case word, a stem of it, or both parts of it as a compound stand in a sorted list of lines.
bool is_known(std::string_view list, std::string_view word);

} // namespace mw
