#pragma once

#include "clash/measure.h"

namespace mw {

/// What the reference list measures: the scale on which a phrase is placed.
struct Norms {
  std::array<double, bar_count> hard_end{}; // raw bar of the hard end: the 95th percentile of the list
  std::array<double, bar_count> mean{}, spread{};
  std::array<double, factor_count> factor_mean{};
  double load_end = 1; // raw load of a sound that counts as full
};

/// Measures every reference line (said once). Problem (input) names a line whose IPA cannot be read.
Result<Norms> norms_of(const DifficultyData& data);

/// The norms of the shipped tables, computed once.
const Result<Norms>& difficulty_norms();

/// The four bars of a raw measure: raw over hard end, in the order of Bar.
std::array<double, bar_count> bars_of(const Measure& measure, const Norms& norms);

/// The weighted order number, 0..1: weighted z scores over the reference list, through the logistic curve so that it
/// never leaves its range. For sorting only.
double overall_of(const Measure& measure, const DifficultyData& data, const Norms& norms);

/// easy, moderate, demanding, very demanding.
std::string label_of(double overall, const DifficultyData& data);

/// The same words for one bar, cut where the list's bars are cut by the label's limits.
std::string bar_word_of(Bar bar, const Measure& measure, const DifficultyData& data, const Norms& norms);

/// How much a factor pushes the order number above an average line; for choosing reasons.
double push_of(Factor factor, const Measure& measure, const DifficultyData& data, const Norms& norms);

} // namespace mw
