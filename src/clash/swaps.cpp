#include "clash/pattern_parts.h"
#include "clash/similarity.h"
#include "clash/tell.h"

#include <algorithm>
#include <set>

namespace mw {

namespace {

using Slots = std::array<const std::vector<SequenceSound>*, 4>;

struct Window {
  std::array<std::size_t, 4> column{};
  Slots slot{};
  Slot lane = Slot::onset;
  bool strong = true; // all four syllables stressed
};

// Two actions must have something in common to be exchanged by mistake; 0.2 keeps m/s, p/l apart and takes in t/k
// (0.40), p/k (0.33), s/ʃ (0.79). Our own choice.
constexpr double least_likeness = 0.2;

double likeness(const Window& w) { return similarity(*w.slot[0], *w.slot[1]); }

using SlotSounds = std::vector<SequenceSound>;

bool same_sounds(const SlotSounds& a, const SlotSounds& b) {
  return std::ranges::equal(a, b, {}, [](const SequenceSound& s) { return std::string_view(s.facts.key); },
                            [](const SequenceSound& s) { return std::string_view(s.facts.key); });
}

/// Whether action_of would tell them alike.
bool same_action(const SequenceSound& a, const SequenceSound& b) {
  const SoundFacts &x = a.facts, &y = b.facts;
  if (x.vowel || y.vowel) return x.vowel == y.vowel && x.key == y.key;
  return x.articulator == y.articulator && x.place == y.place && manner_word(x.manner) == manner_word(y.manner);
}
bool same_actions(const SlotSounds& a, const SlotSounds& b) { return std::ranges::equal(a, b, same_action); }

bool exact(const Window& w) { return same_sounds(*w.slot[0], *w.slot[3]) && same_sounds(*w.slot[1], *w.slot[2]); }

bool is_swap(const Window& w) {
  for (const auto* slot : w.slot)
    if (slot->empty()) return false;
  if (w.lane == Slot::nucleus && !w.strong) return false; // weak vowels come and go without a pattern
  // a start is known by its first action, as where lanes come round: "trays" starts like "tin"
  const bool starts = w.lane == Slot::onset && w.column[0] != w.column[1];
  const auto same = [&](std::size_t i, std::size_t k) {
    return starts ? same_action(w.slot[i]->front(), w.slot[k]->front()) : same_actions(*w.slot[i], *w.slot[k]);
  };
  return !same(0, 1) && same(0, 3) && same(1, 2) && likeness(w) >= least_likeness;
}

bool is_repeat(const Window& w) {
  for (const auto* slot : w.slot)
    if (slot->empty()) return false;
  const auto same = [&](std::size_t i, std::size_t k) { return same_sounds(*w.slot[i], *w.slot[k]); };
  return !same(0, 1) && same(0, 2) && same(1, 3);
}

/// Share of the other slots that is the same all along.
double shared_rest(const PatternParts& parts, const Window& w) {
  double same = 0;
  for (Slot slot : all_slots) {
    if (slot == w.lane) continue;
    bool all = !parts.sequence.syllables[w.column[0]].at(slot).empty();
    for (std::size_t column : w.column)
      all = all && parts.sequence.syllables[column].key(slot) == parts.sequence.syllables[w.column[0]].key(slot);
    same += all ? .5 : 0;
  }
  return same;
}

/// "tip back, then back tip", or the sounds when one part makes both.
std::string swap_text(const Window& w) {
  const auto name = [&](std::size_t i) {
    const bool parts_differ = w.slot[0]->front().facts.articulator != w.slot[1]->front().facts.articulator;
    if (parts_differ && !w.slot[0]->front().facts.vowel) return std::string(short_name(w.slot[i]->front().facts.articulator));
    std::string ipa;
    for (const SequenceSound& sound : *w.slot[i]) ipa += sound.facts.ipa;
    return ipa;
  };
  return name(0) + ' ' + name(1) + ", then " + name(2) + ' ' + name(3);
}

PatternLink link_of(const PatternParts& parts, const Window& w, LinkKind kind) {
  PatternLink link{.kind = kind, .slot = w.lane};
  for (std::size_t i = 0; i < 4; ++i) {
    if (link.syllables.empty() || link.syllables.back() != w.column[i]) link.syllables.push_back(w.column[i]);
    link.segments.push_back(w.slot[i]->front().segment);
  }
  link.strength = likeness(w) + (exact(w) ? .25 : 0) + .5 * shared_rest(parts, w);
  link.level = link.strength >= 1 ? 3 : link.strength >= .5 ? 2 : 1;
  link.text = swap_text(w);
  return link;
}

std::vector<Window> windows(const PatternParts& parts, const std::vector<std::size_t>& reading) {
  std::vector<Window> found;
  found.reserve(4 * reading.size());
  const auto& s = parts.sequence.syllables;
  for (std::size_t i = 0; i + 1 < reading.size(); ++i) {
    const std::size_t a = reading[i], b = reading[i + 1];
    const bool both = s[a].stress > 0 && s[b].stress > 0;
    found.push_back({{a, a, b, b}, {&s[a].onset, &s[a].coda, &s[b].onset, &s[b].coda}, Slot::onset, both});
    if (i + 3 >= reading.size()) continue;
    const std::size_t c = reading[i + 2], d = reading[i + 3];
    const bool all = both && s[c].stress > 0 && s[d].stress > 0;
    for (Slot lane : all_slots)
      found.push_back({{a, b, c, d}, {&s[a].at(lane), &s[b].at(lane), &s[c].at(lane), &s[d].at(lane)}, lane, all});
  }
  return found;
}

/// In a loop the same window comes again a pass later, and both readings may see it: each set of sounds once.
std::vector<PatternLink> collect(const PatternParts& parts, LinkKind kind, bool (*fits)(const Window&)) {
  std::vector<PatternLink> links;
  std::set<std::vector<std::size_t>> seen;
  for (const auto& reading : readings(parts.sequence))
    for (const Window& w : windows(parts, reading)) {
      if (!fits(w)) continue;
      PatternLink link = link_of(parts, w, kind);
      std::vector<std::size_t> sounds = link.segments;
      std::sort(sounds.begin(), sounds.end());
      const bool fresh = std::adjacent_find(sounds.begin(), sounds.end()) == sounds.end();
      if (fresh && seen.insert(sounds).second) links.push_back(std::move(link));
    }
  return links;
}

} // namespace

std::vector<std::vector<std::size_t>> readings(const Sequence& sequence) {
  std::vector<std::size_t> all, beats;
  for (std::size_t pass = 0; pass < (sequence.loop ? 2u : 1u); ++pass)
    for (std::size_t i = 0; i < sequence.syllables.size(); ++i) {
      all.push_back(i);
      if (sequence.syllables[i].stress > 0) beats.push_back(i);
    }
  if (beats.size() == all.size()) return {all};
  return {all, beats};
}

std::vector<PatternLink> find_swaps(const PatternParts& parts) { return collect(parts, LinkKind::swap, is_swap); }
std::vector<PatternLink> find_repeats(const PatternParts& parts) { return collect(parts, LinkKind::repeat, is_repeat); }

} // namespace mw
