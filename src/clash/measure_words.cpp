#include "clash/measure_parts.h"

#include "clash/similarity.h"

#include <algorithm>

namespace mw {

namespace {

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

bool starts_with_articulator(const SequenceSyllable& syllable, Articulator articulator) {
  return !syllable.onset.empty() && syllable.onset[0].facts.articulator == articulator;
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

} // namespace

double rare_start_factor(const Sequence& sequence, const DifficultyData& data) {
  double rare = 0;
  for (const SequenceSyllable& s : sequence.syllables) {
    if (s.onset.size() < 2) continue;
    const auto& common = data.common_clusters;
    rare += std::find(common.begin(), common.end(), cluster_of(s.onset)) == common.end() ? 1 : 0;
  }
  return data.weight("rare_cluster") * rare / static_cast<double>(sequence.syllables.size());
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

} // namespace mw
