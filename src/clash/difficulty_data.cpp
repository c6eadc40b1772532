#include "clash/difficulty_data.h"

#include "base/assets.h"
#include "base/text.h"

#include <algorithm>
#include <array>

namespace mw {

namespace {

constexpr std::string_view weights_file = "difficulty/weights.csv";
constexpr std::string_view reference_file = "difficulty/reference_phrases.csv";

constexpr std::string_view clusters_file = "difficulty/onset_clusters.csv";

constexpr std::array<std::string_view, 37> weight_names{
    "scale",          "onset_weight",    "coda_weight",     "nucleus_weight",    "shared_slot",
    "reach",          "weak_syllable",   "back_near_front_vowel", "unequal_gaps", "extra_pattern",
    "group_mismatch", "odd_period",      "ceiling_lips",    "ceiling_tip",       "ceiling_body",
    "ceiling_spread", "phrase_mean",     "phrase_spread",   "base_syllable",     "same_start",
    "same_start_vowel", "same_end",      "same_end_vowel",  "unit_step",         "unit_cap",
    "vowel_same_end", "vowel_other_end", "closed_syllables", "tip_before_lips",  "overall_slips",
    "overall_slowing", "overall_late_start", "overall_drift", "label_moderate",  "label_demanding",
    "label_very_demanding", "rare_cluster"};

Problem broken(std::string_view file, std::size_t row, std::string what) {
  return {.kind = ProblemKind::input,
          .what = std::move(what),
          .where = std::string(file) + ", line " + to_text(static_cast<int>(row) + 2),
          .remedy = "put the row back as it was shipped"};
}

Result<Done> read_weights(const CsvTable& table, DifficultyData& data) {
  const auto name = table.column("name"), value = table.column("value");
  if (!name || !value) return broken(weights_file, 0, "the columns name and value are missing");
  for (std::size_t row = 0; row < table.rows.size(); ++row) {
    const std::string& key = table.rows[row][*name];
    const auto number = parse_number(table.rows[row][*value]);
    if (!number) return broken(weights_file, row, "the value of " + key + " is not a number");
    if (std::find(weight_names.begin(), weight_names.end(), key) == weight_names.end())
      return broken(weights_file, row, "there is no weight called " + key);
    data.weights[key] = *number;
  }
  for (std::string_view key : weight_names)
    if (!data.weights.contains(key))
      return broken(weights_file, table.rows.size(), "the weight " + std::string(key) + " is missing");
  return Done{};
}

Result<Done> read_reference(const CsvTable& table, DifficultyData& data) {
  const auto text = table.column("text"), ipa = table.column("ipa"), kind = table.column("kind");
  if (!text || !ipa || !kind) return broken(reference_file, 0, "the columns kind, text and ipa are missing");
  for (const auto& row : table.rows) data.reference.push_back({row[*text], row[*ipa], row[*kind] == "hard"});
  if (data.reference.size() < 10) return broken(reference_file, table.rows.size(), "fewer than ten reference lines");
  return Done{};
}

Result<Done> read_clusters(const CsvTable& table, DifficultyData& data) {
  const auto cluster = table.column("cluster"), use = table.column("use");
  if (!cluster || !use) return broken(clusters_file, 0, "the columns cluster and use are missing");
  for (const auto& row : table.rows)
    if (row[*use] == "common") data.common_clusters.push_back(row[*cluster]);
  return Done{};
}

Result<DifficultyData> read_shipped() {
  const auto weights = read_asset(std::string(weights_file));
  if (!weights) return weights.error();
  const auto reference = read_asset(std::string(reference_file));
  if (!reference) return reference.error();
  const auto clusters = read_asset(std::string(clusters_file));
  if (!clusters) return clusters.error();
  return parse_difficulty_data(*weights, *reference, *clusters);
}

} // namespace

double DifficultyData::weight(std::string_view name) const {
  const auto found = weights.find(name);
  MW_EXPECT(found != weights.end());
  return found->second;
}

Result<DifficultyData> parse_difficulty_data(std::string_view weights_csv, std::string_view reference_csv,
                                             std::string_view clusters_csv) {
  const auto weights = parse_csv(weights_csv, std::string(weights_file));
  if (!weights) return weights.error();
  const auto reference = parse_csv(reference_csv, std::string(reference_file));
  if (!reference) return reference.error();
  const auto clusters = parse_csv(clusters_csv, std::string(clusters_file));
  if (!clusters) return clusters.error();
  DifficultyData data;
  const auto first = read_weights(*weights, data);
  if (!first) return first.error();
  const auto second = read_reference(*reference, data);
  if (!second) return second.error();
  const auto third = read_clusters(*clusters, data);
  if (!third) return third.error();
  return data;
}

const Result<DifficultyData>& difficulty_data() {
  static const Result<DifficultyData> data = read_shipped();
  return data;
}

} // namespace mw
