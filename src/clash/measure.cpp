#include "clash/measure.h"

#include "clash/similarity.h"

#include <algorithm>
#include <optional>

namespace mw {

namespace {

constexpr std::array<FactorRow, factor_count> factor_table{{
    {Factor::competition, "competition", Bar::slips},
    {Factor::order, "order", Bar::slips},
    {Factor::grouping, "grouping", Bar::slips},
    {Factor::reuse, "reuse", Bar::slowing},
    {Factor::shared_start, "shared start", Bar::slowing},
    {Factor::shared_end, "shared end", Bar::slowing},
    {Factor::unit, "unit", Bar::slowing},
    {Factor::like_words, "like words", Bar::late_start},
    {Factor::closed, "closed syllables", Bar::drift},
    {Factor::tip_first, "tip first", Bar::drift},
    {Factor::rare_start, "rare start", Bar::slips},
}};

/// The weights of the pulls, looked up once: they are met for every pair of slots.
struct PullWeights {
  double onset, nucleus, coda, weak_syllable, shared_slot, back_near_front_vowel;
  [[nodiscard]] double of(Slot slot) const { return slot == Slot::onset ? onset : slot == Slot::coda ? coda : nucleus; }
};

PullWeights pull_weights(const DifficultyData& data) {
  return {.onset = data.weight("onset_weight"), .nucleus = data.weight("nucleus_weight"),
          .coda = data.weight("coda_weight"), .weak_syllable = data.weight("weak_syllable"),
          .shared_slot = data.weight("shared_slot"), .back_near_front_vowel = data.weight("back_near_front_vowel")};
}

/// Weak syllables pull less; vowels compete only between syllables of like stress (Shattuck-Hufnagel 1986).
double stress_factor(const SequenceSyllable& a, const SequenceSyllable& b, Slot slot, const PullWeights& weights) {
  const bool strong_a = a.stress > 0, strong_b = b.stress > 0;
  if (slot == Slot::nucleus) return strong_a == strong_b ? 1 : 0;
  return strong_a && strong_b ? 1 : weights.weak_syllable;
}

bool same(const SequenceSyllable& a, const SequenceSyllable& b, Slot slot) {
  return a.key(slot) == b.key(slot);
}

bool is_front(const SequenceSyllable& syllable) {
  return !syllable.nucleus.empty() && syllable.nucleus[0].facts.vowel && syllable.nucleus[0].facts.from.back < .4;
}

bool uses_back(const SequenceSyllable& syllable, Slot slot) {
  return std::any_of(syllable.at(slot).begin(), syllable.at(slot).end(), [](const SequenceSound& sound) {
    return !sound.facts.vowel && sound.facts.articulator == Articulator::body;
  });
}

std::optional<Competition> compete(const Sequence& sequence, std::size_t i, std::size_t distance, Slot slot,
                                   const PullWeights& weights) {
  const std::size_t n = sequence.syllables.size();
  if (i + distance >= n && !sequence.loop) return std::nullopt;
  const std::size_t j = (i + distance) % n;
  const SequenceSyllable &a = sequence.syllables[i], &b = sequence.syllables[j];
  if (a.at(slot).empty() || b.at(slot).empty() || same(a, b, slot)) return std::nullopt;
  Competition c{.from = i, .to = j, .slot = slot};
  c.similarity = similarity(a.at(slot), b.at(slot));
  for (Slot other : all_slots) c.shared += other != slot && !a.at(other).empty() && same(a, b, other) ? 1 : 0;
  c.value = weights.of(slot) * c.similarity * (1 + weights.shared_slot * c.shared) *
            stress_factor(a, b, slot, weights) / static_cast<double>(distance);
  if (slot != Slot::nucleus && uses_back(a, slot) != uses_back(b, slot) && is_front(a) && is_front(b))
    c.value *= weights.back_near_front_vowel;
  return c.value > 0 ? std::optional(c) : std::nullopt;
}

// --- order: what one lane does over the phrase ---

using Lane = std::vector<std::string>;

Lane lane_of(const Sequence& sequence, Slot slot) {
  Lane lane;
  for (const SequenceSyllable& syllable : sequence.syllables) lane.push_back(syllable.key(slot));
  return lane;
}

bool is_constant(const Lane& lane) {
  return std::all_of(lane.begin(), lane.end(), [&](const std::string& item) { return item == lane.front(); });
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
  std::vector<std::string> seen;
  std::string pattern;
  for (const std::string& item : lane) {
    const auto found = std::find(seen.begin(), seen.end(), item);
    pattern += static_cast<char>('A' + std::min<std::ptrdiff_t>(found - seen.begin(), 25));
    if (found == seen.end()) seen.push_back(item);
  }
  return pattern;
}

LaneOrder order_of(const Lane& lane, bool loop) {
  LaneOrder order;
  order.pattern = canonical(lane);
  std::map<std::string, std::vector<std::size_t>> gaps; // item -> its gaps
  std::size_t filled = 0, covered = 0, uneven = 0;
  for (std::size_t i = 0; i < lane.size(); ++i) {
    if (lane[i].empty()) continue;
    ++filled;
    if (const std::size_t gap = gap_after(lane, i, loop)) gaps[lane[i]].push_back(gap);
  }
  for (const std::string& item : lane) {
    if (item.empty() || !gaps.contains(item)) continue;
    const auto& g = gaps[item];
    ++covered;
    if (std::adjacent_find(g.begin(), g.end(), std::not_equal_to<>()) != g.end()) ++uneven;
  }
  if (filled < 2 || is_constant(lane)) return order;
  // Half the places coming back is ordinary text, nine in ten a list; in between it counts in part (our own choice).
  order.listness = std::clamp((static_cast<double>(covered) / static_cast<double>(filled) - .5) / .4, 0.0, 1.0);
  order.uneven = std::min(1.0, 2 * static_cast<double>(uneven) / static_cast<double>(filled));
  return order;
}

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

/// r-sounds are one in the table of clusters.
std::string cluster_of(const std::vector<SequenceSound>& onset) {
  std::string cluster;
  for (const SequenceSound& sound : onset) {
    const std::string& key = sound.facts.key;
    const bool r = key == "r" || key == "ʁ" || key == "ʀ" || key == "ɾ" || key == "ɻ";
    cluster += (cluster.empty() ? "" : " ") + (r ? std::string("ɹ") : key);
  }
  return cluster;
}

double rare_start_factor(const Sequence& sequence, const DifficultyData& data) {
  double rare = 0;
  for (const SequenceSyllable& s : sequence.syllables) {
    if (s.onset.size() < 2) continue;
    const auto& common = data.common_clusters;
    rare += std::find(common.begin(), common.end(), cluster_of(s.onset)) == common.end() ? 1 : 0;
  }
  return data.weight("rare_cluster") * rare / static_cast<double>(sequence.syllables.size());
}

/// Smallest number of places after which the lane comes round, at least twice (in a loop: once); 0 when it never does.
std::size_t lane_period(const Lane& lane, bool loop) {
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

double grouping_factor(const Sequence& sequence, bool competes, const DifficultyData& data) {
  double value = 0;
  const std::size_t period = repeat_period(sequence);
  if (competes && period > 2 && period <= longest_loop && period % 2 == 1) value += data.weight("odd_period");
  std::size_t alternation = 0;
  for (Slot slot : {Slot::onset, Slot::coda}) { // what takes turns is consonants; weak vowels alternate in any text
    const Lane lane = lane_of(sequence, slot);
    if (std::find(lane.begin(), lane.end(), std::string()) != lane.end()) continue;
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

// --- slowing ---

double ceiling(Articulator articulator, const DifficultyData& data) {
  if (articulator == Articulator::lips) return data.weight("ceiling_lips");
  return data.weight(articulator == Articulator::tip ? "ceiling_tip" : "ceiling_body");
}

struct WordEdge {
  std::string onset{}, coda{}, last_nucleus{}, first_nucleus{}, all{};
};

std::vector<WordEdge> word_edges(const Sequence& sequence) {
  std::vector<WordEdge> edges;
  int word = -1;
  for (const SequenceSyllable& s : sequence.syllables) {
    if (s.word != word) {
      edges.push_back({.onset = s.key(Slot::onset), .first_nucleus = s.key(Slot::nucleus)});
      word = s.word;
    }
    edges.back().coda = s.key(Slot::coda);
    edges.back().last_nucleus = s.key(Slot::nucleus);
    edges.back().all += s.key(Slot::onset) + '/' + s.key(Slot::nucleus) + '/' + s.key(Slot::coda) + '.';
  }
  return edges;
}

/// Cues between neighbouring words, a word: shared starts (first) and shared ends (second).
std::pair<double, double> word_cues(const Sequence& sequence, const DifficultyData& data) {
  const std::vector<WordEdge> edges = word_edges(sequence);
  double starts = 0, ends = 0;
  const std::size_t pairs = sequence.loop ? edges.size() : edges.size() - 1;
  for (std::size_t i = 0; i < pairs; ++i) {
    const WordEdge &a = edges[i], &b = edges[(i + 1) % edges.size()];
    if (!a.onset.empty() && a.onset == b.onset && a.all != b.all)
      starts += data.weight("same_start") + (a.first_nucleus == b.first_nucleus ? data.weight("same_start_vowel") : 0);
    if (!a.coda.empty() && a.coda == b.coda)
      ends += data.weight("same_end") + (a.last_nucleus == b.last_nucleus ? data.weight("same_end_vowel") : 0);
  }
  const double n = static_cast<double>(edges.size());
  return {starts / n, ends / n};
}

// --- late start ---

/// How much the second syllable resembles the first where they differ.
double likeness(const SequenceSyllable& a, const SequenceSyllable& b, const DifficultyData& data) {
  double sum = 0;
  const bool same_end = same(a, b, Slot::coda);
  for (Slot slot : all_slots) {
    if (same(a, b, slot)) continue;
    const double s = similarity(a.at(slot), b.at(slot));
    sum += slot == Slot::nucleus ? s * data.weight(same_end ? "vowel_same_end" : "vowel_other_end") : s;
  }
  return sum;
}

// Getting started depends on the first few beats; each further one counts half of the one before (our own choice).
constexpr std::size_t first_beats = 4;

double like_words_factor(const Sequence& sequence, const DifficultyData& data) {
  std::vector<const SequenceSyllable*> beats;
  for (const SequenceSyllable& s : sequence.syllables)
    if (s.stress > 0) beats.push_back(&s);
  if (beats.size() < 2) {
    beats.clear();
    for (const SequenceSyllable& s : sequence.syllables) beats.push_back(&s);
  }
  double sum = 0, weights = 0, weight = 1;
  for (std::size_t i = 0; i + 1 < std::min(beats.size(), first_beats); ++i, weight /= 2) {
    sum += weight * likeness(*beats[i], *beats[i + 1], data);
    weights += weight;
  }
  return weights > 0 ? sum / weights : 0;
}

// --- drift ---

bool starts_with_articulator(const SequenceSyllable& syllable, Articulator articulator) {
  return !syllable.onset.empty() && syllable.onset[0].facts.articulator == articulator;
}

double tip_first_factor(const Sequence& sequence, const DifficultyData& data) {
  const auto& s = sequence.syllables;
  const auto tip_then_lips = [&](std::size_t i) {
    return starts_with_articulator(s[i], Articulator::tip) && starts_with_articulator(s[i + 1], Articulator::lips);
  };
  // A loop of two syllables is one unit from its first syllable on, however it is written.
  if (sequence.loop && repeat_period(sequence) == 2) return tip_then_lips(0) ? data.weight("tip_before_lips") : 0;
  double pairs = 0;
  for (std::size_t i = 0; i + 1 < s.size(); ++i) pairs += s[i].word == s[i + 1].word && tip_then_lips(i) ? 1 : 0;
  return data.weight("tip_before_lips") * std::min(1.0, 2 * pairs / static_cast<double>(s.size()));
}

double closed_factor(const Sequence& sequence, const DifficultyData& data) {
  const auto closed = std::count_if(sequence.syllables.begin(), sequence.syllables.end(),
                                    [](const SequenceSyllable& s) { return !s.coda.empty(); });
  return data.weight("closed_syllables") * static_cast<double>(closed) / static_cast<double>(sequence.syllables.size());
}

/// A consonant on its way through the phrase: syllable number, ends half a syllable later.
struct Step {
  const SoundFacts* facts = nullptr;
  std::size_t segment = 0;
  double place = 0;
  bool touches = false; // no vowel between it and the consonant before
  [[nodiscard]] bool uses(Articulator a) const { return facts->articulator == a || facts->also == a; }
};

std::vector<Step> consonant_steps(const Sequence& sequence) {
  std::vector<Step> steps;
  bool touches = false;
  const auto visit = [&](const std::vector<SequenceSound>& slot, double place) {
    for (const SequenceSound& sound : slot) {
      if (!sound.facts.vowel) steps.push_back({&sound.facts, sound.segment, place, touches});
      touches = !sound.facts.vowel;
    }
  };
  for (std::size_t i = 0; i < sequence.syllables.size(); ++i) {
    visit(sequence.syllables[i].onset, static_cast<double>(i));
    visit(sequence.syllables[i].nucleus, static_cast<double>(i) + .25);
    visit(sequence.syllables[i].coda, static_cast<double>(i) + .5);
  }
  if (!steps.empty()) steps.front().touches = sequence.loop && touches && !sequence.syllables[0].onset.empty();
  return steps;
}

// Two makings inside one cluster (the tip in "asks") are half a syllable apart at the least.
constexpr double least_gap = .5;

/// A return with the stretch of places it covers.
struct Run {
  Return made;
  double from = 0, to = 0;
  [[nodiscard]] double middle() const { return (from + to) / 2; }
};

std::vector<Run> runs_of(const std::vector<Step>& steps, Articulator articulator) {
  std::vector<Run> runs;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const Step& step = steps[i];
    if (!step.uses(articulator)) continue;
    const bool goes_on = i > 0 && step.touches && steps[i - 1].uses(articulator);
    if (!goes_on) runs.push_back({{articulator, {}, 0}, step.place, step.place});
    runs.back().made.segments.push_back(step.segment);
    runs.back().to = step.place;
  }
  return runs;
}

void add_returns(const std::vector<Step>& steps, Articulator articulator, const Sequence& sequence,
                 std::vector<Return>& returns) {
  std::vector<Run> runs = runs_of(steps, articulator);
  if (runs.empty()) return;
  const double length = static_cast<double>(sequence.syllables.size());
  // In a loop, sounds that touch over the seam are one return.
  const bool seam = sequence.loop && steps.front().touches && steps.front().uses(articulator) &&
                    steps.back().uses(articulator) && runs.size() > 1;
  if (seam) {
    for (std::size_t segment : runs.front().made.segments) runs.back().made.segments.push_back(segment);
    runs.back().to = runs.front().to + length;
    runs.erase(runs.begin());
  }
  for (std::size_t i = 0; i < runs.size(); ++i) {
    if (i > 0) runs[i].made.gap = std::max(least_gap, runs[i].middle() - runs[i - 1].middle());
    else if (sequence.loop) runs[i].made.gap = std::max(least_gap, runs[i].middle() + length - runs.back().middle());
    returns.push_back(runs[i].made);
  }
}

/// Shares the competitions and returns out over the segments that make them.
void spread_load(const Sequence& sequence, const std::vector<Return>& returns, const DifficultyData& data, Measure& m) {
  m.load.assign(sequence.segment_count, 0);
  for (const Competition& c : m.competitions)
    for (std::size_t syllable : {c.from, c.to})
      for (const SequenceSound& sound : sequence.syllables[syllable].at(c.slot)) m.load[sound.segment] += c.value / 2;
  for (const Return& r : returns)
    if (r.gap > 0)
      for (std::size_t segment : r.segments) m.load[segment] += 1 / (ceiling(r.articulator, data) * r.gap);
}

} // namespace

std::span<const FactorRow> factors() { return factor_table; }

double Measure::bar(Bar bar) const {
  double sum = bar == Bar::slowing ? base_s : 0;
  for (const FactorRow& row : factor_table)
    if (row.bar == bar) sum += of(row.factor);
  return std::max(0.0, sum);
}

std::vector<Competition> find_competitions(const Sequence& sequence, const DifficultyData& data) {
  std::vector<Competition> found;
  const auto reach = static_cast<std::size_t>(data.weight("reach"));
  const PullWeights weights = pull_weights(data);
  for (std::size_t i = 0; i < sequence.syllables.size(); ++i)
    for (std::size_t distance = 1; distance <= reach; ++distance)
      for (Slot slot : all_slots)
        if (auto c = compete(sequence, i, distance, slot, weights)) found.push_back(*c);
  return found;
}

std::vector<Return> find_returns(const Sequence& sequence) {
  const std::vector<Step> steps = consonant_steps(sequence);
  std::vector<Return> returns;
  for (Articulator articulator : {Articulator::lips, Articulator::tip, Articulator::body})
    add_returns(steps, articulator, sequence, returns);
  return returns;
}

std::size_t repeat_period(const Sequence& sequence) {
  Lane whole;
  for (const SequenceSyllable& s : sequence.syllables)
    whole.push_back(s.key(Slot::onset) + '/' + s.key(Slot::nucleus) + '/' + s.key(Slot::coda));
  const std::size_t period = lane_period(whole, sequence.loop);
  return period == 0 ? whole.size() : period;
}

Measure measure(const Sequence& sequence, const DifficultyData& data) {
  Measure m;
  if (sequence.syllables.empty()) return m;
  const double n = static_cast<double>(sequence.syllables.size());
  const auto put = [&](Factor f, double value) { m.factor[static_cast<std::size_t>(f)] = value; };

  // Slips.
  m.competitions = find_competitions(sequence, data);
  double pull = 0;
  for (const Competition& c : m.competitions) pull += c.value;
  put(Factor::competition, pull / n);
  put(Factor::order, order_factor(sequence, data));
  put(Factor::grouping, grouping_factor(sequence, pull > 0, data));

  put(Factor::rare_start, rare_start_factor(sequence, data));

  // Slowing.
  const std::vector<Return> returns = find_returns(sequence);
  double reuse = 0;
  for (const Return& r : returns) reuse += r.gap > 0 ? 1 / (ceiling(r.articulator, data) * r.gap) : 0;
  const auto [starts, ends] = word_cues(sequence, data);
  put(Factor::reuse, reuse / n);
  put(Factor::shared_start, starts);
  put(Factor::shared_end, ends);
  put(Factor::unit, data.weight("unit_step") *
                        (std::min(static_cast<double>(repeat_period(sequence)), data.weight("unit_cap")) - 1));
  m.base_s = data.weight("base_syllable");

  // Late start, drift.
  put(Factor::like_words, like_words_factor(sequence, data));
  put(Factor::closed, closed_factor(sequence, data));
  put(Factor::tip_first, tip_first_factor(sequence, data));
  spread_load(sequence, returns, data, m);
  return m;
}

} // namespace mw
