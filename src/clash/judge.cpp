#include "clash/analysis.h"
#include "clash/norms.h"
#include "clash/reasons.h"

#include "base/text.h"
#include "clash/squeezed.h"

#include <algorithm>

namespace mw {

namespace {

/// Load of each sound, 0..1: its share of the order's pulls and of its articulator's returns; in a clash at least a
/// third for each level; a squeezed vowel a third for each time its limit.
std::vector<double> load_of(const Measure& m, const Norms& norms, const SegmentTrack& track, const Score& score,
                            const Motion& motion, const std::vector<Clash>& clashes) {
  std::vector<double> load;
  for (double raw : m.load) load.push_back(std::min(1.0, raw / norms.load_end));
  for (const Clash& clash : clashes)
    for (std::size_t segment : clash.segments)
      if (segment < load.size()) load[segment] = std::max(load[segment], clash.level / 3.0);
  for (const auto& [segment, miss] : squeezed_vowels(track, score, motion))
    if (segment < load.size()) load[segment] = std::max(load[segment], std::min(1.0, miss / 3));
  return load;
}

} // namespace

Difficulty judge(const Pronunciation& pronunciation, const SegmentTrack& track, const Score& score, const Motion& motion,
                 const std::vector<Clash>& clashes, const Analysis& analysis) {
  Difficulty d;
  const auto& data = difficulty_data();
  const auto& norms = difficulty_norms();
  if (!data || !norms) return d; // a broken installation: no label rather than a wrong one
  const Measure& m = analysis.measure;
  const auto bars = bars_of(m, *norms);
  d.slips = bars[0];
  d.slowing = bars[1];
  d.late_start = bars[2];
  d.drift = bars[3];
  d.overall = overall_of(m, *data, *norms);
  d.label = label_of(d.overall, *data);
  for (std::size_t b = 0; b < bar_count; ++b) {
    d.bar_lengths[b] = bar_length_of(static_cast<Bar>(b), m, *norms);
    d.bar_words[b] = bar_word_of(d.bar_lengths[b]);
  }
  d.scale = to_text(data->weight("scale"));
  d.reasons = reasons_of(m, analysis.sequence, pronunciation, track, *data, *norms);
  d.load = load_of(m, *norms, track, score, motion, clashes);
  return d;
}

} // namespace mw
