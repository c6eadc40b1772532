#include "phrase/shifts.h"

#include <algorithm>
#include <iterator>
#include <utility>

namespace mw {
namespace {

/// A sound with its place in the phrase and what it stands for.
struct Placed {
  const Sound* sound;
  std::size_t index, word;
  std::optional<LexicalSet> set{}; // of a nucleus
};
/// Sounds of one slot of one syllable, or of a whole word.
using Places = std::vector<Placed>;
struct SyllablePlaces {
  Places onset, nucleus, coda;
};
using WordPlaces = std::vector<SyllablePlaces>;

std::vector<WordPlaces> places_of(const Pronunciation& said) {
  std::vector<WordPlaces> words;
  std::size_t index = 0;
  for (std::size_t word = 0; word < said.words.size(); ++word) {
    words.emplace_back();
    for (const auto& syllable : said.words[word].syllables) {
      SyllablePlaces places;
      for (const auto& sound : syllable.onset) places.onset.push_back({&sound, index++, word});
      places.nucleus.push_back({&syllable.nucleus, index++, word, syllable.set});
      for (const auto& sound : syllable.coda) places.coda.push_back({&sound, index++, word});
      words.back().push_back(std::move(places));
    }
  }
  return words;
}

/// Letters that stand for one consonant of English in different places or accents.
struct Family {
  std::string_view letter, as;
};
constexpr Family families[]{{"ɫ", "l"}, {"ʊ", "l"}, {"ɾ", "t"}, {"ʔ", "t"}, {"ʈ", "t"}, {"ɖ", "d"},
                            {"ɱ", "n"}, {"r", "ɹ"}, {"ɻ", "ɹ"}, {"ʁ", "ɹ"}, {"ʋ", "ɹ"}};

std::string_view broad(const Sound& sound) { return broad_letter(sound.letter); }

int cost(const Placed& a, const Placed& b) {
  if (*a.sound == *b.sound) return 0;
  if (is_vowel(*a.sound) != is_vowel(*b.sound)) return 3;
  return broad(*a.sound) == broad(*b.sound) ? 1 : 2;
}

using Aligned = std::pair<const Placed*, const Placed*>;

/// Least-cost alignment; leaving a sound alone costs 2.
void align(const Places& a, const Places& b, std::vector<Aligned>& out) {
  constexpr int alone = 2;
  std::vector<std::vector<int>> table(a.size() + 1, std::vector<int>(b.size() + 1, 0));
  for (std::size_t i = a.size() + 1; i-- > 0;)
    for (std::size_t j = b.size() + 1; j-- > 0;) {
      if (i == a.size() || j == b.size()) {
        table[i][j] = alone * static_cast<int>((a.size() - i) + (b.size() - j));
        continue;
      }
      table[i][j] =
          std::min({table[i + 1][j + 1] + cost(a[i], b[j]), table[i + 1][j] + alone, table[i][j + 1] + alone});
    }
  std::size_t i = 0, j = 0;
  while (i < a.size() || j < b.size()) {
    const bool both = i < a.size() && j < b.size() && table[i][j] == table[i + 1][j + 1] + cost(a[i], b[j]);
    const bool only_a = !both && i < a.size() && table[i][j] == table[i + 1][j] + alone;
    out.emplace_back(both || only_a ? &a[i] : nullptr, only_a ? nullptr : &b[j]);
    i += both || only_a ? 1 : 0;
    j += only_a ? 0 : 1;
  }
}

Places flat(const WordPlaces& word) {
  Places all;
  for (const auto& syllable : word)
    for (const Places* slot : {&syllable.onset, &syllable.nucleus, &syllable.coda})
      all.insert(all.end(), slot->begin(), slot->end());
  return all;
}

SoundPair to_pair(const Aligned& places) {
  SoundPair pair;
  if (places.first) pair.a = places.first->index;
  if (places.second) pair.b = places.second->index;
  if (!places.first)
    pair.text = to_ipa(*places.second->sound) + " is said only in the other accent";
  else if (!places.second)
    pair.text = to_ipa(*places.first->sound) + " is not said in the other accent";
  else
    pair.same = *places.first->sound == *places.second->sound;
  if (places.first && places.second && !pair.same)
    pair.text = to_ipa(*places.first->sound) + " here, " + to_ipa(*places.second->sound) + " in the other accent";
  return pair;
}

/// What a place stands for: the two accents' sounds of one set, with the first word that shows it.
struct Value {
  LexicalSet set;
  const Sound *a, *b;
  std::size_t word;
};

std::vector<Value> vowel_values(const std::vector<Aligned>& aligned) {
  std::vector<Value> values;
  for (const auto& [a, b] : aligned) {
    if (!a || !b || !a->set || !is_vowel(*a->sound) || !is_vowel(*b->sound)) continue;
    const Value value{*a->set, a->sound, b->sound, a->word};
    const bool seen = std::any_of(values.begin(), values.end(), [&](const Value& row) {
      return row.set == value.set && *row.a == *value.a && *row.b == *value.b;
    });
    if (!seen) values.push_back(value);
  }
  return values;
}

Shift to_shift(const Value& one, const Value& two, bool kept_apart, const Pronunciation& said) {
  Shift shift{kept_apart,
              {said.words[one.word].text, said.words[two.word].text},
              {to_ipa(*one.a), to_ipa(*two.a)},
              {to_ipa(*one.b), to_ipa(*two.b)}};
  const auto& apart = kept_apart ? shift.a_ipa : shift.b_ipa;
  const auto& merged = kept_apart ? shift.b_ipa : shift.a_ipa;
  shift.text = "\"" + shift.words[0] + "\" and \"" + shift.words[1] + "\" have two vowels, " + apart[0] + " and " +
               apart[1] + (kept_apart ? ", here and one, " : ", in the other accent and one, ") + merged[0] +
               (kept_apart ? ", in the other accent" : ", here");
  return shift;
}

std::vector<Shift> shifts_of(const std::vector<Aligned>& aligned, const Pronunciation& said) {
  std::vector<Shift> shifts;
  std::vector<std::pair<LexicalSet, LexicalSet>> told;
  const auto values = vowel_values(aligned);
  for (std::size_t j = 0; j < values.size(); ++j)
    for (std::size_t i = 0; i < j; ++i) {
      const Value &one = values[i], &two = values[j];
      const bool same_a = *one.a == *two.a, same_b = *one.b == *two.b;
      if (one.set == two.set || same_a == same_b) continue;
      const auto sets = std::minmax(one.set, two.set);
      if (std::find(told.begin(), told.end(), std::pair(sets.first, sets.second)) != told.end()) continue;
      told.emplace_back(sets.first, sets.second);
      shifts.push_back(to_shift(one, two, same_b, said));
    }
  return shifts;
}

} // namespace

std::string_view broad_letter(std::string_view letter) {
  const auto at =
      std::find_if(std::begin(families), std::end(families), [&](const Family& row) { return row.letter == letter; });
  return at == std::end(families) ? letter : at->as;
}

Comparison compare(const Pronunciation& a, const Pronunciation& b) {
  Comparison result;
  if (a.words.size() != b.words.size()) return result;
  const auto left = places_of(a), right = places_of(b);
  std::vector<Aligned> aligned;
  std::vector<Places> kept; // words aligned as a whole need a row of their own
  kept.reserve(2 * left.size());
  for (std::size_t word = 0; word < left.size(); ++word) {
    if (left[word].size() != right[word].size()) {
      kept.push_back(flat(left[word]));
      kept.push_back(flat(right[word]));
      align(kept[kept.size() - 2], kept.back(), aligned);
      continue;
    }
    for (std::size_t k = 0; k < left[word].size(); ++k) {
      align(left[word][k].onset, right[word][k].onset, aligned);
      align(left[word][k].nucleus, right[word][k].nucleus, aligned);
      align(left[word][k].coda, right[word][k].coda, aligned);
    }
  }
  for (const auto& places : aligned) result.pairs.push_back(to_pair(places));
  result.shifts = shifts_of(aligned, a);
  return result;
}

} // namespace mw
