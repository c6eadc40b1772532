#include "clash/accent_shifts.h"

#include "clash/analysis.h"
#include "clash/features.h"
#include "clash/tell.h"
#include "clash/telling.h"
#include "phrase/align.h"
#include "phrase/shifts.h"

#include <algorithm>
#include <map>

namespace mw {

namespace {

// Within two syllables the two sounds stand side by side in the ear and the mouth; within a dozen they are one breath.
// Weak vowels follow the strong ones and are told last.
int level_of(const Shift& shift) { return shift.weak ? 1 : shift.apart <= 2 ? 3 : shift.apart <= 12 ? 2 : 1; }

// Four sets that fall together make six pairs; the two that stand nearest show it.
constexpr int most_of_one_sound = 2;

Clash placed(const Shift& shift, const SegmentTrack& track) {
  Clash clash;
  clash.kind = ClashKind::accent_shift;
  clash.level = level_of(shift);
  clash.strength = 1 / (1 + static_cast<double>(shift.apart));
  for (std::size_t side = 0; side < 2; ++side)
    for (std::size_t i = shift.b_places[side]; i <= shift.b_ends[side]; ++i) clash.segments.push_back(i);
  clash.start_s = track.segments[clash.segments.front()].start_s;
  clash.end_s = track.segments[clash.segments.back()].end_s;
  return clash;
}

/// What a clause needs: the two kept apart, the one they share, the words. The target keeps apart what `own` merges, or
/// the reverse.
struct Told {
  bool own_merges;
  std::string x, y, shared, one, two;
};

Told told_of(const Shift& shift, const SegmentTrack& track, const Teller& teller) {
  const auto& apart = shift.kept_apart ? shift.a_ipa : shift.b_ipa;
  const auto& merged = shift.kept_apart ? shift.b_ipa : shift.a_ipa;
  const auto word = [&](std::size_t place) { return teller.word(track.segments[shift.b_places[place]].word); };
  return {!shift.kept_apart, apart[0], apart[1], merged[0], word(0), word(1)};
}

std::string where_of(const Told& t) { return t.one == t.two ? "in " + t.one : "in " + t.one + " and " + t.two; }

std::string merged_feel(const Told& t) {
  return "say " + t.one + ", then " + t.two + ", and let the mouth go to one place for both.";
}

Clash tell_sounds(const Shift& shift, const SoundFacts& x, const SoundFacts& y, const SegmentTrack& track, const Teller& teller) {
  Clash clash = placed(shift, track);
  const Told t = told_of(shift, track, teller);
  clash.articulators = {x.vowel ? Articulator::body : part_between(x, y)};
  clash.title = "Accent shift: " + (t.own_merges ? t.shared + " becomes " + t.x + " and " + t.y : t.x + " and " + t.y + " become " + t.shared);
  clash.where = where_of(t);
  clash.text = t.own_merges ? "Your own accent says " + t.shared + " in both " + t.one + " and " + t.two + "; here " + t.one + " has " +
                                  t.x + " and " + t.two + " has " + t.y + "."
                            : "Your own accent says " + t.x + " in " + t.one + " and " + t.y + " in " + t.two + "; here both have " +
                                  t.shared + ".";
  // two vowels that an r alone parts have no difference of their own to feel
  clash.feel = !t.own_merges ? merged_feel(t) : x.key != y.key ? feel_of_difference(x, y) : "the tongue moves on to the r in one of them only.";
  return clash;
}

Clash tell_words(const Shift& shift, const SegmentTrack& track, const Teller& teller) {
  Clash clash = placed(shift, track);
  const Told t = told_of(shift, track, teller);
  clash.articulators = {Articulator::tip};
  for (std::size_t i : clash.segments) // the part that makes the word's first consonant
    if (!is_vowel(track.segments[i].sound)) {
      clash.articulators = {facts_of(track.segments[i].sound).articulator};
      break;
    }
  clash.title = "Accent shift: " + t.one + " and " + t.two + (t.own_merges ? " come apart" : " become one");
  clash.where = where_of(t);
  clash.text = "Your own accent says " + (t.own_merges ? t.one + " and " + t.two + " alike, " + t.shared + "; here they are " + t.x + " and " + t.y + "."
                                                        : t.one + " " + t.x + " and " + t.two + " " + t.y + "; here they sound alike, " + t.shared + ".");
  clash.feel = t.own_merges ? "say the two side by side: one of them has a sound more." : merged_feel(t);
  return clash;
}

} // namespace

std::vector<Clash> find_accent_shifts(const Pronunciation& own, const Pronunciation& target, const SegmentTrack& track,
                                      const Accent* own_accent, const Accent* target_accent) {
  const auto comparison = compare(own, target, own_accent, target_accent);
  const auto own_sounds = placed_sounds(own), target_sounds = placed_sounds(target);
  MW_EXPECT(target_sounds.size() == track.segments.size());
  const Teller teller{target, track};
  std::map<std::vector<std::string>, Clash> nearest; // by the three sounds
  for (const Shift& shift : comparison.shifts) {
    const auto& sounds = shift.kept_apart ? own_sounds : target_sounds;
    const auto& places = shift.kept_apart ? shift.a_places : shift.b_places;
    const SoundFacts x = facts_of(sounds[places[0]].sound), y = facts_of(sounds[places[1]].sound);
    const bool words = shift.of == ShiftOf::word;
    Clash clash = words ? tell_words(shift, track, teller) : tell_sounds(shift, x, y, track, teller);
    const auto& apart = shift.kept_apart ? shift.a_ipa : shift.b_ipa;
    const auto& merged = shift.kept_apart ? shift.b_ipa : shift.a_ipa;
    auto [at, is_new] = nearest.try_emplace(
        {shift.kept_apart ? "merged" : "apart", merged[0], std::min(apart[0], apart[1]), std::max(apart[0], apart[1])}, clash);
    if (!is_new && stronger(clash, at->second)) at->second = std::move(clash);
  }
  std::vector<std::pair<std::string, Clash>> sorted; // with the shared sound and the direction
  for (auto& [key, clash] : nearest) sorted.emplace_back(key[0] + ' ' + key[1], std::move(clash));
  std::stable_sort(sorted.begin(), sorted.end(), [](const auto& a, const auto& b) { return stronger(a.second, b.second); });
  std::map<std::string, int> told;
  std::vector<Clash> clashes;
  for (auto& [shared, clash] : sorted)
    if (++told[shared] <= most_of_one_sound) clashes.push_back(std::move(clash));
  return clashes;
}

std::vector<Clash> with_accent_shifts(std::vector<Clash> clashes, const std::vector<Clash>& shifts) {
  for (const Clash& shift : shifts)
    if (shift.level > 1) clashes.push_back(shift);
  std::stable_sort(clashes.begin(), clashes.end(), stronger);
  return clashes;
}

} // namespace mw
