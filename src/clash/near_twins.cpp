#include "clash/measure.h"
#include "clash/pattern_parts.h"
#include "clash/similarity.h"
#include "clash/tell.h"

#include <algorithm>
#include <map>

namespace mw {

namespace {

// A single pull from here on is worth showing (s and ʃ in neighbouring starts: 0.79; t and d before the same vowel:
// 0.75; p and t before different vowels: 0.39); several weaker ones of the same pair count when they sum to the second
// figure. Chosen so that ordinary prose shows few.
constexpr double single_pull = 0.74, summed_pull = 1.15, counted_pull = 0.24;
constexpr double clear_sum = 1.15, strong_sum = 2.3;

/// Two slots are near twins when one sound differs, or when one has a sound more at an edge; nd and ŋz are not.
enum class Likeness { none, one_more, one_differs };

Likeness likeness(const std::vector<SequenceSound>& a, const std::vector<SequenceSound>& b) {
  if (a.size() == b.size()) {
    std::size_t differing = 0;
    for (std::size_t i = 0; i < a.size(); ++i) differing += a[i].facts.key != b[i].facts.key ? 1 : 0;
    return differing == 1 ? Likeness::one_differs : Likeness::none;
  }
  const auto& small = a.size() < b.size() ? a : b;
  const auto& large = a.size() < b.size() ? b : a;
  if (large.size() != small.size() + 1) return Likeness::none;
  const auto same = [](const SequenceSound& x, const SequenceSound& y) { return x.facts.key == y.facts.key; };
  const bool at_end = std::equal(small.begin(), small.end(), large.begin(), same);
  const bool at_start = std::equal(small.begin(), small.end(), large.begin() + 1, same);
  return at_end || at_start ? Likeness::one_more : Likeness::none;
}

/// The pulls of one pair of slot contents that follow each other closely.
struct Run {
  std::vector<const Competition*> pulls;
  std::size_t last = 0; // last syllable reached
  double sum = 0, strongest = 0;
};

using PairKey = std::pair<std::string, std::string>;

PairKey pair_of(const PatternParts& parts, const Competition& c) {
  std::string a = parts.sequence.syllables[c.from].key(c.slot), b = parts.sequence.syllables[c.to].key(c.slot);
  return a < b ? PairKey{a, b} : PairKey{b, a};
}

bool is_counted(const PatternParts& parts, const Competition& c) {
  return likeness(parts.sequence.syllables[c.from].at(c.slot), parts.sequence.syllables[c.to].at(c.slot)) != Likeness::none;
}

/// The pull; half of it where one side only has a sound more (t, ts): the sounds themselves are not alike.
double value_of(const PatternParts& parts, const Competition& c) {
  const auto &a = parts.sequence.syllables[c.from].at(c.slot), &b = parts.sequence.syllables[c.to].at(c.slot);
  return likeness(a, b) == Likeness::one_more ? c.value / 2 : c.value;
}

void extend(std::vector<Run>& runs, const Competition& c, double value, std::size_t reach) {
  if (runs.empty() || c.from > runs.back().last + reach) runs.emplace_back();
  Run& run = runs.back();
  run.pulls.push_back(&c);
  run.last = std::max({run.last, c.from, c.to});
  run.sum += value;
  run.strongest = std::max(run.strongest, value);
}

std::string shown(const std::vector<SequenceSound>& slot) {
  std::string ipa;
  for (const SequenceSound& sound : slot) ipa += sound.facts.ipa;
  return ipa;
}

/// What differs: of two clusters, the most similar pair of members that are not the same.
std::string text_of(const std::vector<SequenceSound>& a, const std::vector<SequenceSound>& b) {
  const SequenceSound *best_a = nullptr, *best_b = nullptr;
  double best = -1;
  for (const SequenceSound& x : a)
    for (const SequenceSound& y : b) {
      const double s = x.facts.key == y.facts.key ? -1 : similarity(x.facts, y.facts);
      if (s > best) best = s, best_a = &x, best_b = &y;
    }
  const std::string pair = shown(a) + ", " + shown(b);
  if (a.size() != b.size()) return pair + ": one sound more";
  return best_a ? pair + ": " + difference(best_a->facts, best_b->facts) : pair;
}

PatternLink link_of(const PatternParts& parts, const Run& run) {
  const Competition& first = *run.pulls.front();
  PatternLink link{.kind = LinkKind::near_twins, .slot = first.slot};
  for (const Competition* c : run.pulls)
    for (std::size_t column : {c->from, c->to}) link.syllables.push_back(column);
  std::sort(link.syllables.begin(), link.syllables.end());
  link.syllables.erase(std::unique(link.syllables.begin(), link.syllables.end()), link.syllables.end());
  for (std::size_t column : link.syllables)
    link.segments.push_back(parts.sequence.syllables[column].at(first.slot).front().segment);
  link.strength = run.sum;
  link.level = run.sum >= strong_sum ? 3 : run.sum >= clear_sum ? 2 : 1;
  link.text = text_of(parts.sequence.syllables[first.from].at(first.slot), parts.sequence.syllables[first.to].at(first.slot));
  return link;
}

} // namespace

std::vector<PatternLink> find_near_twins(const PatternParts& parts) {
  const auto& data = difficulty_data();
  if (!data) return {};
  const auto reach = static_cast<std::size_t>(data->weight("reach"));
  std::map<std::pair<int, PairKey>, std::vector<Run>> runs;
  for (const Competition& c : parts.competitions)
    if (c.slot != Slot::nucleus && c.value >= counted_pull && is_counted(parts, c))
      extend(runs[{static_cast<int>(c.slot), pair_of(parts, c)}], c, value_of(parts, c), reach);
  std::vector<PatternLink> links;
  for (const auto& [key, list] : runs)
    for (const Run& run : list)
      if (run.strongest >= single_pull || (run.pulls.size() > 1 && run.sum >= summed_pull)) links.push_back(link_of(parts, run));
  return links;
}

} // namespace mw
