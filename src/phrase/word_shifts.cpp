#include "phrase/word_shifts.h"

#include "base/text.h"
#include "phrase/full_forms.h"

#include <algorithm>
#include <span>

namespace mw {
namespace {

constexpr std::size_t reach = 60; // words; further apart nobody hears the two side by side

/// One side's sounds of every word; a word in its weak form counts in its full one.
struct Words {
  const Pronunciation& said;
  std::vector<std::span<const PlacedSound>> spoken;
  std::vector<std::vector<PlacedSound>> full; // empty: as spoken
  std::vector<std::string> ipa;
  [[nodiscard]] std::span<const PlacedSound> sounds(std::size_t w) const {
    return full[w].empty() ? spoken[w] : std::span<const PlacedSound>(full[w]);
  }
};

Words words_of(const Pronunciation& said, const std::vector<PlacedSound>& sounds) {
  Words words{said, {}, std::vector<std::vector<PlacedSound>>(said.words.size()), {}};
  std::size_t at = 0;
  for (std::size_t w = 0; w < said.words.size(); ++w) {
    const std::size_t from = at;
    while (at < sounds.size() && sounds[at].word == w) ++at;
    const bool links = at > from && sounds[at - 1].linking; // its r belongs to neither word
    words.spoken.emplace_back(sounds.data() + from, at - from - (links ? 1 : 0));
    words.ipa.push_back(to_ipa(said.words[w]));
  }
  const auto full = full_forms(said);
  for (std::size_t w = 0; w < full.size(); ++w)
    if (!full[w].empty()) {
      words.full[w] = sounds_alone(full[w]);
      words.ipa[w] = full[w];
    }
  return words;
}

/// The same sounds, but for what only the surroundings colour.
bool is_alike(const PlacedSound& x, const PlacedSound& y) {
  if (x.nucleus != y.nucleus) return false;
  return x.sound == y.sound || (x.nucleus ? x.set && x.set == y.set : x.stands_for == y.stands_for);
}
bool is_homophone(const Words& words, std::size_t i, std::size_t j) {
  const auto x = words.sounds(i), y = words.sounds(j);
  return x.size() == y.size() && !x.empty() && std::equal(x.begin(), x.end(), y.begin(), is_alike);
}

Shift to_shift(const Words& a, const Words& b, std::pair<std::size_t, std::size_t> one,
               std::pair<std::size_t, std::size_t> two, bool kept_apart) {
  Shift shift{.kept_apart = kept_apart, .of = ShiftOf::word};
  shift.words = {a.said.words[one.first].text, a.said.words[two.first].text};
  shift.a_ipa = {a.ipa[one.first], a.ipa[two.first]};
  shift.b_ipa = {b.ipa[one.second], b.ipa[two.second]};
  const auto &x = b.spoken[one.second], &y = b.spoken[two.second];
  shift.a_places = {a.spoken[one.first].front().index, a.spoken[two.first].front().index};
  shift.b_places = {x.front().index, y.front().index};
  shift.b_ends = {x.back().index, y.back().index};
  shift.apart = y.front().syllable - x.front().syllable;
  const std::string both = "\"" + shift.words[0] + "\" and \"" + shift.words[1] + "\"";
  shift.text = kept_apart ? both + " are two words for the ear here and one in the other accent"
                          : both + " are one word for the ear here and two in the other accent";
  return shift;
}

} // namespace

std::vector<Shift> word_shifts(const Pronunciation& a, const std::vector<PlacedSound>& left, const Pronunciation& b,
                               const std::vector<PlacedSound>& right) {
  const Words one = words_of(a, left), two = words_of(b, right);
  std::vector<std::pair<std::size_t, std::size_t>> both; // words of both sides
  for (std::size_t i = 0, j = 0; i < a.words.size() && j < b.words.size();) {
    if (a.words[i].span.start == b.words[j].span.start && a.words[i].text == b.words[j].text) both.emplace_back(i++, j++);
    else if (a.words.size() - i > b.words.size() - j) ++i;
    else ++j;
  }
  std::vector<Shift> shifts;
  std::vector<std::pair<std::string, std::string>> told;
  for (std::size_t p = 0; p < both.size(); ++p)
    for (std::size_t q = p + 1; q < std::min(both.size(), p + reach); ++q) {
      const auto [i, k] = both[p];
      const auto [j, l] = both[q];
      const bool same_a = is_homophone(one, i, j), same_b = is_homophone(two, k, l);
      if (same_a == same_b) continue;
      const std::pair key{to_lower(a.words[i].text), to_lower(a.words[j].text)};
      if (key.first == key.second || std::find(told.begin(), told.end(), key) != told.end()) continue;
      told.push_back(key);
      shifts.push_back(to_shift(one, two, both[p], both[q], same_b));
    }
  return shifts;
}

} // namespace mw
