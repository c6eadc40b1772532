#include "clash/accent_shifts.h"

#include "clash/analysis.h"
#include "clash/features.h"
#include "clash/similarity.h"
#include "clash/tell.h"
#include "clash/telling.h"
#include "phrase/shifts.h"

#include <algorithm>
#include <map>

namespace mw {

namespace {

/// One place of the phrase in both accents.
struct Pairing {
  SoundFacts own, target;
  std::size_t segment = 0; // of the target
  std::size_t syllable = 0; // counted over the phrase
  bool strong = true;
  std::optional<LexicalSet> set{}; // of a vowel
};

/// Cheapest way to pair the sounds of one slot in order; leaving one out costs `skip`.
std::vector<std::pair<std::size_t, std::size_t>> pair_slot(const std::vector<SoundFacts>& a, const std::vector<SoundFacts>& b) {
  constexpr double skip = .6; // unlike sounds (similarity under 0.4 or so) are rather left out, both
  std::vector<std::vector<double>> cost(a.size() + 1, std::vector<double>(b.size() + 1, 0));
  const auto match = [&](std::size_t i, std::size_t j) { return cost[i + 1][j + 1] + 1 - similarity(a[i], b[j]); };
  for (std::size_t i = a.size() + 1; i-- > 0;)
    for (std::size_t j = b.size() + 1; j-- > 0;) {
      if (i == a.size() || j == b.size()) { cost[i][j] = skip * static_cast<double>(a.size() - i + b.size() - j); continue; }
      cost[i][j] = std::min({match(i, j), cost[i + 1][j] + skip, cost[i][j + 1] + skip});
    }
  std::vector<std::pair<std::size_t, std::size_t>> pairs;
  for (std::size_t i = 0, j = 0; i < a.size() && j < b.size();) {
    if (cost[i][j] == match(i, j)) pairs.emplace_back(i++, j++);
    else if (cost[i][j] == cost[i + 1][j] + skip) ++i;
    else ++j;
  }
  return pairs;
}

std::vector<SoundFacts> facts_list(const std::vector<Sound>& sounds) {
  std::vector<SoundFacts> facts;
  for (const Sound& sound : sounds) facts.push_back(facts_of(sound));
  return facts;
}

/// Segments of one word in the target's track, by syllable and slot, in order.
std::size_t segment_at(const SegmentTrack& track, std::size_t word, std::size_t syllable, Slot slot, std::size_t index) {
  for (std::size_t i = 0; i < track.segments.size(); ++i) {
    const Segment& s = track.segments[i];
    if (static_cast<std::size_t>(s.word) == word && static_cast<std::size_t>(s.syllable) == syllable && s.slot == slot && index-- == 0)
      return i;
  }
  return track.segments.size();
}

void pair_syllables(const Pronunciation& own, const Pronunciation& target, const SegmentTrack& track, std::size_t word,
                    std::size_t& syllable, std::vector<Pairing>& pairs) {
  const auto &a = own.words[word].syllables, &b = target.words[word].syllables;
  for (std::size_t s = 0; s < b.size(); ++s, ++syllable) {
    if (s >= a.size() || a.size() != b.size()) continue; // a word with another number of syllables is another word
    const auto add = [&](const std::vector<Sound>& x, const std::vector<Sound>& y, Slot slot) {
      const auto from = facts_list(x), to = facts_list(y);
      for (const auto& [i, j] : pair_slot(from, to)) {
        const std::size_t segment = segment_at(track, word, s, slot, j);
        if (segment < track.segments.size()) pairs.push_back({from[i], to[j], segment, syllable, b[s].stress > 0, from[i].vowel ? b[s].set : std::nullopt});
      }
    };
    add(a[s].onset, b[s].onset, Slot::onset);
    add({a[s].nucleus}, {b[s].nucleus}, Slot::nucleus);
    add(a[s].coda, b[s].coda, Slot::coda);
  }
}

/// What is found for one triple of sounds, the shared one and the two kept apart: told where the two are nearest.
struct FoundShift {
  bool kept_apart = true; // by the target; false: the target merges
  const Pairing* first = nullptr;
  const Pairing* second = nullptr;
  std::size_t nearest = 0; // syllables between the two
};

/// t, its tap and its catch are one sound of the language, in two places; so are two values of one set.
bool same_sound(const Pairing& a, const Pairing& b, const SoundFacts& x, const SoundFacts& y) {
  if (a.set && b.set) return *a.set == *b.set;
  return !x.vowel && broad_letter(x.key) == broad_letter(y.key);
}

void note_shift(std::map<std::vector<std::string>, FoundShift>& shifts, const Pairing& a, const Pairing& b) {
  const bool own_same = a.own.key == b.own.key, target_same = a.target.key == b.target.key;
  if (own_same == target_same || a.own.vowel != b.own.vowel) return;
  if (a.own.vowel && (!a.strong || !b.strong)) return; // weak vowels follow the strong ones
  const SoundFacts &x = own_same ? a.target : a.own, &y = own_same ? b.target : b.own;
  if (same_sound(a, b, x, y)) return;
  const std::string shared = own_same ? a.own.key : a.target.key;
  FoundShift& shift = shifts[{own_same ? "apart" : "merged", shared, std::min(x.key, y.key), std::max(x.key, y.key)}];
  if (shift.first && b.syllable - a.syllable >= shift.nearest) return;
  shift = {.kept_apart = own_same, .first = &a, .second = &b, .nearest = b.syllable - a.syllable};
}

// Within two syllables the two sounds stand side by side in the ear and the mouth; within a dozen they are one breath.
int level_of(std::size_t syllables) { return syllables <= 2 ? 3 : syllables <= 12 ? 2 : 1; }

Clash tell(const FoundShift& shift, const Teller& target) {
  const Pairing &a = *shift.first, &b = *shift.second;
  Clash clash;
  clash.kind = ClashKind::accent_shift;
  clash.segments = {std::min(a.segment, b.segment), std::max(a.segment, b.segment)};
  clash.level = level_of(shift.nearest);
  clash.strength = 1 / (1 + static_cast<double>(shift.nearest));
  clash.start_s = target.track.segments[clash.segments.front()].start_s;
  clash.end_s = target.track.segments[clash.segments.back()].end_s;
  const SoundFacts &x = shift.kept_apart ? a.target : a.own, &y = shift.kept_apart ? b.target : b.own;
  const std::string shared = shift.kept_apart ? a.own.ipa : a.target.ipa;
  clash.articulators = {x.vowel ? Articulator::body : part_between(x, y)};
  const auto name = [&](const Pairing& p) { return target.word(target.track.segments[p.segment].word); };
  const std::string one = name(a), two = name(b);
  clash.title = "Accent shift: " + (shift.kept_apart ? shared + " becomes " + x.ipa + " and " + y.ipa
                                                     : x.ipa + " and " + y.ipa + " become " + shared);
  clash.where = one == two ? "in " + one : "in " + one + " and " + two;
  clash.text = shift.kept_apart ? "Your own accent says " + shared + " in both " + one + " and " + two + "; here " + one + " has " +
                                      x.ipa + " and " + two + " has " + y.ipa + "."
                                : "Your own accent says " + x.ipa + " in " + one + " and " + y.ipa + " in " + two +
                                      "; here both have " + shared + ".";
  clash.feel = shift.kept_apart ? feel_of_difference(x, y) : "say " + one + ", then " + two + ", and let the mouth go to one place for both.";
  return clash;
}

} // namespace

std::vector<Clash> find_accent_shifts(const Pronunciation& own, const Pronunciation& target, const SegmentTrack& track) {
  std::vector<Pairing> pairs;
  std::size_t syllable = 0;
  for (std::size_t word = 0; word < std::min(own.words.size(), target.words.size()); ++word)
    pair_syllables(own, target, track, word, syllable, pairs);
  std::map<std::vector<std::string>, FoundShift> shifts;
  for (std::size_t i = 0; i < pairs.size(); ++i)
    for (std::size_t j = i + 1; j < pairs.size(); ++j) note_shift(shifts, pairs[i], pairs[j]);
  std::vector<Clash> clashes;
  for (const auto& [key, shift] : shifts) clashes.push_back(tell(shift, {target, track}));
  std::stable_sort(clashes.begin(), clashes.end(), [](const Clash& a, const Clash& b) {
    return a.level != b.level ? a.level > b.level : a.strength > b.strength;
  });
  return clashes;
}

std::vector<Clash> with_accent_shifts(std::vector<Clash> clashes, const std::vector<Clash>& shifts) {
  const std::size_t moves = clashes.size();
  for (const Clash& shift : shifts) {
    const bool told = std::any_of(clashes.begin() + static_cast<std::ptrdiff_t>(moves), clashes.end(), [&](const Clash& k) {
      return std::all_of(shift.segments.begin(), shift.segments.end(), [&](std::size_t segment) {
        return std::binary_search(k.segments.begin(), k.segments.end(), segment);
      });
    });
    if (shift.level > 1 && !told) clashes.push_back(shift);
  }
  std::stable_sort(clashes.begin(), clashes.end(), stronger);
  return clashes;
}

} // namespace mw
