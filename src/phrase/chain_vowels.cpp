#include "phrase/chain.h"

#include "accent/contexts.h"
#include "base/expect.h"

#include <algorithm>
#include <array>

namespace mw {
namespace {
using Set = LexicalSet;
using Place = Link::Place;

template <std::size_t N> bool among(std::string_view letter, const std::array<std::string_view, N>& list) {
  return std::find(list.begin(), list.end(), letter) != list.end();
}
constexpr std::array<std::string_view, 3> nasals{"m", "n", "\u014b"}, velars{"k", "\u0261", "\u014b"};
constexpr std::array<std::string_view, 4> long_before{"v", "\u00f0", "z", "\u0292"}; // Scottish length rule
constexpr std::array<std::string_view, 3> palatoalveolars{"\u0283", "t\u0283", "d\u0292"};
// New York short-a split: tense before these (accents.csv)
constexpr std::array<std::string_view, 10> tensing{"m",      "n", "f", "\u03b8",  "s",
                                                   "\u0283", "b", "d", "d\u0292", "\u0261"};

/// What a context may look at: the vowel, its neighbours in the word, and the spelling.
struct Place_of_vowel {
  const Chain& chain;
  std::size_t at, before, after, second; // `second` is the sound after `after`
  [[nodiscard]] std::string_view sound_after() const { return chain.consonant(after); }
  [[nodiscard]] std::string_view sound_before() const { return chain.consonant(before); }
  [[nodiscard]] bool vowel_after() const { return after != Chain::none && chain.links[after].is_vowel(); }
  [[nodiscard]] bool r_after() const { return sound_after() == "\u0279" || has_r(*chain.links[at].phoneme.set); }
  [[nodiscard]] bool closes_syllable(std::size_t i) const {
    return i != Chain::none && chain.links[i].place == Place::coda &&
           chain.links[i].syllable == chain.links[at].syllable;
  }
};

Place_of_vowel look_round(const Chain& chain, std::size_t i) {
  const std::size_t after = chain.next_in_word(i);
  return {chain, i, chain.previous_in_word(i), after, after == Chain::none ? Chain::none : chain.next_in_word(after)};
}

/// l after the vowel, in its syllable or in an l syllable of its own (kettle).
bool before_own_l(const Place_of_vowel& place) {
  return place.sound_after() == "l" && place.closes_syllable(place.after);
}

bool before_voiceless(const Place_of_vowel& place) {
  if (!is_voiceless(place.sound_after())) return false;
  const Link& link = place.chain.links[place.after];
  return link.place == Place::coda || link.stress == 0; // writer counts, tie-pin does not
}

bool kit_front(const Place_of_vowel& place) {
  return place.before == Chain::none || place.sound_before() == "h" || among(place.sound_before(), velars) ||
         among(place.sound_after(), velars) || among(place.sound_after(), palatoalveolars);
}

bool short_a_split(const Place_of_vowel& place) {
  if (!among(place.sound_after(), tensing) || place.chain.words[place.chain.links[place.at].word].function_word)
    return false;
  return place.second == Chain::none || !place.chain.is_nucleus(place.second);
}

/// How the word spells its NURSE vowel: the first vowel letters before r. One NURSE vowel a word is the rule.
std::string_view nurse_spelling(std::string_view word) {
  constexpr std::array<std::string_view, 9> spellings{"ear", "our", "wor", "yr", "er", "ir", "ur", "or", "ol"};
  std::size_t first = std::string_view::npos;
  std::string_view found;
  for (const auto spelling : spellings) {
    const std::size_t at = word.find(spelling);
    if (at < first) first = at, found = spelling;
  }
  return found;
}

bool is_true(Context context, const Place_of_vowel& place) {
  const auto after = place.sound_after();
  const bool last = place.after == Chain::none;
  switch (context) {
  case Context::before_l:
    return after == "l";
  case Context::before_l_in_syllable:
    return before_own_l(place);
  case Context::before_r:
    return after == "\u0279";
  case Context::before_voiceless:
    return before_voiceless(place);
  case Context::before_m_or_n:
    return after == "m" || after == "n";
  case Context::before_nasal:
    return among(after, nasals);
  case Context::before_nasal_and_consonant:
    return among(after, nasals) && place.second != Chain::none && !place.chain.is_nucleus(place.second);
  case Context::before_velar_or_ng:
    return after == "\u014b" || after == "\u0261";
  case Context::before_fricative_r_or_end:
    return last || place.r_after() || among(after, long_before);
  case Context::before_fricative_r_vowel_or_end:
    return last || place.r_after() || place.vowel_after() || among(after, long_before);
  case Context::at_word_end:
    return last;
  case Context::open_syllable:
    return !place.closes_syllable(place.after);
  case Context::after_w:
    return place.sound_before() == "w";
  case Context::spelt_er_or_ear: {
    const auto spelling = nurse_spelling(place.chain.words[place.chain.links[place.at].word].key);
    return spelling == "er" || spelling == "ear";
  }
  case Context::spelt_ir:
    return nurse_spelling(place.chain.words[place.chain.links[place.at].word].key) == "ir";
  case Context::kit_front:
    return kit_front(place);
  case Context::short_a_split:
    return short_a_split(place);
  case Context::some_speakers:
    return false;
  }
  return false;
}

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

/// A rule that varies goes with casual speech to where the two are one vowel (CLOTH has two to go to and stays).
bool are_one(const Chain& chain, const Merger& row) {
  const auto value = chain.accent.rule(row.rule);
  return value == row.one || (value == "variable" && chain.holds(row.rule) && row.set != Set::CLOTH);
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
    const auto value = chain.accent.rule(row.rule);
    const bool parted = (row.one == "yes" && value == "no") || (row.one == "no" && value == "yes");
    if (row.set == set && parted && !row.apart.empty() && have_one_value(chain.accent, set, row.as)) return &row;
  }
  return nullptr;
}

const SetValue& value_of(const Chain& chain, Set set, const Place_of_vowel& place, std::string_view& context) {
  const auto index = static_cast<std::size_t>(set);
  for (const auto& row : chain.accent.contexts[index]) {
    const ContextName* name = find_context(row.context);
    if (name == nullptr || !is_true(name->context, place)) continue;
    context = name->name;
    return row.value;
  }
  return chain.accent.sets[index];
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
  const auto rule = chain.accent.rule("rhotic");
  if (rule == "no") return false;
  if (rule == "yes") return !is_r_coloured(value.vowel);
  return value.r_follows;
}

constexpr std::string_view it_varies = " (this varies in the accent; here because of how casual the speech is)";

/// Tells why a vowel is not the plain value of its set.
void tell_vowel(Chain& chain, std::size_t i, const Merger* merger, const Merger* split, std::string_view context) {
  const Set own = *chain.links[i].phoneme.set;
  const std::string keyword(to_keyword(own)), said = to_ipa(chain.links[i].sound),
                                              plain = to_ipa(chain.accent.of(own).vowel);
  const auto tell = [&](const char* name, std::string text, std::string_view rule) {
    if (!rule.empty() && chain.varies(rule)) text += it_varies;
    chain.applied.push_back({name, i, plain, said, std::move(text)});
  };
  if (split != nullptr)
    tell("vowel_split", keyword + " is kept apart from " + std::string(to_keyword(split->as)) + " in this accent", split->rule);
  else if (merger != nullptr) {
    const std::string where = merger->where == Where::before_r ? " before r" : merger->where == Where::before_m_or_n ? " before m and n" : "";
    tell("vowel_merger", keyword + where + " has the vowel of " + std::string(to_keyword(merger->as)) + " in this accent", merger->rule);
  } else if (!context.empty())
    tell("vowel_in_context", keyword + " is " + said + " here (" + std::string(context) + ")", "");
}

void sound_vowel(Chain& chain, std::size_t i) {
  const Place_of_vowel place = look_round(chain, i);
  const Merger* merger = merger_of(chain, place);
  const Set own = *chain.links[i].phoneme.set, set = merger != nullptr ? merger->as : own;
  const Merger* split = merger == nullptr ? split_of(chain, own) : nullptr;
  std::string_view context;
  SetValue value = value_of(chain, set, place, context);
  if (split != nullptr) // the file has no second value: the plainest one there is
    if (auto apart = parse_set_value(std::string(split->apart))) value.vowel = apart->vowel;
  Sound vowel = value.vowel;
  if (has_r(set) && chain.accent.rule("rhotic") == "no") drop_colour(vowel);
  if (set == Set::commA && place.sound_after() == "\u0279" && is_r_coloured(chain.accent.of(Set::lettER).vowel) &&
      chain.accent.rule("rhotic") != "no")
    vowel = chain.accent.of(Set::lettER).vowel, context = "coloured by the r after it";
  chain.links[i].sound = vowel;
  if (const Sound& plain = chain.accent.of(own).vowel; !(vowel == plain)) tell_vowel(chain, i, merger, split, context);
  // an r that begins the next syllable is there already; an r-coloured vowel has taken it in
  const bool r_follows = place.sound_after() == "\u0279";
  if (r_follows && is_r_coloured(vowel)) {
    chain.links[place.after].gone = true;
    return;
  }
  // a merger lends its vowel, not its r (paw as pore)
  if (!r_follows && (has_r(own) || !has_r(set)) && says_r(chain, set, value))
    chain.insert_after(i, "\u0279", sound_of_r(chain.accent, Place::coda), "", "");
}

/// Weak vowel merger: unstressed KIT like commA, but for the places where English keeps it (before velars and
/// palato-alveolars: magic, spinach, -ing). Wells 1982:167.
void merge_weak(Chain& chain, std::size_t i) {
  Link& link = chain.links[i];
  if (link.stress != 0 || link.phoneme.set != Set::KIT || chain.words[link.word].function_word) return;
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
