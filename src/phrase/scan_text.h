#pragma once

#include <algorithm>
#include <iterator>
#include <string>
#include <string_view>

namespace mw {

// Small questions that the parts of the scanner share; letters are ASCII, which is all that atoms fold to.

template <std::size_t N> bool among(std::string_view word, const std::string_view (&list)[N]) {
  return std::find(std::begin(list), std::end(list), word) != std::end(list);
}
inline bool is_upper(std::string_view fold) { return !fold.empty() && fold.front() >= 'A' && fold.front() <= 'Z'; }
inline std::string lower(std::string text) {
  for (char& c : text)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return text;
}

} // namespace mw
