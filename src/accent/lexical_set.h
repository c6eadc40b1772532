#pragma once

#include <optional>
#include <string_view>

namespace mw {

/// Wells's lexical sets (Wells 1982), strong then weak.
enum class LexicalSet {
  KIT,
  DRESS,
  TRAP,
  LOT,
  STRUT,
  FOOT,
  BATH,
  CLOTH,
  NURSE,
  FLEECE,
  FACE,
  PALM,
  THOUGHT,
  GOAT,
  GOOSE,
  PRICE,
  CHOICE,
  MOUTH,
  NEAR,
  SQUARE,
  START,
  NORTH,
  FORCE,
  CURE,
  happY,
  lettER,
  commA
};
inline constexpr int lexical_set_count = 27;
std::string_view to_keyword(LexicalSet set);
std::optional<LexicalSet> parse_keyword(std::string_view keyword);

} // namespace mw
