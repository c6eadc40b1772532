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

std::string bar_word_of(Bar bar, const Measure& measure, const DifficultyData& data, const Norms& norms) {
  const auto b = static_cast<std::size_t>(bar);
  return label_of(1 / (1 + std::exp(-(measure.bar(bar) - norms.mean[b]) / norms.spread[b])), data);
}

double push_of(Factor factor, const Measure& measure, const DifficultyData& data, const Norms& norms) {
  const auto f = static_cast<std::size_t>(factor);
  const auto b = static_cast<std::size_t>(factors()[f].bar);
  return data.weight(bar_weights[b]) * (measure.factor[f] - norms.factor_mean[f]) / norms.spread[b];
}

} // namespace mw
