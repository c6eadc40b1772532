#include "base/text.h"
#include "clash/pattern_parts.h"

#include <algorithm>

namespace mw {

namespace {

constexpr std::size_t longest_period = 4;
// Two of anything is chance; a lane must be seen to come round over at least four syllables.
constexpr std::size_t shortest_stretch = 4;

/// What has to be equal for a lane to come round: the start's first action, the vowel, all actions of the end.
std::string item(const SequenceSyllable& syllable, Slot slot) {
  const auto& sounds = syllable.at(slot);
  if (slot == Slot::onset) return sounds.empty() ? std::string() : action_of(sounds.front().facts);
  return slot == Slot::nucleus ? key_of(sounds) : action_of(sounds);
}

std::string shown(const SequenceSyllable& syllable, Slot slot) {
  std::string ipa;
  for (const SequenceSound& sound : syllable.at(slot)) ipa += sound.facts.ipa;
  return ipa;
}

bool is_filled(const std::vector<std::string>& items, std::size_t from, std::size_t to) {
  return std::all_of(items.begin() + static_cast<std::ptrdiff_t>(from), items.begin() + static_cast<std::ptrdiff_t>(to),
                     [](const std::string& text) { return !text.empty(); });
}

/// Whether the stretch also comes round after fewer places.
bool comes_round_sooner(const std::vector<std::string>& items, std::size_t from, std::size_t to, std::size_t period) {
  for (std::size_t p = 1; p < period; ++p) {
    bool fits = true;
    for (std::size_t i = from; i + p < to && fits; ++i) fits = items[i] == items[i + p];
    if (fits) return true;
  }
  return false;
}

PatternLane lane_of(const PatternParts& parts, const std::vector<std::size_t>& reading, Slot slot, std::size_t from,
                    std::size_t to, std::size_t period) {
  PatternLane lane{.slot = slot, .period = period};
  for (std::size_t i = from; i < to; ++i) {
    const SequenceSyllable& syllable = parts.sequence.syllables[reading[i]];
    if (std::find(lane.syllables.begin(), lane.syllables.end(), reading[i]) != lane.syllables.end()) break; // next pass
    lane.syllables.push_back(reading[i]);
    lane.items.push_back(shown(syllable, slot));
    if (!syllable.at(slot).empty()) lane.segments.push_back(syllable.at(slot).front().segment);
  }
  return lane;
}

std::vector<PatternLane> stretches(const PatternParts& parts, const std::vector<std::size_t>& reading, Slot slot) {
  std::vector<std::string> items;
  for (std::size_t column : reading) items.push_back(item(parts.sequence.syllables[column], slot));
  std::vector<PatternLane> lanes;
  for (std::size_t period = 1; period <= longest_period; ++period)
    for (std::size_t from = 0; from + period < items.size();) {
      std::size_t to = from + period;
      while (to < items.size() && items[to] == items[to - period]) ++to;
      const bool long_enough = to - from >= std::max(2 * period, shortest_stretch);
      if (long_enough && is_filled(items, from, to) && !comes_round_sooner(items, from, to, period))
        lanes.push_back(lane_of(parts, reading, slot, from, to, period));
      from = to - period + 1;
    }
  return lanes;
}

std::size_t overlap(const PatternLane& a, const PatternLane& b) {
  return static_cast<std::size_t>(std::count_if(a.syllables.begin(), a.syllables.end(), [&](std::size_t column) {
    return std::find(b.syllables.begin(), b.syllables.end(), column) != b.syllables.end();
  }));
}

int level_of(std::size_t quick, std::size_t slow) {
  if (quick == 1) return slow > 2 ? 2 : 1; // one lane never changes: only the other must be counted
  return slow % quick == 0 ? 2 : 3;
}

void add_step(std::vector<OutOfStep>& steps, const PatternLane& a, const PatternLane& b) {
  if (a.slot == b.slot || a.period == b.period || overlap(a, b) < shortest_stretch) return;
  OutOfStep step;
  step.quick = a.period < b.period ? a : b;
  step.slow = a.period < b.period ? b : a;
  step.level = level_of(step.quick.period, step.slow.period);
  step.text = to_text(static_cast<int>(step.slow.period)) + " against " + to_text(static_cast<int>(step.quick.period));
  steps.push_back(std::move(step));
}

/// One finding for each pair of lanes and place: the first (strongest) of those that share syllables stays.
void thin_out(std::vector<OutOfStep>& steps) {
  std::stable_sort(steps.begin(), steps.end(), [](const OutOfStep& a, const OutOfStep& b) {
    if (a.level != b.level) return a.level > b.level;
    return overlap(a.quick, a.slow) > overlap(b.quick, b.slow);
  });
  std::vector<OutOfStep> kept;
  for (const OutOfStep& step : steps)
    if (std::none_of(kept.begin(), kept.end(), [&](const OutOfStep& k) { return overlap(k.quick, step.quick) > 0; }))
      kept.push_back(step);
  steps = std::move(kept);
}

} // namespace

void find_lanes(const PatternParts& parts, Pattern& pattern) {
  for (const auto& reading : readings(parts.sequence)) {
    std::vector<PatternLane> found;
    for (Slot slot : all_slots)
      for (PatternLane& lane : stretches(parts, reading, slot)) found.push_back(std::move(lane));
    for (std::size_t i = 0; i < found.size(); ++i)
      for (std::size_t j = i + 1; j < found.size(); ++j) add_step(pattern.out_of_step, found[i], found[j]);
    for (Slot slot : all_slots) {
      const PatternLane* longest = nullptr;
      for (const PatternLane& lane : found)
        if (lane.slot == slot && (!longest || lane.syllables.size() > longest->syllables.size())) longest = &lane;
      const bool known = std::any_of(pattern.lanes.begin(), pattern.lanes.end(), [&](const PatternLane& l) { return l.slot == slot; });
      if (longest && !known) pattern.lanes.push_back(*longest);
    }
  }
  thin_out(pattern.out_of_step);
}

} // namespace mw
