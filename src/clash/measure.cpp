#include "clash/measure.h"

#include "clash/measure_parts.h"
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
