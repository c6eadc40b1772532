#include "phrase/align.h"

#include "base/text.h"
#include "ipa/parse.h"

#include <algorithm>
#include <array>

namespace mw {
namespace {

/// Letters that stand for one consonant of English in different places or accents.
struct Family {
  std::string_view letter, as;
};
constexpr std::array<Family, 11> families{{{"ɫ", "l"}, {"ʊ", "l"}, {"ɾ", "t"}, {"ʔ", "t"}, {"ʈ", "t"}, {"ɖ", "d"},
                                           {"ɱ", "n"}, {"r", "ɹ"}, {"ɻ", "ɹ"}, {"ʁ", "ɹ"}, {"ʋ", "ɹ"}}};

using Indices = std::vector<std::size_t>; // of placed sounds
struct SyllablePlaces {
  Indices onset, nucleus, coda;
};
using WordPlaces = std::vector<SyllablePlaces>;

std::vector<WordPlaces> places_of(const Pronunciation& said) {
  std::vector<WordPlaces> words;
  std::size_t index = 0;
  for (const auto& word : said.words) {
    words.emplace_back();
    for (const auto& syllable : word.syllables) {
      SyllablePlaces places;
      for (std::size_t i = 0; i < syllable.onset.size(); ++i) places.onset.push_back(index++);
      places.nucleus.push_back(index++);
      for (std::size_t i = 0; i < syllable.coda.size(); ++i) places.coda.push_back(index++);
      words.back().push_back(std::move(places));
    }
  }
  return words;
}

Indices flat(const WordPlaces& word) {
  Indices all;
  for (const auto& syllable : word)
    for (const Indices* slot : {&syllable.onset, &syllable.nucleus, &syllable.coda})
      all.insert(all.end(), slot->begin(), slot->end());
  return all;
}

class Aligner {
public:
  Aligner(const std::vector<PlacedSound>& left, const std::vector<PlacedSound>& right) : left_(left), right_(right) {}

  /// Least-cost alignment of two runs; leaving a sound alone costs 2.
  void run(const Indices& a, const Indices& b) {
    constexpr int alone = 2;
    std::vector<std::vector<int>> table(a.size() + 1, std::vector<int>(b.size() + 1, 0));
    for (std::size_t i = a.size() + 1; i-- > 0;)
      for (std::size_t j = b.size() + 1; j-- > 0;) {
        if (i == a.size() || j == b.size()) table[i][j] = alone * static_cast<int>((a.size() - i) + (b.size() - j));
        else table[i][j] = std::min({table[i + 1][j + 1] + cost(a[i], b[j]), table[i + 1][j] + alone, table[i][j + 1] + alone});
      }
    for (std::size_t i = 0, j = 0; i < a.size() || j < b.size();) {
      const bool both = i < a.size() && j < b.size() && table[i][j] == table[i + 1][j + 1] + cost(a[i], b[j]);
      const bool only_a = !both && i < a.size() && table[i][j] == table[i + 1][j] + alone;
      if (both) out.emplace_back(a[i++], b[j++]);
      else if (only_a) out.emplace_back(a[i++], std::nullopt);
      else out.emplace_back(std::nullopt, b[j++]);
    }
  }
  AlignedPlaces out;

private:
  [[nodiscard]] int cost(std::size_t i, std::size_t j) const {
    const PlacedSound &a = left_[i], &b = right_[j];
    if (a.sound == b.sound) return 0;
    if (is_vowel(a.sound) != is_vowel(b.sound)) return 3;
    return a.stands_for == b.stands_for ? 1 : 2;
  }
  const std::vector<PlacedSound>&left_, &right_;
};

/// Words that both sides say, by the longest common run; the others pair with none. A word is the same when its text and
/// its place in the phrase are.
AlignedPlaces pair_words(const std::vector<Word>& a, const std::vector<Word>& b) {
  const auto same = [](const Word& x, const Word& y) { return x.text == y.text && x.span.start == y.span.start; };
  AlignedPlaces out;
  if (a.size() == b.size()) {
    for (std::size_t i = 0; i < a.size(); ++i) out.emplace_back(i, i);
    return out;
  }
  std::vector<std::vector<int>> common(a.size() + 1, std::vector<int>(b.size() + 1, 0));
  for (std::size_t i = a.size(); i-- > 0;)
    for (std::size_t j = b.size(); j-- > 0;)
      common[i][j] = same(a[i], b[j]) ? common[i + 1][j + 1] + 1 : std::max(common[i + 1][j], common[i][j + 1]);
  for (std::size_t i = 0, j = 0; i < a.size() || j < b.size();) {
    if (i < a.size() && j < b.size() && same(a[i], b[j])) out.emplace_back(i++, j++);
    else if (i < a.size() && (j == b.size() || common[i + 1][j] >= common[i][j + 1])) out.emplace_back(i++, std::nullopt);
    else out.emplace_back(std::nullopt, j++);
  }
  return out;
}

/// The single consonant that a process started from, "" for a vowel, nothing or a whole word. A sound that took its
/// neighbour's place has become another one (ten pans), so has one that melted with a
/// j (dew as Jew) and a wh that is kept apart from w: they stand for what they are now.
std::string consonant_before(const Process& process) {
  if (process.from.empty() || process.to.empty() || process.name == "assimilation" || process.name == "yod_coalescence" ||
      process.name == "wh_distinction")
    return {};
  const auto sound = parse_sound(process.from, Notation::ipa);
  return sound && !is_vowel(*sound) ? std::string(broad_letter(sound->letter)) : std::string();
}

} // namespace

std::string_view broad_letter(std::string_view letter) {
  const auto at = std::find_if(families.begin(), families.end(), [&](const Family& row) { return row.letter == letter; });
  return at == families.end() ? letter : at->as;
}

std::vector<PlacedSound> placed_sounds(const Pronunciation& said) {
  std::vector<PlacedSound> all;
  std::size_t syllables = 0;
  for (std::size_t word = 0; word < said.words.size(); ++word)
    for (const auto& syllable : said.words[word].syllables) {
      const auto add = [&](const Sound& sound) {
        all.push_back({.sound = sound, .index = all.size(), .word = word, .syllable = syllables, .stress = syllable.stress});
        all.back().stands_for = broad_letter(sound.letter);
      };
      for (const auto& sound : syllable.onset) add(sound);
      add(syllable.nucleus);
      all.back().nucleus = true;
      all.back().set = syllable.set;
      all.back().r_follows = !syllable.coda.empty() && broad_letter(syllable.coda.front().letter) == "ɹ";
      for (const auto& sound : syllable.coda) add(sound);
      ++syllables;
    }
  // the last to be read is the first that was applied: the sound as it was before all rules
  for (auto process = said.processes.rbegin(); process != said.processes.rend(); ++process)
    if (std::string before = consonant_before(*process); !before.empty() && process->sound < all.size() && !all[process->sound].nucleus)
      all[process->sound].stands_for = std::move(before);
  // an r that only links is not the vowel's own
  for (const Process& process : said.processes)
    if (process.from.empty() && process.sound < all.size() && all[process.sound].stands_for == "ɹ") {
      all[process.sound].linking = true;
      if (process.sound > 0) all[process.sound - 1].r_follows = false;
    }
  return all;
}

AlignedPlaces align(const Pronunciation& a, const std::vector<PlacedSound>& left, const Pronunciation& b,
                    const std::vector<PlacedSound>& right) {
  const auto left_words = places_of(a), right_words = places_of(b);
  Aligner aligner(left, right);
  for (const auto& [i, j] : pair_words(a.words, b.words)) {
    if (!i || !j || left_words[*i].size() != right_words[*j].size()) {
      aligner.run(i ? flat(left_words[*i]) : Indices{}, j ? flat(right_words[*j]) : Indices{});
      continue;
    }
    for (std::size_t k = 0; k < left_words[*i].size(); ++k)
      for (const auto slot : {&SyllablePlaces::onset, &SyllablePlaces::nucleus, &SyllablePlaces::coda})
        aligner.run(left_words[*i][k].*slot, right_words[*j][k].*slot);
  }
  return std::move(aligner.out);
}

} // namespace mw
