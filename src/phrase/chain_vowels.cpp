#include "phrase/chain.h"

#include "accent/edit.h"
#include "accent/rules.h"
#include "base/expect.h"
#include "base/text.h"
#include "phrase/chain_steps.h"
#include "phrase/ruled_vowels.h"

#include <algorithm>
#include <array>

namespace mw {
namespace {
using Set = LexicalSet;
using Place = Link::Place;

/// Where a merger holds.
enum class Where { everywhere, before_r, before_m_or_n };
/// A set that has the vowel of another where an accent's rule says so: Mary marry merry, cot caught, foot strut, pin pen.
/// `one` is the value of the rule under which the two are one vowel.
struct Merger {
  Set set;
  std::string_view rule, one;
  Set as;
  Where where = Where::everywhere;
  std::string_view apart{}; // a vowel for `set` when the rule parts two sets that have one value in the file
};
constexpr std::array mergers{
    Merger{Set::TRAP, "Mary_marry_merry_merger", "yes", Set::SQUARE, Where::before_r},
    Merger{Set::DRESS, "Mary_marry_merry_merger", "yes", Set::SQUARE, Where::before_r},
    Merger{Set::KIT, "mirror_nearer_merger", "yes", Set::NEAR, Where::before_r},
    Merger{Set::STRUT, "hurry_furry_merger", "yes", Set::NURSE, Where::before_r},
    Merger{Set::DRESS, "pin_pen_merger", "yes", Set::KIT, Where::before_m_or_n},
    Merger{Set::THOUGHT, "COT_CAUGHT_merger", "yes", Set::LOT, Where::everywhere, "\u0254\u02d0"},
    Merger{Set::CLOTH, "COT_CAUGHT_merger", "yes", Set::LOT}, // whichever of the two it goes with
    Merger{Set::LOT, "FATHER_BOTHER_merger", "yes", Set::PALM, Where::everywhere, "\u0252"},
    Merger{Set::FORCE, "NORTH_FORCE_merger", "yes", Set::NORTH, Where::everywhere, "o\u02d0"},
    Merger{Set::THOUGHT, "PAW_PORE_merger", "yes", Set::FORCE, Where::everywhere, "\u0252\u02d0"},
    Merger{Set::CURE, "CURE_FORCE_merger", "yes", Set::FORCE, Where::everywhere, "\u028a\u0259"},
    Merger{Set::SQUARE, "NEAR_SQUARE_merger", "yes", Set::NEAR, Where::everywhere, "\u025b\u02d0"},
    Merger{Set::SQUARE, "NURSE_SQUARE_merger", "yes", Set::NURSE, Where::everywhere, "\u025b\u02d0"},
    Merger{Set::FOOT, "FOOT_GOOSE_merger", "yes", Set::GOOSE, Where::everywhere, "\u028a"},
    Merger{Set::PALM, "TRAP_PALM_merger", "yes", Set::TRAP, Where::everywhere, "\u0251\u02d0"},
    Merger{Set::STRUT, "FOOT_STRUT_split", "no", Set::FOOT, Where::everywhere, "\u028c"},
    Merger{Set::BATH, "TRAP_BATH_split", "no", Set::TRAP, Where::everywhere, "\u0251\u02d0"},
    Merger{Set::CLOTH, "LOT_CLOTH_split", "no", Set::LOT},
    Merger{Set::CLOTH, "LOT_CLOTH_split", "yes", Set::THOUGHT},
    Merger{Set::happY, "happY_tensing", "no", Set::KIT, Where::everywhere, "i"},
};

bool is_there(Where where, const Place_of_vowel& place) {
  const auto after = place.sound_after();
  return where == Where::everywhere || (where == Where::before_r ? after == "\u0279" : after == "m" || after == "n");
}

bool have_one_value(const Accent& accent, Set one, Set two) {
  return accent.of(one).vowel == accent.of(two).vowel && accent.of(one).r_follows == accent.of(two).r_follows;
}

/// CLOTH has two vowels to go to: where a coach gave it a third, only a firm answer about CLOTH itself moves it.
bool is_settled(const Chain& chain, const Merger& row) {
  if (row.set != Set::CLOTH || (row.rule == "LOT_CLOTH_split" && !chain.varies(row.rule))) return false;
  const auto is_as = [&](Set other) { return same_vowel(chain.accent.of(Set::CLOTH).vowel, chain.accent.of(other).vowel); };
  return !is_as(Set::LOT) && !is_as(Set::THOUGHT);
}

bool are_one(const Chain& chain, const Merger& row) {
  const Answer one = row.one == "yes" ? Answer::yes : Answer::no;
  return answer_of(chain.accent, row.rule, chain.casual) == one && !is_settled(chain, row);
}

/// The merger that a vowel takes part in, or none. Where the file's own values agree with the rule there is nothing to do.
const Merger* merger_of(const Chain& chain, const Place_of_vowel& place) {
  const Set set = *chain.links[place.at].phoneme.set;
  for (const auto& row : mergers)
    if (row.set == set && is_there(row.where, place) && are_one(chain, row) && !have_one_value(chain.accent, set, row.as)) return &row;
  return nullptr;
}

/// The vowel of a set that a rule parts from one with the same value in the file, or none.
const Merger* split_of(const Chain& chain, Set set) {
  for (const auto& row : mergers) {
    const bool parted = answer_of(chain.accent, row.rule, chain.casual) == (row.one == "yes" ? Answer::no : Answer::yes);
    if (row.set == set && parted && !row.apart.empty() && have_one_value(chain.accent, set, row.as)) return &row;
  }
  return nullptr;
}

bool is_r_coloured(const Sound& vowel) { return vowel.letter == "\u025d" || vowel.letter == "\u025a"; }

/// The vowel without its r-colour, for a rhotic value in an accent that is switched to say no r.
void drop_colour(Sound& vowel) {
  if (vowel.letter == "\u025d") vowel.letter = "\u025c", vowel.marks.emplace_back("\u02d0");
  if (vowel.letter == "\u025a") vowel.letter = "\u0259";
}

/// Whether a coda r is said after the vowel: as its value says, unless the accent's rule is firm.
bool says_r(const Chain& chain, Set set, const SetValue& value) {
  if (!has_r(set)) return value.r_follows;
  switch (answer_of(chain.accent, "rhotic", chain.casual)) {
  case Answer::no:
    return false;
  case Answer::yes:
    return !is_r_coloured(value.vowel);
  case Answer::as_written:
    break;
  }
  return value.r_follows;
}

/// Why a vowel is not the plain value of its set.
struct Reason {
  const Merger *merger = nullptr, *split = nullptr;
  std::string_view context{}, rule{};
};

void tell_vowel(Chain& chain, std::size_t i, const Reason& why) {
  const Set own = *chain.links[i].phoneme.set;
  const std::string keyword(to_keyword(own)), said = to_ipa(chain.links[i].sound),
                                              plain = to_ipa(chain.accent.of(own).vowel);
  const auto tell = [&](std::string name, std::string text, std::string_view rule) {
    chain.applied.push_back({std::move(name), i, plain, said, with_reason(chain, std::move(text), rule)});
  };
  if (why.split != nullptr)
    tell("vowel_split", keyword + " is kept apart from " + std::string(to_keyword(why.split->as)) + " in this accent", why.split->rule);
  else if (why.merger != nullptr) {
    const std::string where = why.merger->where == Where::before_r ? " before r" : why.merger->where == Where::before_m_or_n ? " before m and n" : "";
    tell("vowel_merger", keyword + where + " has the vowel of " + std::string(to_keyword(why.merger->as)) + " in this accent", why.merger->rule);
  } else if (!why.rule.empty()) {
    const std::string here = why.context.empty() ? "" : " (" + std::string(why.context) + ")";
    tell(to_lower(why.rule), keyword + " is " + said + " here" + here + ": " + std::string(find_rule(why.rule)->meaning), why.rule);
  } else if (!why.context.empty())
    tell("vowel_in_context", keyword + " is " + said + " here (" + std::string(why.context) + ")", "");
}

/// An r after the vowel that varies with how careful the speech is, where it is not as the value of the set has it.
void tell_no_r(Chain& chain, std::size_t i) {
  chain.applied.push_back({"rhotic", i, "\u0279", "", with_reason(chain, "the r of the spelling is not said", "rhotic")});
}

/// The r after a vowel: one that begins the next syllable is there already, an r-coloured vowel has taken it in.
void add_r(Chain& chain, std::size_t i, const Place_of_vowel& place, Set set, const SetValue& value) {
  const Set own = *chain.links[i].phoneme.set;
  const bool r_follows = place.sound_after() == "\u0279";
  if (r_follows && is_r_coloured(chain.links[i].sound)) {
    chain.links[place.after].gone = true;
    return;
  }
  // a merger lends its vowel, not its r (paw as pore)
  if (r_follows || !(has_r(own) || !has_r(set))) return;
  const bool written = value.r_follows || is_r_coloured(value.vowel), said = says_r(chain, set, value);
  if (!said && written && !is_r_coloured(chain.links[i].sound) && chain.varies("rhotic")) return tell_no_r(chain, i);
  const char* name = !written && has_r(set) && chain.varies("rhotic") ? "rhotic" : "";
  if (said) chain.insert_after(i, "\u0279", sound_of_r(chain.accent, Place::coda), name, "the r of the spelling is said", "rhotic");
}

void sound_vowel(Chain& chain, std::size_t i) {
  const Place_of_vowel place = look_round(chain, i);
  const Merger* merger = merger_of(chain, place);
  const Set own = *chain.links[i].phoneme.set, set = merger != nullptr ? merger->as : own;
  Reason why{merger, merger == nullptr ? split_of(chain, own) : nullptr};
  VowelChoice choice = choose_vowel(set, place);
  SetValue& value = choice.value;
  why.context = choice.context, why.rule = choice.rule;
  if (why.split != nullptr) // the file has no second value: the plainest one there is
    if (auto apart = parse_set_value(std::string(why.split->apart))) value.vowel = apart->vowel;
  const Answer rhotic = answer_of(chain.accent, "rhotic", chain.casual);
  Sound vowel = value.vowel;
  if (has_r(set) && rhotic == Answer::no) drop_colour(vowel);
  if (set == Set::commA && place.sound_after() == "\u0279" && is_r_coloured(chain.accent.of(Set::lettER).vowel) &&
      rhotic != Answer::no)
    vowel = chain.accent.of(Set::lettER).vowel, why.context = "coloured by the r after it";
  chain.links[i].sound = vowel;
  if (const Sound& plain = chain.accent.of(own).vowel; !(vowel == plain)) tell_vowel(chain, i, why);
  add_r(chain, i, place, set, value);
}

/// Weak vowel merger: unstressed KIT like commA, but for the places where English keeps it (before velars and
/// palato-alveolars: magic, spinach, -ing). Wells 1982:167.
void merge_weak(Chain& chain, std::size_t i) {
  Link& link = chain.links[i];
  if (link.stress != 0 || link.phoneme.set != Set::KIT || chain.words[link.word].function_word) return;
  constexpr std::array<std::string_view, 3> velars{"k", "\u0261", "\u014b"}, palatoalveolars{"\u0283", "t\u0283", "d\u0292"};
  const auto place = look_round(chain, i);
  if (among(place.sound_after(), velars) || among(place.sound_after(), palatoalveolars) || place.before == Chain::none)
    return;
  chain.change(i, chain.accent.of(Set::commA).vowel, "weak_vowel_merger",
               "the weak vowel is the one at the end of comma", "weak_vowel_merger");
}

} // namespace

void sound_vowels(Chain& chain) {
  for (std::size_t i = 0; i < chain.links.size(); ++i)
    if (!chain.links[i].gone && !chain.links[i].fixed && chain.links[i].is_vowel()) sound_vowel(chain, i);
  if (!chain.holds("weak_vowel_merger")) return;
  for (std::size_t i = 0; i < chain.links.size(); ++i)
    if (!chain.links[i].gone && !chain.links[i].fixed && chain.links[i].is_vowel()) merge_weak(chain, i);
}

} // namespace mw
