#include "clash/analysis.h"

#include "clash/features.h"
#include "clash/move_clashes.h"
#include "clash/pattern.h"
#include "clash/telling.h"

#include <algorithm>
#include <array>

namespace mw {

namespace {

struct KindRow {
  ClashKind kind;
  std::string_view name, learner;
};
constexpr std::array<KindRow, 7> kind_table{{
    {ClashKind::tug, "tug", "Tug"},
    {ClashKind::quick_return, "quick_return", "Quick return"},
    {ClashKind::swap, "swap", "Swap"},
    {ClashKind::near_twins, "near_twins", "Near twins"},
    {ClashKind::counter_move, "counter_move", "Counter-move"},
    {ClashKind::out_of_step, "out_of_step", "Out of step"},
    {ClashKind::accent_shift, "accent_shift", "Accent shift"},
}};

std::size_t shared_segments(const Clash& a, const Clash& b) {
  return static_cast<std::size_t>(std::count_if(a.segments.begin(), a.segments.end(), [&](std::size_t segment) {
    return std::binary_search(b.segments.begin(), b.segments.end(), segment);
  }));
}

/// Swaps of the same stretch are one: where starts and ends are both exchanged, each pair would be told again.
bool same_stretch(const Clash& a, const Clash& b) {
  return a.kind == ClashKind::swap && std::min(a.end_s, b.end_s) - std::max(a.start_s, b.start_s) > 0;
}

/// Of clashes of one kind that speak of the same place (half of the smaller one's sounds), the strongest stays.
std::vector<Clash> merged(std::vector<Clash> clashes) {
  std::stable_sort(clashes.begin(), clashes.end(), stronger);
  std::vector<Clash> kept;
  for (Clash& clash : clashes) {
    const bool told = std::any_of(kept.begin(), kept.end(), [&](const Clash& k) {
      if (k.kind != clash.kind) return false;
      return same_stretch(k, clash) || 2 * shared_segments(k, clash) >= std::min(k.segments.size(), clash.segments.size());
    });
    if (!told) kept.push_back(std::move(clash));
  }
  return kept;
}

using SoundPair = std::pair<std::string, std::string>;

/// The two sounds that near twins speak of.
SoundPair twins_of(const Clash& clash, const SegmentTrack& track) {
  const std::string first = facts_of(track.segments[clash.segments.front()].sound).key;
  for (std::size_t segment : clash.segments)
    if (std::string other = facts_of(track.segments[segment].sound).key; other != first)
      return first < other ? SoundPair{first, other} : SoundPair{other, first};
  return {first, first};
}

// Twins of the same two sounds within this time are one clash: a student cannot attend to the second apart.
constexpr double twin_gap_s = .6;

/// Joins near twins of one pair that follow each other closely; told as the longest of them.
std::vector<Clash> twins_joined(std::vector<Clash> clashes, const SegmentTrack& track) {
  std::stable_sort(clashes.begin(), clashes.end(), [](const Clash& a, const Clash& b) {
    return a.segments.size() != b.segments.size() ? a.segments.size() > b.segments.size() : a.start_s < b.start_s;
  });
  std::vector<Clash> kept;
  for (Clash& clash : clashes) {
    const auto same = std::find_if(kept.begin(), kept.end(), [&](const Clash& k) {
      return k.kind == ClashKind::near_twins && clash.kind == ClashKind::near_twins &&
             std::max(k.start_s, clash.start_s) - std::min(k.end_s, clash.end_s) < twin_gap_s &&
             twins_of(k, track) == twins_of(clash, track);
    });
    if (same == kept.end()) { kept.push_back(std::move(clash)); continue; }
    same->start_s = std::min(same->start_s, clash.start_s);
    same->end_s = std::max(same->end_s, clash.end_s);
    same->level = std::max(same->level, clash.level);
    same->strength += clash.strength;
    same->segments.insert(same->segments.end(), clash.segments.begin(), clash.segments.end());
    std::sort(same->segments.begin(), same->segments.end());
    same->segments.erase(std::unique(same->segments.begin(), same->segments.end()), same->segments.end());
  }
  return kept;
}

} // namespace

std::string_view to_text(ClashKind kind) { return kind_table[static_cast<std::size_t>(kind)].name; }
std::string_view learner_name(ClashKind kind) { return kind_table[static_cast<std::size_t>(kind)].learner; }

bool stronger(const Clash& a, const Clash& b) {
  if (a.level != b.level) return a.level > b.level;
  if (a.kind != b.kind) return a.kind < b.kind;
  if (a.strength != b.strength) return a.strength > b.strength;
  if (a.start_s != b.start_s) return a.start_s < b.start_s;
  return a.segments < b.segments;
}

std::vector<Clash> find_clashes(const Pronunciation& pronunciation, const SegmentTrack& track, const Score& score,
                                const Analysis& analysis) {
  const Pattern pattern = find_pattern(analysis.sequence, analysis.measure.competitions);
  std::vector<Clash> clashes = pattern_clashes(pronunciation, track, pattern);
  std::vector<Clash> moves = move_clashes(pronunciation, track, score);
  clashes.insert(clashes.end(), std::make_move_iterator(moves.begin()), std::make_move_iterator(moves.end()));
  return merged(twins_joined(std::move(clashes), track));
}

} // namespace mw
