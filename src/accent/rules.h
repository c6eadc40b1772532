#pragma once

#include <span>
#include <string_view>

namespace mw {

/// One rule that accents switch. `values` are parted by '|'; `from` is the casualness (0..1) from which the value
/// "variable" counts as yes, or below which when the rule belongs to careful speech.
struct RuleName {
  std::string_view name;
  std::string_view values;
  std::string_view meaning; // one plain sentence
  double from = 0.5;
  bool careful = false;
  std::string_view told_only{}; // why nothing in the chain reads the rule; empty for all that act
  [[nodiscard]] bool acts() const { return told_only.empty(); }
};
std::span<const RuleName> rule_names();
const RuleName* find_rule(std::string_view name);
bool allows(const RuleName& rule, std::string_view value);

struct Accent;
/// Whether a yes/no/variable rule holds for an accent at a casualness; rules that are not named do not hold.
bool holds(const Accent& accent, std::string_view rule, double casual);

/// What a rule of the vowels asks for: a variable one has its careful form in careful speech, its casual form in casual
/// speech, and between them whatever the values of the accent say. Rules that are not named ask for nothing.
inline constexpr double careful_below = 0.3; // as casual as a variable vowel still has its careful form: ours
enum class Answer { no, yes, as_written };
Answer answer_of(const Accent& accent, std::string_view rule, double casual);

} // namespace mw
