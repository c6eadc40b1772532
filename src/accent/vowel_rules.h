#pragma once

#include "accent/accent.h"

#include <array>
#include <optional>
#include <span>
#include <string_view>
#include <variant>
#include <vector>

namespace mw {

// Rules that stand in the vowels of an accent: which sets each speaks of, and the vowel it asks for where the file of the
// accent says otherwise. Editing (edit_rules.cpp) moves the sets by these rows, the phrase stage says them.

/// Two sets with one vowel or two. Apart, `moved` has its vowel of the start accent, else that of `like`, else `ipa`.
struct SetPair {
  LexicalSet moved, with;
  bool yes_is_one;
  std::optional<LexicalSet> like;
  std::string_view ipa;
  bool follows = false; // yes means the vowel of `like` itself, wherever that is: a third vowel is neither yes nor no
};
/// Sets that do not glide when the answer is yes; `glides` when they must and no better is known.
struct Level {
  std::vector<LexicalSet> sets;
  std::vector<std::string_view> glides;
};
/// Where the tongue is front to back: central or front when yes.
struct Fronted {
  LexicalSet set;
  bool front_counts; // a front vowel is a yes too
  std::string_view yes, no;
};
/// A vowel of the set for some surroundings when yes. `as`: it has the vowel of that set.
struct Special {
  LexicalSet set;
  std::array<std::string_view, 3> contexts; // the first is written; any of them is a yes
  std::string_view ipa;
  std::optional<LexicalSet> as{};
  std::string_view elsewhere{}; // for the other places, where the set has the vowel `ipa` itself
};
/// Several sets that move together; the first is the one by which the shift is known.
struct SetShift {
  struct Move {
    LexicalSet set;
    std::string_view yes, no;
  };
  std::vector<Move> moves;
  bool (*is_shifted)(const Accent&);
  bool (*is_its_own)(const Accent&) = nullptr; // what else tells that shifted vowels come from this shift
};
struct VowelRule {
  std::string_view rule;
  std::variant<SetPair, Level, Fronted, Special, SetShift> how;
};

std::span<const VowelRule> vowel_rules();
/// The row of a rule that stands in the vowels, or nothing.
const VowelRule* find_vowel_rule(std::string_view rule);

bool is_one(const Accent& accent, const SetPair& row);
bool is_level(const Accent& accent, const Level& row);
bool is_fronted(const Accent& accent, const Fronted& row);
/// Whether the file has a row for these surroundings.
bool is_special(const Accent& accent, const Special& row);
/// Whether a context of the file is one that the rule speaks of.
bool is_named(const Special& row, std::string_view context);

/// A vowel without its glide, long.
Sound levelled(Sound vowel);

} // namespace mw
