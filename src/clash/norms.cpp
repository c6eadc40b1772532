#include "clash/norms.h"

#include "base/text.h"

#include <algorithm>
#include <cmath>

namespace mw {

namespace {

constexpr std::array<std::string_view, bar_count> bar_weights{"overall_slips", "overall_slowing", "overall_late_start",
                                                              "overall_drift"};

double percentile(std::vector<double> values, double share) {
  std::sort(values.begin(), values.end());
  const double at = share * static_cast<double>(values.size() - 1);
  const auto low = static_cast<std::size_t>(at);
  const std::size_t high = std::min(low + 1, values.size() - 1);
  return values[low] + (at - static_cast<double>(low)) * (values[high] - values[low]);
}

double mean_of(const std::vector<double>& values) {
  double sum = 0;
  for (double v : values) sum += v;
  return sum / static_cast<double>(values.size());
}

double spread_of(const std::vector<double>& values) {
  const double mean = mean_of(values);
  double sum = 0;
  for (double v : values) sum += (v - mean) * (v - mean);
  return std::sqrt(sum / static_cast<double>(values.size()));
}

Result<std::vector<Measure>> measure_reference(const DifficultyData& data) {
  std::vector<Measure> measures;
  for (const ReferencePhrase& phrase : data.reference) {
    const auto words = parse_transcription(phrase.ipa, Notation::ipa);
    if (!words) {
      Problem problem = words.error();
      problem.where = "reference line '" + phrase.text + "'";
      return problem;
    }
    measures.push_back(measure(sequence_of(*words, false), data));
  }
  return measures;
}

/// Cuts every bar where the label's limits cut the list: the same share of its lines lies below.
void cut_bars(Norms& norms, const std::vector<Measure>& measures, const DifficultyData& data) {
  static constexpr std::array<std::string_view, 3> limits{"label_moderate", "label_demanding", "label_very_demanding"};
  for (std::size_t l = 0; l < limits.size(); ++l) {
    const auto below = std::count_if(measures.begin(), measures.end(), [&](const Measure& m) { return overall_of(m, data, norms) < data.weight(limits[l]); });
    const double share = static_cast<double>(below) / static_cast<double>(measures.size());
    for (std::size_t b = 0; b < bar_count; ++b) {
      std::vector<double> values;
      for (const Measure& m : measures) values.push_back(m.bar(static_cast<Bar>(b)));
      const double least = l == 0 ? 1e-9 : norms.cuts[b][l - 1] + 1e-9; // cuts never meet
      norms.cuts[b][l] = std::max(percentile(values, share), least);
    }
  }
}

} // namespace

Result<Norms> norms_of(const DifficultyData& data) {
  const auto measures = measure_reference(data);
  if (!measures) return measures.error();
  Norms norms;
  const auto column = [&](auto&& get) {
    std::vector<double> values;
    for (const Measure& m : *measures) values.push_back(get(m));
    return values;
  };
  for (std::size_t b = 0; b < bar_count; ++b) {
    const auto values = column([&](const Measure& m) { return m.bar(static_cast<Bar>(b)); });
    norms.hard_end[b] = std::max(percentile(values, .95), 1e-9);
    norms.mean[b] = mean_of(values);
    norms.spread[b] = std::max(spread_of(values), 1e-9);
  }
  for (std::size_t f = 0; f < factor_count; ++f)
    norms.factor_mean[f] = mean_of(column([&](const Measure& m) { return m.factor[f]; }));
  cut_bars(norms, *measures, data);
  std::vector<double> loads;
  for (const Measure& m : *measures) loads.insert(loads.end(), m.load.begin(), m.load.end());
  norms.load_end = std::max(percentile(loads, .99), 1e-9);
  return norms;
}

const Result<Norms>& difficulty_norms() {
  static const Result<Norms> norms = [] { return difficulty_data().and_then(norms_of); }();
  return norms;
}

std::array<double, bar_count> bars_of(const Measure& measure, const Norms& norms) {
  std::array<double, bar_count> bars{};
  for (std::size_t b = 0; b < bar_count; ++b) bars[b] = measure.bar(static_cast<Bar>(b)) / norms.hard_end[b];
  return bars;
}

double overall_of(const Measure& measure, const DifficultyData& data, const Norms& norms) {
  double sum = 0, weights = 0;
  for (std::size_t b = 0; b < bar_count; ++b) {
    const double weight = data.weight(bar_weights[b]);
    sum += weight * (measure.bar(static_cast<Bar>(b)) - norms.mean[b]) / norms.spread[b];
    weights += weight;
  }
  return 1 / (1 + std::exp(-sum / std::max(weights, 1e-9)));
}

std::string label_of(double overall, const DifficultyData& data) {
  if (overall >= data.weight("label_very_demanding")) return "very demanding";
  if (overall >= data.weight("label_demanding")) return "demanding";
  return overall >= data.weight("label_moderate") ? "moderate" : "easy";
}

double bar_length_of(Bar bar, const Measure& measure, const Norms& norms) {
  const auto& cuts = norms.cuts[static_cast<std::size_t>(bar)];
  const double end = std::max(norms.hard_end[static_cast<std::size_t>(bar)], cuts[2] + 1e-9);
  const std::array<double, 5> marks{0, cuts[0], cuts[1], cuts[2], end};
  const double value = measure.bar(bar);
  for (std::size_t i = 0; i + 1 < marks.size(); ++i)
    if (value < marks[i + 1]) return (static_cast<double>(i) + (value - marks[i]) / (marks[i + 1] - marks[i])) / 4;
  return 1;
}

std::string bar_word_of(double length) {
  static constexpr std::array<std::string_view, 4> words{"easy", "moderate", "demanding", "very demanding"};
  return std::string(words[std::min<std::size_t>(3, static_cast<std::size_t>(std::max(0.0, length) * 4))]);
}

double push_of(Factor factor, const Measure& measure, const DifficultyData& data, const Norms& norms) {
  const auto f = static_cast<std::size_t>(factor);
  const auto b = static_cast<std::size_t>(factors()[f].bar);
  return data.weight(bar_weights[b]) * (measure.factor[f] - norms.factor_mean[f]) / norms.spread[b];
}

} // namespace mw
