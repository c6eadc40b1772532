#pragma once

#include "base/result.h"

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace mw {

/// One of our own lines against which every phrase is measured (assets/difficulty/reference_phrases.csv).
struct ReferencePhrase {
  std::string text, ipa;
  bool hard = false; // composed to be hard
};

/// The numbers of the measure, from assets/difficulty/weights.csv: a coach may change them.
struct DifficultyData {
  std::map<std::string, double, std::less<>> weights;
  std::vector<ReferencePhrase> reference;
  std::vector<std::string> common_clusters; // keys joined by spaces (assets/difficulty/onset_clusters.csv)
  /// A weight by name; a missing row is a broken installation and was refused when the file was read.
  [[nodiscard]] double weight(std::string_view name) const;
};

/// Parses the tables; Problem (input) names file, line and reason: a row that is no number, a missing or unknown name.
Result<DifficultyData> parse_difficulty_data(std::string_view weights_csv, std::string_view reference_csv,
                                             std::string_view clusters_csv);

/// The shipped tables, read once. Problem (missing) when the installation is broken.
const Result<DifficultyData>& difficulty_data();

} // namespace mw
