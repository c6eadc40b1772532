#include "phrase/shifts.h"

#include "accent/contexts.h"
#include "phrase/align.h"
#include "phrase/full_forms.h"
#include "phrase/phoneme.h"
#include "phrase/word_shifts.h"

#include <algorithm>

namespace mw {
namespace {

/// One way in which a set or consonant is said in the two accents, with every place that has it.
struct Value {
  const PlacedSound *a, *b; // of the first place
  std::vector<std::pair<std::size_t, std::size_t>> places; // indices in both
};

struct Side {
  const std::vector<PlacedSound>& sounds;
  const Accent* accent;
  std::vector<bool> weak; // of the second: by word, in its weak form
};

/// Words of the second accent that are weak in either.
std::vector<bool> weak_words(const Pronunciation& a, const Pronunciation& b) {
  const auto one = full_forms(a), two = full_forms(b);
  std::vector<bool> weak(two.size());
  for (std::size_t i = 0; i < two.size(); ++i) weak[i] = !two[i].empty() || (one.size() == two.size() && !one[i].empty());
  return weak;
}

bool alike(const PlacedSound& x, const PlacedSound& y) { return x.sound == y.sound && x.r_follows == y.r_follows; }

std::vector<ContextValue> acting_contexts(const Accent& accent, LexicalSet set) {
  auto rows = accent.contexts[static_cast<std::size_t>(set)];
  std::erase_if(rows, [](const ContextValue& row) {
    const ContextName* name = find_context(row.context);
    return name == nullptr || !name->evaluated;
  });
  return rows;
}

bool is_coloured_alike(const Accent& accent, LexicalSet one, LexicalSet two) {
  const auto x = acting_contexts(accent, one), y = acting_contexts(accent, two);
  return std::equal(x.begin(), x.end(), y.begin(), y.end(), [](const ContextValue& p, const ContextValue& q) {
    return p.context == q.context && p.value.vowel == q.value.vowel && p.value.r_follows == q.value.r_follows;
  });
}

/// The plain sound that both sets have in the accent, when it is one and the same surroundings change both alike.
const Sound* shared_plain(const Side& side, const PlacedSound& x, const PlacedSound& y) {
  if (side.accent == nullptr || !x.set || !y.set || has_r(*x.set) || has_r(*y.set)) return nullptr;
  const SetValue &one = side.accent->of(*x.set), &two = side.accent->of(*y.set);
  const bool same = one.vowel == two.vowel && one.r_follows == two.r_follows;
  return same && is_coloured_alike(*side.accent, *x.set, *y.set) ? &one.vowel : nullptr;
}

bool merges(const Side& side, const PlacedSound& x, const PlacedSound& y) {
  return alike(x, y) || (x.nucleus && shared_plain(side, x, y) != nullptr);
}

/// The same set or consonant of the language. Of typed vowels nobody knows, so each counts as its own; of typed consonants
/// either side may tell.
bool is_one_thing(const Value& x, const Value& y) {
  if (x.a->nucleus) return x.a->set && x.a->set == y.a->set;
  const bool same_a = x.a->stands_for == y.a->stands_for, same_b = x.b->stands_for == y.b->stands_for;
  // a tap may be an r of one accent and a t of another, but English has one r: where a side hears two r, they are one
  constexpr std::string_view r = "ɹ";
  return (same_a && same_b) || (same_a && x.a->stands_for == r) || (same_b && x.b->stands_for == r);
}

bool takes_part(const PlacedSound& x) { return x.nucleus == is_vowel(x.sound); }

std::vector<Value> values_of(const AlignedPlaces& places, const Side& a, const Side& b) {
  std::vector<Value> values;
  for (const auto& [i, j] : places) {
    if (!i || !j) continue;
    const PlacedSound &x = a.sounds[*i], &y = b.sounds[*j];
    if (x.nucleus != y.nucleus || !takes_part(x) || !takes_part(y)) continue;
    const auto at = std::find_if(values.begin(), values.end(), [&](const Value& row) {
      return row.a->nucleus == x.nucleus && row.a->set == x.set && row.a->stands_for == x.stands_for && row.b->stands_for == y.stands_for &&
             alike(*row.a, x) && alike(*row.b, y);
    });
    if (at == values.end()) values.push_back({&x, &y, {{*i, *j}}});
    else at->places.emplace_back(*i, *j);
  }
  return values;
}

// Two words show a shift better than one, and full words better than weak ones (in syllables of distance).
constexpr std::size_t one_word = 1000, weak_word = 100;
constexpr std::size_t looked_at = 64; // places of each value: far more than a sentence has

std::size_t distance(const PlacedSound& p, const PlacedSound& q, const std::vector<bool>& weak) {
  const std::size_t syllables = p.syllable < q.syllable ? q.syllable - p.syllable : p.syllable - q.syllable;
  return syllables + (p.word == q.word ? one_word : 0) + (weak[p.word] ? weak_word : 0) + (weak[q.word] ? weak_word : 0);
}

/// Where two values show best: the nearest places in two full words. Indices into their places.
std::pair<std::size_t, std::size_t> best_places(const Value& x, const Value& y, const Side& b) {
  std::pair<std::size_t, std::size_t> best{0, 0};
  const auto far = [&](std::size_t i, std::size_t j) {
    return distance(b.sounds[x.places[i].second], b.sounds[y.places[j].second], b.weak);
  };
  for (std::size_t i = 0; i < std::min(x.places.size(), looked_at); ++i)
    for (std::size_t j = 0; j < std::min(y.places.size(), looked_at); ++j)
      if (far(i, j) < far(best.first, best.second)) best = {i, j};
  return best;
}

std::string shown(const PlacedSound& sound) { return to_ipa(sound.sound) + (sound.r_follows ? "ɹ" : ""); }

std::vector<std::string> shown_on(const Side& side, const PlacedSound& x, const PlacedSound& y) {
  if (const Sound* plain = alike(x, y) ? nullptr : shared_plain(side, x, y)) return {to_ipa(*plain), to_ipa(*plain)};
  return {shown(x), shown(y)};
}

Shift to_shift(const Value& x, const Value& y, bool kept_apart, const Side& a, const Side& b, const Pronunciation& said) {
  auto [i, j] = best_places(x, y, b);
  auto first = x.places[i], second = y.places[j];
  if (second.second < first.second) std::swap(first, second);
  Shift shift{.kept_apart = kept_apart, .of = x.a->nucleus ? ShiftOf::vowel : ShiftOf::consonant};
  shift.words = {said.words[a.sounds[first.first].word].text, said.words[a.sounds[second.first].word].text};
  shift.a_ipa = shown_on(a, a.sounds[first.first], a.sounds[second.first]);
  shift.b_ipa = shown_on(b, b.sounds[first.second], b.sounds[second.second]);
  shift.a_places = {first.first, second.first};
  shift.b_places = shift.b_ends = {first.second, second.second};
  shift.apart = b.sounds[second.second].syllable - b.sounds[first.second].syllable;
  shift.weak = x.a->nucleus && (b.sounds[first.second].stress == 0 || b.sounds[second.second].stress == 0);
  const auto& apart = kept_apart ? shift.a_ipa : shift.b_ipa;
  const auto& one = kept_apart ? shift.b_ipa[0] : shift.a_ipa[0];
  const std::string what = x.a->nucleus ? "vowels" : "sounds";
  shift.text = "\"" + shift.words[0] + "\" and \"" + shift.words[1] + "\" have two " + what + ", " + apart[0] + " and " +
               apart[1] + (kept_apart ? ", here and one, " : ", in the other accent and one, ") + one +
               (kept_apart ? ", in the other accent" : ", here");
  return shift;
}

/// Whether a shift of the same two things in the same direction is told already; the nearer of the two stays.
struct Told {
  std::string first, second;
  bool kept_apart;
  bool operator==(const Told&) const = default;
};
std::string name_of(const Value& value) {
  return value.a->set ? std::string(to_keyword(*value.a->set)) : value.a->stands_for + "/" + value.b->stands_for;
}

std::size_t cost_of(const Shift& shift, const Side& b) {
  return distance(b.sounds[shift.b_places[0]], b.sounds[shift.b_places[1]], b.weak);
}

std::vector<Shift> shifts_of(const AlignedPlaces& places, const Side& a, const Side& b, const Pronunciation& said) {
  std::vector<Shift> shifts;
  std::vector<Told> told;
  const auto values = values_of(places, a, b);
  for (std::size_t j = 0; j < values.size(); ++j)
    for (std::size_t i = 0; i < j; ++i) {
      const Value &x = values[i], &y = values[j];
      if (x.a->nucleus != y.a->nucleus || is_one_thing(x, y)) continue;
      const bool same_a = merges(a, *x.a, *y.a), same_b = merges(b, *x.b, *y.b);
      if (same_a == same_b) continue;
      std::string one = name_of(x), two = name_of(y);
      if (two < one) std::swap(one, two);
      const Told key{std::move(one), std::move(two), same_b};
      Shift shift = to_shift(x, y, same_b, a, b, said);
      const auto at = std::find(told.begin(), told.end(), key);
      if (at == told.end()) {
        told.push_back(key);
        shifts.push_back(std::move(shift));
      } else if (Shift& known = shifts[static_cast<std::size_t>(at - told.begin())]; cost_of(shift, b) < cost_of(known, b)) {
        known = std::move(shift);
      }
    }
  return shifts;
}

SoundPair to_pair(const std::pair<std::optional<std::size_t>, std::optional<std::size_t>>& places,
                  const std::vector<PlacedSound>& a, const std::vector<PlacedSound>& b) {
  SoundPair pair{places.first, places.second};
  if (!pair.a) pair.text = to_ipa(b[*pair.b].sound) + " is said only in the other accent";
  else if (!pair.b) pair.text = to_ipa(a[*pair.a].sound) + " is not said in the other accent";
  else if (pair.same = a[*pair.a].sound == b[*pair.b].sound; !pair.same)
    pair.text = to_ipa(a[*pair.a].sound) + " here, " + to_ipa(b[*pair.b].sound) + " in the other accent";
  return pair;
}

} // namespace

Comparison compare(const Pronunciation& a, const Pronunciation& b, const Accent* accent_a, const Accent* accent_b) {
  Comparison result;
  const auto left = placed_sounds(a), right = placed_sounds(b);
  const auto places = align(a, left, b, right);
  for (const auto& pair : places) result.pairs.push_back(to_pair(pair, left, right));
  auto full_left = left, full_right = right;
  if (accent_a != nullptr && accent_b != nullptr) give_full_vowels(a, *accent_a, full_left, b, *accent_b, full_right);
  result.shifts = shifts_of(places, {full_left, accent_a, {}}, {full_right, accent_b, weak_words(a, b)}, a);
  for (Shift& shift : word_shifts(a, left, b, right)) {
    const bool told = std::any_of(result.shifts.begin(), result.shifts.end(), [&](const Shift& known) {
      return known.kept_apart == shift.kept_apart && known.words == shift.words;
    });
    if (!told) result.shifts.push_back(std::move(shift));
  }
  std::stable_sort(result.shifts.begin(), result.shifts.end(),
                   [](const Shift& x, const Shift& y) { return x.b_places < y.b_places; });
  return result;
}

} // namespace mw
