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

/// Sets that merge with another before r where an accent has the rule (Mary marry merry, mirror nearer, hurry furry).
struct Merger {
  Set set;
  std::string_view rule;
  Set as;
};
constexpr std::array<Merger, 4> before_r{{{Set::TRAP, "Mary_marry_merry_merger", Set::SQUARE},
                                          {Set::DRESS, "Mary_marry_merry_merger", Set::SQUARE},
                                          {Set::KIT, "mirror_nearer_merger", Set::NEAR},
                                          {Set::STRUT, "hurry_furry_merger", Set::NURSE}}};

Set merged(const Chain& chain, const Place_of_vowel& place) {
  const Link& link = chain.links[place.at];
  const Set set = *link.phoneme.set;
  if (place.sound_after() == "\u0279")
    for (const auto& row : before_r)
      if (row.set == set && chain.holds(row.rule)) return row.as;
  return set;
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

/// Tells why a vowel is not the plain value of its set.
void tell_vowel(Chain& chain, std::size_t i, Set own, Set set, std::string_view context) {
  const std::string keyword(to_keyword(own)), said = to_ipa(chain.links[i].sound),
                                              plain = to_ipa(chain.accent.of(own).vowel);
  if (set != own)
    chain.applied.push_back(
        {"vowel_merger", i, plain, said,
         keyword + " before r has the vowel of " + std::string(to_keyword(set)) + " in this accent"});
  else if (!context.empty())
    chain.applied.push_back(
        {"vowel_in_context", i, plain, said, keyword + " is " + said + " here (" + std::string(context) + ")"});
}

void sound_vowel(Chain& chain, std::size_t i) {
  const Place_of_vowel place = look_round(chain, i);
  const Set set = merged(chain, place), own = *chain.links[i].phoneme.set;
  std::string_view context;
  const SetValue& value = value_of(chain, set, place, context);
  Sound vowel = value.vowel;
  if (has_r(set) && chain.accent.rule("rhotic") == "no") drop_colour(vowel);
  chain.links[i].sound = vowel;
  if (const Sound& plain = chain.accent.of(own).vowel; !(vowel == plain)) tell_vowel(chain, i, own, set, context);
  // an r that begins the next syllable is there already; an r-coloured vowel has taken it in
  const bool r_follows = place.sound_after() == "\u0279";
  if (r_follows && is_r_coloured(vowel)) {
    chain.links[place.after].gone = true;
    return;
  }
  if (!r_follows && says_r(chain, set, value))
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
