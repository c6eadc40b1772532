#pragma once

#include "clash/measure.h"

namespace mw {

/// What the reference list measures: the scale on which a phrase is placed.
struct Norms {
  std::array<double, bar_count> hard_end{}; // raw bar of the hard end: the 95th percentile of the list
  std::array<double, bar_count> mean{}, spread{};
  std::array<double, factor_count> factor_mean{};
  std::array<std::array<double, 3>, bar_count> cuts{}; // raw bar where moderate, demanding, very demanding begin
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

/// Where a bar ends on a rule whose quarters are the four words, 0..1; the hard end of the list is the end of the rule.
/// The words are cut so that each holds the same share of the list's lines in every bar as in the label.
double bar_length_of(Bar bar, const Measure& measure, const Norms& norms);
/// The word of that quarter.
std::string bar_word_of(double length);

/// How much a factor pushes the order number above an average line; for choosing reasons.
double push_of(Factor factor, const Measure& measure, const DifficultyData& data, const Norms& norms);

} // namespace mw
