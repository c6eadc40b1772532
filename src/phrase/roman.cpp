#include "phrase/roman.h"

#include <algorithm>
#include <array>
#include <string>

namespace mw {
namespace {
constexpr std::array<std::string_view, 10> ones{"", "I", "II", "III", "IV", "V", "VI", "VII", "VIII", "IX"};
constexpr std::array<std::string_view, 14> counted{"chapter", "act",  "part",    "book",   "volume", "scene", "war",
                                                   "section", "phase", "type", "level", "appendix", "class", "page"};
} // namespace

std::optional<int> read_roman(std::string_view capitals) {
  const std::size_t tens = std::min(capitals.find_first_not_of('X'), capitals.size());
  if (capitals.empty() || tens > 3) return std::nullopt;
  const auto at = std::find(ones.begin(), ones.end(), capitals.substr(tens));
  if (at == ones.end()) return std::nullopt;
  return static_cast<int>(tens) * 10 + static_cast<int>(at - ones.begin());
}

bool counts_parts(std::string_view word) { return std::find(counted.begin(), counted.end(), word) != counted.end(); }

} // namespace mw
