#pragma once

#include "anatomy/anatomy.h"
#include "base/assets.h"
#include "ipa/sound.h"

#include <functional>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

namespace mw {

/// Which articulator makes a consonant's constriction.
enum class Primary { none, lips, tip, body, glottis };

/// One row of a speaker's target table: the pose a sound asks for, and (consonants) how strongly and when it insists.
/// Columns and their meaning: tract-model.md section 10.
struct Target {
  std::string symbol;
  bool vowel = false;
  bool voiced = true;
  std::string place, manner; // consonants; manner as in consonants.csv
  Pose pose;
  double jaw_weight = 0, lips_weight = 0, body_x_weight = 0, body_y_weight = 0, root_weight = 0, tip_weight = 0,
         velum_weight = 0, larynx_weight = 0;
  Primary primary = Primary::none;
  double effective_from = 0, effective_to = 1; // stretch of the segment in which the constriction counts
  double time_scale = 1, body_lead_s = 0;
  std::string second_phase; // affricates: row of the second half
  std::optional<double> gap_min, gap_max; // mm, allowed opening at the constriction
};

/// All rows of one speaker. Weights of other speakers are the male ones, by symbol.
struct TargetTable {
  std::vector<Target> consonants, vowels;
  struct Glide { std::string symbol; bool closing = false; Target start, end; };
  std::vector<Glide> glides;
  std::unordered_map<std::string, std::size_t> consonant_at{}, vowel_at{}; // rows by symbol, the first of each
  [[nodiscard]] const Target* consonant(std::string_view symbol) const;
  [[nodiscard]] const Target* vowel(std::string_view symbol) const;
  [[nodiscard]] const Glide* glide(std::string_view symbol) const;
};
/// Cached per speaker. Problem (missing) when the installation is broken.
Result<std::shared_ptr<const TargetTable>> read_targets(const Anatomy& anatomy);
/// The same from tables of one's own: `open` gives consonants.csv, vowels.csv or glides.csv of a speaker. Not cached.
using OpenTable = std::function<Result<CsvTable>(const std::string& speaker, const std::string& name)>;
Result<TargetTable> read_targets(const Anatomy& anatomy, const OpenTable& open);

/// The row for a sound with all its marks applied (dental, labialised, ...). Every letter of the inventory has one.
/// A glide gives its start; `at_end` its end. Problem (input) names a sound that has no row.
Result<Target> target_of(const Anatomy& anatomy, const TargetTable& table, const Sound& sound, bool at_end = false);

/// The pose in which `shape` draws a sound.
Result<Pose> pose_of(const Anatomy& anatomy, const TargetTable& table, const Sound& sound, bool at_end = false);

} // namespace mw
