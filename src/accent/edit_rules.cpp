#include "accent/edit.h"

#include "accent/rules.h"
#include "accent/vowel_rules.h"
#include "base/text.h"

#include <algorithm>
#include <variant>

// Rules that stand in the vowels: what the values of the sets say about them, and which set moves when a coach switches
// one (the rows: vowel_rules.cpp).

namespace mw {
namespace {
using Set = LexicalSet;

std::size_t index_of(Set set) { return static_cast<std::size_t>(set); }

bool says(const Accent& accent, const VowelRule& row) {
  struct {
    const Accent& accent;
    bool operator()(const SetPair& r) const { return is_one(accent, r) == r.yes_is_one; }
    bool operator()(const Level& r) const { return is_level(accent, r); }
    bool operator()(const Fronted& r) const { return is_fronted(accent, r); }
    bool operator()(const Special& r) const { return is_special(accent, r); }
    bool operator()(const SetShift& r) const { return r.is_shifted(accent); }
  } visitor{accent};
  return std::visit(visitor, row.how);
}

/// The rule's value that does not gainsay the vowels. Where they stand for neither answer it is "variable": a firm one would
/// be heard instead of the vowel.
std::string_view word_of(const Accent& accent, const VowelRule& row) {
  if (const auto* pair = std::get_if<SetPair>(&row.how); pair && pair->follows && !is_one(accent, *pair))
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

void move(Accent& accent, const SetPair& row, bool yes, const Accent& start) {
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
    const Sound& vowel = accent.of(set).vowel;
    if (is_glide(vowel) == !yes) continue;
    if (comes_back(accent, set, start, [&](const Accent& old) { return is_glide(old.of(set).vowel) == !yes; })) continue;
    if (!yes) {
      put(accent, set, row.glides[i]);
      continue;
    }
    put(accent, set, levelled(vowel));
  }
}

void move(Accent& accent, const Fronted& row, bool yes, const Accent& start) {
  if (comes_back(accent, row.set, start, [&](const Accent& old) { return is_fronted(old, row) == yes; })) return;
  put(accent, row.set, yes ? row.yes : row.no);
}

void move(Accent& accent, const Special& row, bool yes, const Accent& start) {
  auto& contexts = accent.contexts[index_of(row.set)];
  if (!yes) {
    std::erase_if(contexts, [&](const ContextValue& value) { return is_named(row, value.context); });
    if (!row.elsewhere.empty() && !is_special(start, row)) put(accent, row.set, start.of(row.set).vowel);
    return;
  }
  // the rows of the start accent, else one of our own in front: the first that fits is taken
  const auto& old = start.contexts[index_of(row.set)];
  if (is_special(start, row)) {
    std::erase_if(contexts, [&](const ContextValue& value) { return is_named(row, value.context); });
    std::copy_if(old.begin(), old.end(), std::back_inserter(contexts), [&](const ContextValue& value) { return is_named(row, value.context); });
    if (is_special(accent, row)) return;
  }
  SetValue value = row.as ? accent.of(*row.as) : parse_set_value(std::string(row.ipa)).value();
  value.source = coach_source, value.status = coach_status, value.note.clear();
  const bool split = !row.elsewhere.empty() && same_vowel(value.vowel, accent.of(row.set).vowel);
  contexts.insert(contexts.begin(), {std::string(row.contexts.front()), std::move(value)});
  if (split) put(accent, row.set, row.elsewhere);
}

void move(Accent& accent, const SetShift& row, bool yes, const Accent& start) {
  const bool comes_from_start = row.is_shifted(start) == yes;
  const bool bath_follows = same_vowel(accent.of(Set::BATH).vowel, accent.of(Set::TRAP).vowel);
  const auto shift = [&](Set set, std::string_view ipa) {
    if (comes_from_start) accent = put_back(accent, set, start);
    else put(accent, set, ipa);
  };
  for (const auto& one : row.moves) {
    shift(one.set, yes ? one.yes : one.no);
    if (one.set == Set::TRAP && bath_follows) shift(Set::BATH, yes ? one.yes : one.no);
  }
}

} // namespace

std::optional<bool> said_by_vowels(const Accent& accent, std::string_view rule) {
  const VowelRule* row = find_vowel_rule(rule);
  return row == nullptr ? std::nullopt : std::optional(says(accent, *row));
}

std::vector<std::string> choices_of(std::string_view rule) {
  const RuleName* name = find_rule(rule);
  if (name == nullptr) return {};
  return name->acts() ? split(name->values, '|') : std::vector<std::string>{};
}

Accent agreed(const Accent& before, Accent after) {
  for (const VowelRule& row : vowel_rules()) {
    const std::string_view word = word_of(after, row);
    if (word_of(before, row) == word) continue;
    if (after.rule(row.rule) != word)
      after.rules[std::string(row.rule)] = {std::string(word), std::string(coach_source), std::string(coach_status)};
  }
  return after;
}

Accent moved_to(const Accent& accent, std::string_view rule, bool yes, const Accent& start) {
  const VowelRule* row = find_vowel_rule(rule);
  if (row == nullptr || word_of(accent, *row) == (yes ? "yes" : "no")) return accent;
  Accent out = accent;
  std::visit([&](const auto& how) { move(out, how, yes, start); }, row->how);
  return agreed(accent, std::move(out));
}

} // namespace mw
