#include "clash/measure_parts.h"

#include <algorithm>
#include <array>
#include <map>
#include <string>
#include <string_view>

namespace mw {

namespace {

using Lane = std::vector<std::string_view>; // keys of the sequence

Lane lane_of(const Sequence& sequence, Slot slot) {
  Lane lane;
  lane.reserve(sequence.syllables.size());
  for (const SequenceSyllable& syllable : sequence.syllables) lane.push_back(syllable.key(slot));
  return lane;
}

bool is_constant(const Lane& lane) {
  return std::all_of(lane.begin(), lane.end(), [&](std::string_view item) { return item == lane.front(); });
}

// Gaps longer than this are no pattern that a speaker could feel; four syllables hold one ABBA.
constexpr std::size_t longest_gap = 4;

/// Syllables to the next like item, within longest_gap; 0 when there is none.
std::size_t gap_after(const Lane& lane, std::size_t i, bool loop) {
  for (std::size_t d = 1; d <= longest_gap; ++d) {
    if (i + d >= lane.size() && !loop) return 0;
    if (lane[(i + d) % lane.size()] == lane[i]) return d;
  }
  return 0;
}

struct LaneOrder {
  double listness = 0; // 0 running text .. 1 a list that plays with few items
  double uneven = 0;   // 1: half the filled places or more hold items that come back after unequal gaps; less in part
  std::string pattern; // canonical: first item A, next new one B ...
};

std::string canonical(const Lane& lane) {
  std::vector<std::string_view> seen;
  std::string pattern;
  for (const std::string_view item : lane) {
    const auto found = std::find(seen.begin(), seen.end(), item);
    pattern += static_cast<char>('A' + std::min<std::ptrdiff_t>(found - seen.begin(), 25));
    if (found == seen.end()) seen.push_back(item);
  }
  return pattern;
}

LaneOrder order_of(const Lane& lane, bool loop) {
  LaneOrder order;
  order.pattern = canonical(lane);
  std::map<std::string_view, std::vector<std::size_t>> gaps; // item -> its gaps
  std::size_t filled = 0, covered = 0, uneven = 0;
  for (std::size_t i = 0; i < lane.size(); ++i) {
    if (lane[i].empty()) continue;
    ++filled;
    if (const std::size_t gap = gap_after(lane, i, loop)) gaps[lane[i]].push_back(gap);
  }
  for (const std::string_view item : lane) {
    const auto known = gaps.find(item);
    if (item.empty() || known == gaps.end()) continue;
    const auto& g = known->second;
    ++covered;
    if (std::adjacent_find(g.begin(), g.end(), std::not_equal_to<>()) != g.end()) ++uneven;
  }
  if (filled < 2 || is_constant(lane)) return order;
  // Half the places coming back is ordinary text, nine in ten a list; in between it counts in part (our own choice).
  order.listness = std::clamp((static_cast<double>(covered) / static_cast<double>(filled) - .5) / .4, 0.0, 1.0);
  order.uneven = std::min(1.0, 2 * static_cast<double>(uneven) / static_cast<double>(filled));
  return order;
}

/// Smallest number of places after which the lane comes round, at least twice (in a loop: once); 0 when it never does.
template <typename Items> std::size_t lane_period(const Items& lane, bool loop) {
  const std::size_t n = lane.size();
  for (std::size_t p = 1; p <= n; ++p) {
    if (loop ? n % p != 0 : 2 * p > n) continue;
    bool fits = true;
    for (std::size_t i = 0; i + p < n && fits; ++i) fits = lane[i] == lane[i + p];
    if (fits) return p;
  }
  return 0;
}

// Longest loop that is heard as one pattern; beyond it the parity of a sentence means nothing.
constexpr std::size_t longest_loop = 5;

} // namespace

/// Lanes that follow one pattern move together (whole words in turn) and are one alternation.
double order_factor(const Sequence& sequence, const DifficultyData& data) {
  double value = 0, listness = 0;
  std::vector<std::string> patterns;
  for (Slot slot : all_slots) {
    const LaneOrder order = order_of(lane_of(sequence, slot), sequence.loop);
    if (order.listness <= 0) continue;
    listness = patterns.empty() ? order.listness : std::min(listness, order.listness);
    if (std::find(patterns.begin(), patterns.end(), order.pattern) != patterns.end()) continue;
    patterns.push_back(order.pattern);
    value += data.weight("unequal_gaps") * order.listness * order.uneven;
  }
  if (patterns.size() > 1)
    value += data.weight("extra_pattern") * static_cast<double>(patterns.size() - 1) * listness;
  return value;
}

double grouping_factor(const Sequence& sequence, bool competes, const DifficultyData& data) {
  double value = 0;
  const std::size_t period = repeat_period(sequence);
  if (competes && period > 2 && period <= longest_loop && period % 2 == 1) value += data.weight("odd_period");
  std::size_t alternation = 0;
  for (Slot slot : {Slot::onset, Slot::coda}) { // what takes turns is consonants; weak vowels alternate in any text
    const Lane lane = lane_of(sequence, slot);
    if (std::find(lane.begin(), lane.end(), std::string_view()) != lane.end()) continue;
    const std::size_t p = lane_period(lane, sequence.loop);
    if (p > 1 && p <= longest_loop) alternation = std::max(alternation, p);
  }
  if (alternation == 0) return value;
  std::size_t groups = 0, misfits = 0, length = 0;
  for (std::size_t i = 0; i < sequence.syllables.size(); ++i) {
    ++length;
    if (!sequence.syllables[i].group_final && i + 1 < sequence.syllables.size()) continue;
    ++groups;
    misfits += length % alternation != 0 ? 1 : 0;
    length = 0;
  }
  return value + data.weight("group_mismatch") * static_cast<double>(misfits) / static_cast<double>(groups);
}

std::size_t repeat_period(const Sequence& sequence) {
  std::vector<std::array<std::string_view, 3>> whole;
  whole.reserve(sequence.syllables.size());
  for (const SequenceSyllable& s : sequence.syllables) whole.push_back({s.keys[0], s.keys[1], s.keys[2]});
  const std::size_t period = lane_period(whole, sequence.loop);
  return period == 0 ? whole.size() : period;
}

} // namespace mw
