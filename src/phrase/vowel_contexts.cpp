#include "phrase/vowel_contexts.h"

#include "phrase/known.h"
#include "phrase/words.h"

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

// ---- the end of a stem, from the spelling

bool ends_with(std::string_view word, std::string_view ending) {
  return word.size() > ending.size() && word.substr(word.size() - ending.size()) == ending;
}

bool is_word(std::string_view word) {
  const auto& tables = word_tables();
  return tables && is_listed(tables->known, word);
}

/// tied, brewed, cried: what stands before the d is a word. Of words in -eed only those whose stem has another vowel or is
/// free or knee: need, seed and feed are whole, whatever else nee, see and fee may be.
bool is_past(std::string_view key) {
  if (!ends_with(key, "ed")) return false;
  const std::string_view stem = key.substr(0, key.size() - 1), bare = key.substr(0, key.size() - 2);
  if (ends_with(key, "eed"))
    return is_word(stem) && (stem == "free" || stem == "knee" || stem.substr(0, stem.size() - 2).find_first_of("aeiouy") != std::string_view::npos);
  const bool y = ends_with(key, "ied") && is_word(std::string(key.substr(0, key.size() - 3)) + "y");
  return is_word(stem) || is_word(bare) || y;
}
} // namespace

bool Place_of_vowel::closes_syllable(std::size_t i) const {
  return i != Chain::none && chain.links[i].place == Place::coda && chain.links[i].syllable == chain.links[at].syllable;
}

Place_of_vowel look_round(const Chain& chain, std::size_t i) {
  const std::size_t after = chain.next_in_word(i);
  return {chain, i, chain.previous_in_word(i), after, after == Chain::none ? Chain::none : chain.next_in_word(after)};
}

bool ends_stem(const Place_of_vowel& place) {
  if (place.after == Chain::none) return true;
  const std::string& key = place.chain.words[place.chain.links[place.at].word].key;
  if (place.second != Chain::none) return false;
  const auto after = place.sound_after();
  if (key.find('\'') != std::string::npos) return place.chain.links[place.after].place == Place::coda; // he'd, law's, they've
  if (after == "z") return ends_with(key, "s") && (is_word(std::string_view(key).substr(0, key.size() - 1)));
  return after == "d" && is_past(key);
}

bool is_true(Context context, const Place_of_vowel& place) {
  const auto after = place.sound_after();
  const bool last = ends_stem(place);
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

} // namespace mw
