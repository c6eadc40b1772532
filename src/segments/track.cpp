#include "segments/track.h"

#include "segments/klatt.h"

#include <algorithm>
#include <cmath>

namespace mw {
namespace {
struct Flattener {
  std::vector<Segment> segments{};

  void add(const Sound& sound, int word, int syllable, Slot slot, int stress) {
    Segment segment;
    segment.sound = sound;
    segment.word = word;
    segment.syllable = syllable;
    segment.slot = slot;
    segment.stress = stress;
    segment.syllabic = slot == Slot::nucleus && !is_vowel(sound);
    segments.push_back(segment);
  }
  void add(const Word& word, int index) {
    const std::size_t first = segments.size();
    for (std::size_t k = 0; k < word.syllables.size(); ++k) {
      const Syllable& syllable = word.syllables[k];
      const int at = static_cast<int>(k);
      for (const auto& sound : syllable.onset) add(sound, index, at, Slot::onset, syllable.stress);
      add(syllable.nucleus, index, at, Slot::nucleus, syllable.stress);
      for (const auto& sound : syllable.coda) add(sound, index, at, Slot::coda, syllable.stress);
    }
    if (segments.size() == first) {
      if (word.group_end && !segments.empty()) segments.back().group_final = true;
      return;
    }
    segments[first].word_initial = true;
    segments.back().word_final = true;
    segments.back().group_final = word.group_end;
  }
};

double total_at(const std::vector<RuleDuration>& rules, const Tempo& tempo) {
  double total = 0;
  for (const auto& rule : rules) total += duration_at(rule, tempo);
  return total;
}

/// The tempo at which the sounds last `wanted` seconds together; the nearest end where they cannot.
Tempo tempo_for(const std::vector<RuleDuration>& rules, double wanted) {
  double low = std::log(1e-4), high = std::log(1e3);
  for (int i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2;
    (total_at(rules, Tempo(std::exp(middle))) < wanted ? low : high) = middle;
  }
  return Tempo(std::exp((low + high) / 2));
}

/// A comma's pause: 200 ms in the rules (rule 1), shorter in quick speech, longer in slow (common practice).
double pause_s(double rate) { return std::clamp(0.2 * 4.5 / rate, 0.08, 0.6); }
} // namespace

std::string_view to_text(Slot slot) {
  switch (slot) {
  case Slot::onset: return "onset";
  case Slot::nucleus: return "nucleus";
  case Slot::coda: return "coda";
  }
  return "";
}

SegmentTrack spell_out(const Pronunciation& pronunciation, const TimingSettings& settings) {
  Flattener flat;
  for (std::size_t i = 0; i < pronunciation.words.size(); ++i) flat.add(pronunciation.words[i], static_cast<int>(i));
  SegmentTrack track{std::move(flat.segments), lead_s + tail_s};
  if (track.segments.empty()) return track;
  track.segments.back().group_final = !settings.loop;

  // 1. lengths at the tempo that gives the rate asked for
  const auto rules = apply_rules(track.segments, settings.loop);
  const double rate = std::clamp(settings.rate, 1.0, 9.0);
  const auto syllables = std::count_if(track.segments.begin(), track.segments.end(),
                                       [](const Segment& segment) { return segment.slot == Slot::nucleus; });
  const Tempo tempo = tempo_for(rules, static_cast<double>(syllables) / rate);

  // 2. laid end to end, with a pause after each group
  double now = lead_s;
  for (std::size_t i = 0; i < rules.size(); ++i) {
    Segment& segment = track.segments[i];
    segment.start_s = now;
    segment.end_s = now + duration_at(rules[i], tempo);
    now = segment.end_s;
    if (segment.group_final && i + 1 < rules.size()) now += pause_s(rate);
  }
  track.duration_s = track.segments.back().end_s + tail_s;
  return track;
}

} // namespace mw
