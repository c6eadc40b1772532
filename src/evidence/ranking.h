#pragma once

#include "clash/clash.h"
#include "evidence/evidence.h"

#include <array>
#include <string_view>

namespace mw {

/// Two sequences that an experiment compared (assets/difficulty/ranking_pairs.csv).
struct RankingPair {
  std::string id, harder, easier; // IPA
  std::string axis;               // ERROR, VARIABILITY, RATE, DURATION, LATENCY, STABILITY; others are told, not judged
  std::string relation;           // harder, or no_reliable_difference
  std::string source, evidence;   // A, B or C
  std::string population, status;
};

/// What the measure and two simple counts say of a pair, said as a loop.
struct RankingOutcome {
  RankingPair pair;
  bool judged = false;        // the axis has a bar
  double harder = 0, easier = 0; // the axis's bar
  bool holds = false;            // strictly harder; no_reliable_difference: within null_tolerance
  bool movements_agree = false, consonants_agree = false; // the baselines
};
/// Difference of bars below which two sequences count as equally hard: about a third of the way to the hard end.
inline constexpr double null_tolerance = 0.3;

/// Problem (input) names the line whose IPA or axis cannot be read.
Result<std::vector<RankingOutcome>> judge_pairs(std::string_view csv);

/// Experiments on hard sequences beside the bars: every pair of evidence A holds on its own axis, 85 % of B; C is told.
Result<EvidenceTable> ranking_table();
/// The same for other pairs in the same columns.
Result<EvidenceTable> ranking_table(std::string_view csv);

} // namespace mw
