#include "clash/pattern.h"

#include "base/text.h"
#include "clash/pattern_parts.h"

#include <algorithm>

namespace mw {

namespace {

/// Lips on the scale -1 spread .. 1 rounded. Rounding and spreading grow with height (open vowels use little of either).
double lip_place(const ChartPlace& place) {
  if (place.round > .5) return .3 + .7 * place.height;
  return place.back < .4 ? -place.height : 0;
}

GlideMove glide_of(const SequenceSyllable& syllable) {
  if (syllable.nucleus.empty() || !syllable.nucleus[0].facts.vowel) return {};
  const SoundFacts& f = syllable.nucleus[0].facts;
  if (f.from == f.to) return {};
  return {f.to.height - f.from.height, f.from.back - f.to.back, lip_place(f.to) - lip_place(f.from)};
}

std::pair<double, double> lips_of(const SequenceSyllable& syllable) {
  if (syllable.nucleus.empty() || !syllable.nucleus[0].facts.vowel) return {};
  return {lip_place(syllable.nucleus[0].facts.from), lip_place(syllable.nucleus[0].facts.to)};
}

std::vector<PatternCard> cards_of(const std::vector<SequenceSound>& slot) {
  std::vector<PatternCard> cards;
  for (const SequenceSound& sound : slot)
    cards.push_back({sound.segment, sound.facts.ipa, sound.facts.articulator, sound.facts.also, sound.facts.manner});
  return cards;
}

std::string shown(const std::vector<PatternCard>& cards) {
  std::string text;
  for (const PatternCard& card : cards) text += card.ipa;
  return text.empty() ? "-" : text;
}

/// How the lane comes round; where that is a stretch of the phrase, or its stressed syllables alone, it is spelled out.
std::string round_text(const Pattern& pattern, const PatternLane& lane) {
  const std::string round = lane.period == 1 ? "always the same" : "every " + to_text(static_cast<int>(lane.period));
  if (lane.syllables.size() == pattern.syllables.size()) return round;
  std::string stretch;
  for (const std::string& item : lane.items) stretch += (stretch.empty() ? "" : " ") + item;
  const bool neighbours = lane.syllables.back() - lane.syllables.front() + 1 == lane.syllables.size();
  return stretch + (neighbours ? ": " : " on the beats: ") + round;
}

std::string lane_text(const Pattern& pattern, Slot slot, std::string_view label) {
  std::string line(label);
  for (const PatternSyllable& syllable : pattern.syllables) line += ' ' + shown(syllable.at(slot));
  for (const PatternLane& lane : pattern.lanes)
    if (lane.slot == slot && lane.period > 0) line += "   (" + round_text(pattern, lane) + ')';
  return line + '\n';
}

} // namespace

const std::vector<PatternCard>& PatternSyllable::at(Slot slot) const {
  return slot == Slot::onset ? onset : slot == Slot::nucleus ? nucleus : coda;
}

std::string_view to_text(LinkKind kind) {
  switch (kind) {
  case LinkKind::repeat: return "repeat";
  case LinkKind::swap: return "swap";
  case LinkKind::near_twins: return "near twins";
  case LinkKind::counter_move: return "counter-move";
  }
  return "";
}

Pattern find_pattern(const Sequence& sequence, const std::vector<Competition>& competitions) {
  Pattern pattern;
  for (const SequenceSyllable& s : sequence.syllables) {
    const auto [from, to] = lips_of(s);
    pattern.syllables.push_back({s.word, s.syllable, s.stress, s.start_s, s.end_s, cards_of(s.onset), cards_of(s.nucleus),
                                 cards_of(s.coda), glide_of(s), from, to});
  }
  const PatternParts parts{sequence, pattern.syllables, competitions};
  for (auto find : {find_swaps, find_near_twins, find_counter_moves, find_repeats}) {
    std::vector<PatternLink> found = find(parts);
    pattern.links.insert(pattern.links.end(), found.begin(), found.end());
  }
  std::stable_sort(pattern.links.begin(), pattern.links.end(),
                   [](const PatternLink& a, const PatternLink& b) { return a.strength > b.strength; });
  find_lanes(parts, pattern);
  return pattern;
}

Pattern find_pattern(const Sequence& sequence) {
  const auto& data = difficulty_data(); // a broken installation: the pattern without near twins
  return find_pattern(sequence, data ? find_competitions(sequence, *data) : std::vector<Competition>{});
}

Pattern find_pattern(const SegmentTrack& track, bool loop) { return find_pattern(sequence_of(track, loop)); }

std::string to_text(const Pattern& pattern) {
  if (pattern.syllables.empty()) return {};
  std::string text = lane_text(pattern, Slot::onset, "start:") + lane_text(pattern, Slot::nucleus, "vowel:") +
                     lane_text(pattern, Slot::coda, "end:  ");
  for (const PatternLink& link : pattern.links)
    if (link.kind != LinkKind::repeat) text += std::string(to_text(link.kind)) + ": " + link.text + '\n';
  for (const OutOfStep& step : pattern.out_of_step) text += "out of step: " + step.text + '\n';
  return text;
}

} // namespace mw
