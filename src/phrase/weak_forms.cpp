#include "phrase/weak_forms.h"

#include "accent/rules.h"
#include "base/expect.h"

#include <algorithm>
#include <iterator>

namespace mw {
namespace {
template <std::size_t N> bool among(std::string_view word, const std::string_view (&list)[N]) {
  return std::find(std::begin(list), std::end(list), word) != std::end(list);
}

constexpr std::string_view grammar[]{
    "a",       "an",   "the",   "and",     "or",    "nor",     "but",    "if",      "as",   "than",   "that",
    "of",      "at",   "to",    "for",     "from",  "by",      "in",     "on",      "with", "into",   "is",
    "am",      "are",  "was",   "were",    "be",    "been",    "do",     "does",    "did",  "has",    "have",
    "had",     "can",  "could", "will",    "would", "shall",   "should", "must",    "may",  "might",  "i",
    "you",     "he",   "she",   "it",      "we",    "they",    "me",     "him",     "her",  "us",     "them",
    "my",      "your", "his",   "its",     "our",   "their",   "there",  "some",    "i'm",  "you're", "he's",
    "she's",   "it's", "we're", "they're", "i'll",  "you'll",  "we'll",  "they'll", "i've", "you've", "we've",
    "they've", "i'd",  "'em",   "till",    "until", "because", "just",   "upon",    "saint"};
// those that keep a beat at the end of a group: yes, I can
constexpr std::string_view closing[]{"is",   "am",   "are",   "was",   "were",  "be",      "do",    "does",  "did",
                                     "has",  "have", "had",   "can",   "could", "will",    "would", "shall", "should",
                                     "must", "may",  "might", "there", "just",  "because", "until", "till"};
constexpr std::string_view pronouns[]{"i", "you", "he", "she", "it", "we", "they", "there"};
constexpr std::string_view determiners[]{"a",   "an",    "the",  "some",  "any",  "no",   "my",    "your",   "his",
                                         "her", "its",   "our",  "their", "this", "that", "these", "those",  "one",
                                         "two", "three", "four", "five",  "many", "much", "more",  "enough", "to",
                                         "it",  "them",  "him",  "me",    "us",   "you"};
constexpr std::string_view modals[]{"could", "should", "would", "might", "must",  "may",
                                    "will",  "i'd",    "you'd", "we'd",  "they'd"};
constexpr std::string_view be[]{"is",   "are", "was",  "were",  "be",    "been", "has",
                                "have", "had", "will", "would", "might", "must"};

/// The neighbours of a word inside its group; "" outside.
struct Place_in_group {
  std::string_view before, after;
  bool vowel_follows = false, consonant_follows = false;
};

bool is_true(std::string_view condition, const Place_in_group& place, Norm norm) {
  if (condition == "before vowel") return place.vowel_follows;
  if (condition == "before consonant") return place.consonant_follows;
  if (condition == "not final") return !place.after.empty();
  if (condition == "not initial") return !place.before.empty();
  if (condition == "not before of") return place.after != "of";
  if (condition == "before pronoun") return among(place.after, pronouns);
  if (condition == "before you") return place.after == "you";
  if (condition == "before be") return among(place.after, be);
  if (condition == "before clause") return among(place.after, pronouns) || place.after == "the" || place.after == "a";
  if (condition == "after modal") return among(place.before, modals);
  if (condition == "auxiliary") return !place.after.empty() && !among(place.after, determiners);
  if (condition == "British") return norm == Norm::british;
  return false;
}

const WeakForm* find_form(const std::vector<WeakForm>& forms, const Place_in_group& place, double casual, Norm norm) {
  const WeakForm* best = nullptr;
  for (const auto& form : forms) {
    const bool fits =
        form.casual <= casual && std::all_of(form.where.begin(), form.where.end(),
                                             [&](const auto& condition) { return is_true(condition, place, norm); });
    if (fits && (best == nullptr || form.casual > best->casual)) best = &form;
  }
  return best;
}

bool begins_with_vowel(const ChainWord& word) {
  if (!word.fixed.empty()) return word.fixed.front().onset.empty();
  return !word.phonemes.empty() && word.phonemes.front().set.has_value();
}

/// Function words lose their stress unless their group has nothing else or they close it as an auxiliary does.
void settle_stress(std::vector<ChainWord>& words) {
  for (std::size_t start = 0; start < words.size();) {
    std::size_t end = start;
    while (end + 1 < words.size() && !words[end].group_end) ++end;
    const auto first = words.begin() + static_cast<std::ptrdiff_t>(start),
               last = words.begin() + static_cast<std::ptrdiff_t>(end);
    const bool all = std::all_of(first, last + 1, [](const ChainWord& word) { return word.function_word; });
    for (std::size_t i = start; i <= end; ++i) {
      if (!words[i].function_word) continue;
      const bool beat = i == end && (all || among(words[i].key, closing));
      bool stressed = false;
      for (auto& phoneme : words[i].phonemes) {
        if (!phoneme.set) continue;
        if (!beat) phoneme.stress = 0;
        stressed = stressed || phoneme.stress > 0;
      }
      const auto vowel = std::find_if(words[i].phonemes.begin(), words[i].phonemes.end(),
                                      [](const auto& p) { return p.set.has_value(); });
      if (beat && !stressed && vowel != words[i].phonemes.end()) vowel->stress = 1;
    }
    start = end + 1;
  }
}

} // namespace

bool is_function_word(std::string_view word) { return among(word, grammar); }

std::vector<OtherForm> weaken(std::vector<ChainWord>& words, const Accent& accent, double casual, Norm norm,
                              const WordTables& tables) {
  std::vector<OtherForm> other(words.size());
  const bool full = holds(accent, "full_vowels_in_weak_forms", casual);
  // from the end, so that each word knows how the next one begins
  for (std::size_t i = words.size(); i-- > 0;) {
    ChainWord& word = words[i];
    const auto forms = tables.weak_forms.find(word.key);
    if (forms == tables.weak_forms.end() || !word.function_word) continue;
    Place_in_group place;
    if (i > 0 && !words[i - 1].group_end) place.before = words[i - 1].key;
    if (!word.group_end && i + 1 < words.size()) {
      place.after = words[i + 1].key;
      place.vowel_follows = begins_with_vowel(words[i + 1]);
      place.consonant_follows = !place.vowel_follows;
    }
    if (place.before.empty() && place.after.empty()) continue; // said alone
    if (const WeakForm* form = find_form(forms->second, place, casual, norm)) {
      if (full) {
        other[i].weak = form->phonemes;
        continue;
      }
      other[i].full = word.phonemes;
      word.phonemes = form->phonemes;
      word.weak = true;
    }
  }
  settle_stress(words);
  return other;
}

} // namespace mw
