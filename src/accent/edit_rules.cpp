#include "accent/edit.h"

#include "accent/rules.h"
#include "base/text.h"
#include "ipa/inventory.h"

#include <algorithm>
#include <array>
#include <variant>

// Rules that stand in the vowels: what the values of the sets say about them, and which set moves when a coach switches
// one. Which sets a rule speaks of: Wells 1982. The vowels taken where the start accent offers none are common practice.

namespace mw {
namespace {
using Set = LexicalSet;

/// Two sets with one vowel or two. Apart, `moved` has its vowel of the start accent, else that of `like`, else `ipa`.
struct Pair {
  Set moved, with;
  bool yes_is_one;
  std::optional<Set> like;
  std::string_view ipa;
  bool follows = false; // yes means the vowel of `like` itself, wherever that is: a third vowel is neither yes nor no
};
/// Sets that do not glide when the answer is yes; `glides` when the start accent has none either.
struct Level {
  std::array<Set, 2> sets;
  std::array<std::string_view, 2> glides;
};
/// Where the tongue is front to back: central or front when yes.
struct Fronted {
  Set set;
  bool front_counts; // a front vowel is a yes too
  std::string_view yes, no;
};
/// A row of the set for some surroundings when yes. `as`: it has the vowel of that set.
struct Special {
  Set set;
  std::array<std::string_view, 3> contexts; // the first is written; any of them is a yes
  std::string_view ipa;
  std::optional<Set> as;
};
struct Row {
  std::string_view rule;
  std::variant<Pair, Level, Fronted, Special> how;
};

const std::array rows{
    Row{"FOOT_STRUT_split", Pair{Set::STRUT, Set::FOOT, false, {}, "\u028C"}},
    Row{"TRAP_BATH_split", Pair{Set::BATH, Set::TRAP, false, Set::PALM, "\u0251\u02D0"}},
    Row{"LOT_CLOTH_split", Pair{Set::CLOTH, Set::LOT, false, Set::THOUGHT, "\u0254\u02D0", true}},
    Row{"COT_CAUGHT_merger", Pair{Set::THOUGHT, Set::LOT, true, {}, "\u0254\u02D0"}},
    Row{"FATHER_BOTHER_merger", Pair{Set::LOT, Set::PALM, true, {}, "\u0252"}},
    Row{"NORTH_FORCE_merger", Pair{Set::FORCE, Set::NORTH, true, {}, "o\u02D0"}},
    Row{"PAW_PORE_merger", Pair{Set::FORCE, Set::THOUGHT, true, {}, "o\u02D0"}},
    Row{"CURE_FORCE_merger", Pair{Set::CURE, Set::FORCE, true, {}, "\u028A\u0259"}},
    Row{"NEAR_SQUARE_merger", Pair{Set::SQUARE, Set::NEAR, true, {}, "\u025B\u02D0"}},
    Row{"NURSE_SQUARE_merger", Pair{Set::NURSE, Set::SQUARE, true, {}, "\u025C\u02D0"}},
    Row{"FOOT_GOOSE_merger", Pair{Set::FOOT, Set::GOOSE, true, {}, "\u028A"}},
    Row{"TRAP_PALM_merger", Pair{Set::PALM, Set::TRAP, true, {}, "\u0251\u02D0"}},
    Row{"happY_tensing", Pair{Set::happY, Set::KIT, false, Set::FLEECE, "i"}},
    Row{"PRICE_monophthongisation", Level{{Set::PRICE, Set::PRICE}, {"a\u026A", "a\u026A"}}},
    Row{"FACE_GOAT_monophthongs", Level{{Set::FACE, Set::GOAT}, {"e\u026A", "o\u028A"}}},
    Row{"GOOSE_fronting", Fronted{Set::GOOSE, true, "\u0289\u02D0", "u\u02D0"}},
    Row{"KIT_centralised", Fronted{Set::KIT, false, "\u0258", "\u026A"}},
    Row{"Canadian_raising_PRICE", Special{Set::PRICE, {"before voiceless", "", ""}, "\u0259\u026A", {}}},
    Row{"Canadian_raising_MOUTH", Special{Set::MOUTH, {"before voiceless", "", ""}, "\u0259\u028A", {}}},
    Row{"GOAT_split_before_l", Special{Set::GOAT, {"before l in its syllable", "before l", ""}, "\u0252\u028A", {}}},
    Row{"short_a_split_or_tensing", Special{Set::TRAP, {"before m or n", "before nasal", "closed syllable, short-a split"}, "e\u0259", {}}},
    Row{"pin_pen_merger", Special{Set::DRESS, {"before nasal", "before m or n", ""}, "", Set::KIT}},
};

const Row* find_row(std::string_view rule) {
  const auto at = std::find_if(rows.begin(), rows.end(), [&](const Row& row) { return row.rule == rule; });
  return at == rows.end() ? nullptr : &*at;
}

std::size_t index_of(Set set) { return static_cast<std::size_t>(set); }

bool is_one(const Accent& accent, const Pair& pair) {
  return same_vowel(accent.of(pair.moved).vowel, accent.of(pair.with).vowel);
}
bool is_level(const Accent& accent, const Level& level) {
  return std::none_of(level.sets.begin(), level.sets.end(), [&](Set set) { return is_glide(accent.of(set).vowel); });
}
bool is_fronted(const Accent& accent, const Fronted& row) {
  const Letter* letter = find_letter(accent.of(row.set).vowel.letter);
  return letter != nullptr && (letter->backness == "central" || (row.front_counts && letter->backness.ends_with("front")));
}
bool names(const Special& row, const std::string& context) {
  return !context.empty() && std::find(row.contexts.begin(), row.contexts.end(), context) != row.contexts.end();
}
bool is_special(const Accent& accent, const Special& row) {
  const auto& contexts = accent.contexts[index_of(row.set)];
  return std::any_of(contexts.begin(), contexts.end(), [&](const ContextValue& value) {
    return names(row, value.context) && (!row.as || same_vowel(value.value.vowel, accent.of(*row.as).vowel));
  });
}

bool says(const Accent& accent, const Row& row) {
  struct {
    const Accent& accent;
    bool operator()(const Pair& r) const { return is_one(accent, r) == r.yes_is_one; }
    bool operator()(const Level& r) const { return is_level(accent, r); }
    bool operator()(const Fronted& r) const { return is_fronted(accent, r); }
    bool operator()(const Special& r) const { return is_special(accent, r); }
  } visitor{accent};
  return std::visit(visitor, row.how);
}

/// The rule's value that does not gainsay the vowels. Where they stand for neither answer it is "variable": a firm one would
/// be heard instead of the vowel.
std::string_view word_of(const Accent& accent, const Row& row) {
  if (const auto* pair = std::get_if<Pair>(&row.how); pair && pair->follows && !is_one(accent, *pair))
    return same_vowel(accent.of(pair->moved).vowel, accent.of(*pair->like).vowel) ? "yes" : "variable";
  return says(accent, row) ? "yes" : "no";
}

// a set value by hand: the r after it stays
void put(Accent& accent, Set set, const Sound& vowel) { accent = with_vowel(accent, set, vowel); }
void put(Accent& accent, Set set, std::string_view ipa) { put(accent, set, parse_set_value(std::string(ipa)).value().vowel); }

/// Takes back what the start accent says when that gives the wanted answer.
template <typename Asks> bool comes_back(Accent& accent, Set set, const Accent& start, Asks asks) {
  Accent old = put_back(accent, set, start);
  if (!asks(old)) return false;
  accent = std::move(old);
  return true;
}

void move(Accent& accent, const Pair& row, bool yes, const Accent& start) {
  const bool one = yes == row.yes_is_one;
  if (one) return put(accent, row.moved, accent.of(row.with).vowel);
  const auto fits = [&](const Accent& old) {
    return !is_one(old, row) && (!row.follows || same_vowel(old.of(row.moved).vowel, old.of(*row.like).vowel));
  };
  if (comes_back(accent, row.moved, start, fits)) return;
  if (row.like && !same_vowel(accent.of(*row.like).vowel, accent.of(row.with).vowel))
    return put(accent, row.moved, accent.of(*row.like).vowel);
  put(accent, row.moved, row.ipa);
  // where that is the very vowel they share: the plainest other one
  if (is_one(accent, row)) put(accent, row.moved, "\u0259");
}

void move(Accent& accent, const Level& row, bool yes, const Accent& start) {
  for (std::size_t i = 0; i < row.sets.size(); ++i) {
    const Set set = row.sets[i];
    Sound vowel = accent.of(set).vowel;
    if (is_glide(vowel) == !yes) continue;
    if (comes_back(accent, set, start, [&](const Accent& old) { return is_glide(old.of(set).vowel) == !yes; })) continue;
    if (!yes) {
      put(accent, set, row.glides[i]);
      continue;
    }
    vowel.glide_letter.clear(), vowel.glide_marks.clear();
    if (std::find(vowel.marks.begin(), vowel.marks.end(), "\u02D0") == vowel.marks.end()) vowel.marks.emplace_back("\u02D0");
    put(accent, set, vowel);
  }
}

void move(Accent& accent, const Fronted& row, bool yes, const Accent& start) {
  if (comes_back(accent, row.set, start, [&](const Accent& old) { return is_fronted(old, row) == yes; })) return;
  put(accent, row.set, yes ? row.yes : row.no);
}

void move(Accent& accent, const Special& row, bool yes, const Accent& start) {
  auto& contexts = accent.contexts[index_of(row.set)];
  if (!yes) {
    std::erase_if(contexts, [&](const ContextValue& value) { return names(row, value.context); });
    return;
  }
  // the rows of the start accent, else one of our own in front: the first that fits is taken
  const auto& old = start.contexts[index_of(row.set)];
  if (is_special(start, row)) {
    std::erase_if(contexts, [&](const ContextValue& value) { return names(row, value.context); });
    std::copy_if(old.begin(), old.end(), std::back_inserter(contexts), [&](const ContextValue& value) { return names(row, value.context); });
    if (is_special(accent, row)) return;
  }
  SetValue value = row.as ? accent.of(*row.as) : parse_set_value(std::string(row.ipa)).value();
  value.source = coach_source, value.status = coach_status, value.note.clear();
  contexts.insert(contexts.begin(), {std::string(row.contexts.front()), std::move(value)});
}

} // namespace

std::optional<bool> said_by_vowels(const Accent& accent, std::string_view rule) {
  const Row* row = find_row(rule);
  return row == nullptr ? std::nullopt : std::optional(says(accent, *row));
}

std::vector<std::string> choices_of(std::string_view rule) {
  const RuleName* name = find_rule(rule);
  if (name == nullptr) return {};
  if (find_row(rule) != nullptr && !name->acts) return {"yes", "no"}; // a vowel is where it is: never variable
  return name->acts ? split(name->values, '|') : std::vector<std::string>{};
}

Accent agreed(const Accent& before, Accent after) {
  for (const Row& row : rows) {
    const std::string_view word = word_of(after, row);
    if (word_of(before, row) == word) continue;
    if (after.rule(row.rule) != word)
      after.rules[std::string(row.rule)] = {std::string(word), std::string(coach_source), std::string(coach_status)};
  }
  return after;
}

Accent moved_to(const Accent& accent, std::string_view rule, bool yes, const Accent& start) {
  const Row* row = find_row(rule);
  if (row == nullptr || word_of(accent, *row) == (yes ? "yes" : "no")) return accent;
  Accent out = accent;
  std::visit([&](const auto& how) { move(out, how, yes, start); }, row->how);
  return agreed(accent, std::move(out));
}

} // namespace mw
