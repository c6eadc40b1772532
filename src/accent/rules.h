#pragma once

#include <span>
#include <string_view>

namespace mw {

/// One rule that accents switch. `values` are parted by '|'; `from` is the casualness (0..1) from which the value
/// "variable" counts as yes: 2 means never by itself.
struct RuleName {
  std::string_view name;
  std::string_view values;
  std::string_view meaning; // one plain sentence
  double from = 0.5;
  bool acts = true; // false: told to the coach, nothing in the chain reads it (its effect stands in the set values)
};
std::span<const RuleName> rule_names();
const RuleName* find_rule(std::string_view name);
bool allows(const RuleName& rule, std::string_view value);

struct Accent;
/// Whether a yes/no/variable rule holds for an accent at a casualness; rules that are not named do not hold.
bool holds(const Accent& accent, std::string_view rule, double casual);

} // namespace mw
