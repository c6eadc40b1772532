#pragma once

#include "anatomy/anatomy.h"
#include "support/data.h"

/// The target rows of every speaker as poses.
namespace mw::test {

struct Target {
  std::shared_ptr<const Anatomy> anatomy;
  std::string table;  // consonants, vowels, glides
  std::string symbol; // glides: symbol and half
  Row row;
  Row male_row;       // place, manner and limits stand in the male table only
  Pose pose;
  [[nodiscard]] std::string label() const { return anatomy->id + " " + table + " " + symbol; }
};

struct PoseColumn {
  const char* name;
  double Pose::*value;
};
inline constexpr PoseColumn pose_columns[] = {
    {"jaw_open", &Pose::jaw_opening},      {"lip_aperture", &Pose::lip_opening}, {"lip_protrusion", &Pose::lip_protrusion},
    {"lip_round", &Pose::lip_rounding},    {"lip_tuck", &Pose::lip_tuck},        {"tip_x", &Pose::tip_x},
    {"tip_y", &Pose::tip_y},               {"tip_curl", &Pose::tip_curl},        {"blade", &Pose::blade},
    {"body_x", &Pose::body_x},             {"body_y", &Pose::body_y},            {"root", &Pose::root},
    {"sides", &Pose::sides},               {"velum", &Pose::velum},              {"larynx", &Pose::larynx},
    {"glottis", &Pose::glottis},           {"epiglottis", &Pose::epiglottis},    {"groove", &Pose::groove},
};

inline Pose pose_of(const Row& row, const Pose& rest) {
  Pose pose = rest;
  for (const PoseColumn& column : pose_columns)
    if (row.has(column.name)) pose.*column.value = row.number(column.name);
  return pose;
}

/// All rows of one speaker's table, in file order.
inline std::vector<Target> targets(const std::shared_ptr<const Anatomy>& anatomy, const std::string& table) {
  std::map<std::string, Row> male;
  const auto key = [&](const Row& row) {
    return row.has("half") ? row.at("symbol") + " " + row.at("half") : row.at("symbol");
  };
  for (const Row& row : asset_table("speakers/adult-male/" + table + ".csv")) male[key(row)] = row;
  std::vector<Target> out;
  for (const Row& row : asset_table("speakers/" + anatomy->id + "/" + table + ".csv"))
    out.push_back({anatomy, table, key(row), row, male.at(key(row)), pose_of(row, anatomy->rest)});
  return out;
}

/// Every row of every speaker.
inline std::vector<Target> all_targets() {
  std::vector<Target> out;
  for (const auto& anatomy : speakers())
    for (const char* table : {"consonants", "vowels", "glides"})
      for (Target& target : targets(anatomy, table)) out.push_back(std::move(target));
  return out;
}

} // namespace mw::test
