#include "clash/measure_parts.h"

#include <algorithm>

namespace mw {

namespace {

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
    returns.push_back(std::move(runs[i].made));
  }
}

} // namespace

double ceiling(Articulator articulator, const DifficultyData& data) {
  if (articulator == Articulator::lips) return data.weight("ceiling_lips");
  return data.weight(articulator == Articulator::tip ? "ceiling_tip" : "ceiling_body");
}

std::vector<Return> find_returns(const Sequence& sequence) {
  const std::vector<Step> steps = consonant_steps(sequence);
  std::vector<Return> returns;
  for (Articulator articulator : {Articulator::lips, Articulator::tip, Articulator::body})
    add_returns(steps, articulator, sequence, returns);
  return returns;
}

} // namespace mw
