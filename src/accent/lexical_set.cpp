#include "accent/lexical_set.h"

#include <algorithm>
#include <array>

namespace mw {
namespace {
// the order of the enumeration; spelling of Wells 1982
constexpr std::array<std::string_view, lexical_set_count> keywords{
    "KIT",    "DRESS",  "TRAP",  "LOT",     "STRUT", "FOOT",  "BATH",  "CLOTH",  "NURSE",
    "FLEECE", "FACE",   "PALM",  "THOUGHT", "GOAT",  "GOOSE", "PRICE", "CHOICE", "MOUTH",
    "NEAR",   "SQUARE", "START", "NORTH",   "FORCE", "CURE",  "happY", "lettER", "commA"};
} // namespace

std::string_view to_keyword(LexicalSet set) { return keywords[static_cast<std::size_t>(set)]; }

std::optional<LexicalSet> parse_keyword(std::string_view keyword) {
  const auto at = std::find(keywords.begin(), keywords.end(), keyword);
  if (at == keywords.end()) return std::nullopt;
  return static_cast<LexicalSet>(at - keywords.begin());
}

} // namespace mw
