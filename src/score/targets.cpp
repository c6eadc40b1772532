#include "score/targets.h"

#include "base/assets.h"
#include "base/text.h"
#include "score/transfer.h"

#include <algorithm>
#include <map>
#include <mutex>

namespace mw {
namespace {
struct PoseColumn {
  std::string_view name;
  double Pose::*value;
};
constexpr std::array pose_columns{
    PoseColumn{"jaw_open", &Pose::jaw_opening},       PoseColumn{"lip_aperture", &Pose::lip_opening},
    PoseColumn{"lip_protrusion", &Pose::lip_protrusion}, PoseColumn{"lip_round", &Pose::lip_rounding},
    PoseColumn{"lip_tuck", &Pose::lip_tuck},          PoseColumn{"tip_x", &Pose::tip_x},
    PoseColumn{"tip_y", &Pose::tip_y},                PoseColumn{"tip_curl", &Pose::tip_curl},
    PoseColumn{"blade", &Pose::blade},                PoseColumn{"body_x", &Pose::body_x},
    PoseColumn{"body_y", &Pose::body_y},              PoseColumn{"root", &Pose::root},
    PoseColumn{"sides", &Pose::sides},                PoseColumn{"velum", &Pose::velum},
    PoseColumn{"larynx", &Pose::larynx},              PoseColumn{"glottis", &Pose::glottis},
    PoseColumn{"epiglottis", &Pose::epiglottis},      PoseColumn{"groove", &Pose::groove},
};
struct RowColumn {
  std::string_view name;
  double Target::*value;
};
constexpr std::array row_columns{
    RowColumn{"w_jaw", &Target::jaw_weight},     RowColumn{"w_lips", &Target::lips_weight},
    RowColumn{"w_bodyx", &Target::body_x_weight}, RowColumn{"w_bodyy", &Target::body_y_weight},
    RowColumn{"w_root", &Target::root_weight},   RowColumn{"w_tip", &Target::tip_weight},
    RowColumn{"w_velum", &Target::velum_weight}, RowColumn{"c0", &Target::effective_from},
    RowColumn{"c1", &Target::effective_to},      RowColumn{"t_scale", &Target::time_scale},
};
constexpr double voiced_glottis = 0.12; // tract-model.md section 3

Problem broken(const std::string& file, const std::string& what) {
  return {ProblemKind::missing, what, file, "install the program again"};
}

/// A table with its columns by name.
struct Table {
  std::string file;
  CsvTable csv;
  [[nodiscard]] std::string text(std::size_t row, std::string_view column) const {
    const auto at = csv.column(column);
    return at ? csv.rows[row][*at] : std::string();
  }
  [[nodiscard]] std::optional<double> number(std::size_t row, std::string_view column) const {
    return parse_number(text(row, column));
  }
};
Result<Table> open_table(const OpenTable& open, const std::string& speaker, const std::string& name) {
  auto csv = open(speaker, name);
  if (!csv) return csv.error();
  return Table{"speakers/" + speaker + "/" + name, std::move(*csv)};
}

/// The pose of a row; values the table does not hold stay at the speaker's rest, the voice at voiced.
Result<Pose> read_pose(const Table& table, std::size_t row, const Anatomy& anatomy) {
  Pose pose = anatomy.rest;
  pose.glottis = voiced_glottis;
  for (const auto& column : pose_columns) {
    if (!table.csv.column(column.name)) continue;
    const auto number = table.number(row, column.name);
    if (!number) return broken(table.file, "a value of row " + table.text(row, "symbol") + " is no number");
    pose.*column.value = *number;
  }
  return pose;
}

Primary parse_primary(const std::string& text) {
  return text == "lips" ? Primary::lips : text == "tip" ? Primary::tip : text == "body" ? Primary::body
       : text == "glottis" ? Primary::glottis : Primary::none;
}

/// A click is two closures: the back one insists on the body, the front one on tip or lips (tract-model.md section 10).
void complete_click(Target& t) {
  t.body_x_weight = 0.9;
  t.body_y_weight = 1;
  if (t.place == "bilabial") return;
  t.tip_weight = 1;
  t.primary = Primary::tip;
}

Result<Target> read_consonant(const Table& table, std::size_t row, const Anatomy& anatomy) {
  Target t;
  t.symbol = to_nfd(table.text(row, "symbol"));
  t.place = table.text(row, "place");
  t.manner = table.text(row, "manner");
  t.voiced = table.text(row, "voiced") == "1";
  for (const auto& column : row_columns) {
    const auto number = table.number(row, column.name);
    if (!number) return broken(table.file, "a weight of row " + t.symbol + " is no number");
    t.*column.value = *number;
  }
  t.body_lead_s = table.number(row, "lead_body_ms").value_or(0) * 0.001;
  t.primary = parse_primary(table.text(row, "prim"));
  t.second_phase = to_nfd(table.text(row, "phase2"));
  t.gap_min = table.number(row, "gap_min");
  t.gap_max = table.number(row, "gap_max");
  auto pose = read_pose(table, row, anatomy);
  if (!pose) return pose.error();
  t.pose = *pose;
  if (t.manner == "click") complete_click(t);
  return t;
}

/// Weights and timing stand in the male table only; other speakers' rows bring their own postures. Rows they lack are made
/// from the male ones.
Result<std::vector<Target>> read_consonants(const Anatomy& anatomy, const OpenTable& open) {
  const auto model = read_anatomy("adult-male");
  if (!model) return model.error();
  const auto male = open_table(open, "adult-male", "consonants.csv");
  if (!male) return male.error();
  const auto own = open_table(open, anatomy.id, "consonants.csv");
  if (!own) return own.error();
  std::map<std::string, std::size_t> rows;
  for (std::size_t i = 0; i < own->csv.rows.size(); ++i) rows[own->text(i, "symbol")] = i;
  std::vector<Target> out;
  for (std::size_t i = 0; i < male->csv.rows.size(); ++i) {
    auto target = read_consonant(*male, i, **model);
    if (!target) return target.error();
    if (const auto at = rows.find(male->text(i, "symbol")); at != rows.end()) {
      auto pose = read_pose(*own, at->second, anatomy);
      if (!pose) return pose.error();
      pose->groove = target->pose.groove * anatomy.tongue_scale;
      target->pose = *pose;
    } else target->pose = transfer(target->pose, **model, anatomy);
    // larynx raised or lowered by more than half a millimetre is part of the sound
    target->larynx_weight = std::abs(target->pose.larynx) > 0.5 ? 1 : 0;
    out.push_back(std::move(*target));
  }
  return out;
}

Result<Target> read_vowel(const Table& table, std::size_t row, const Anatomy& anatomy) {
  const auto pose = read_pose(table, row, anatomy);
  if (!pose) return pose.error();
  Target t;
  t.symbol = to_nfd(table.text(row, "symbol"));
  t.place = t.symbol;
  t.manner = "vowel";
  t.vowel = true;
  t.pose = *pose;
  return t;
}

Result<std::vector<Target>> read_vowels(const Anatomy& anatomy, const OpenTable& open) {
  const auto table = open_table(open, anatomy.id, "vowels.csv");
  if (!table) return table.error();
  std::vector<Target> out;
  for (std::size_t i = 0; i < table->csv.rows.size(); ++i) {
    auto target = read_vowel(*table, i, anatomy);
    if (!target) return target.error();
    out.push_back(std::move(*target));
  }
  return out;
}

Result<std::vector<TargetTable::Glide>> read_glides(const Anatomy& anatomy, const OpenTable& open) {
  const auto table = open_table(open, anatomy.id, "glides.csv");
  if (!table) return table.error();
  std::vector<TargetTable::Glide> out;
  for (std::size_t i = 0; i < table->csv.rows.size(); ++i) {
    auto target = read_vowel(*table, i, anatomy);
    if (!target) return target.error();
    if (out.empty() || out.back().symbol != target->symbol)
      out.push_back({target->symbol, table->text(i, "closing") == "1", {}, {}});
    (table->text(i, "half") == "start" ? out.back().start : out.back().end) = std::move(*target);
  }
  return out;
}
} // namespace

namespace {
using Rows = std::unordered_map<std::string, std::size_t>;

Rows rows_by_symbol(const std::vector<Target>& rows) {
  Rows at;
  for (std::size_t i = 0; i < rows.size(); ++i) at.try_emplace(rows[i].symbol, i);
  return at;
}

const Target* find_row(const std::vector<Target>& rows, const Rows& row_at, std::string_view symbol) {
  const auto at = row_at.find(std::string(symbol));
  return at == row_at.end() ? nullptr : &rows[at->second];
}
} // namespace

const Target* TargetTable::consonant(std::string_view symbol) const { return find_row(consonants, consonant_at, symbol); }
const Target* TargetTable::vowel(std::string_view symbol) const { return find_row(vowels, vowel_at, symbol); }
const TargetTable::Glide* TargetTable::glide(std::string_view symbol) const {
  const auto at = std::ranges::find(glides, symbol, &Glide::symbol);
  return at == glides.end() ? nullptr : &*at;
}

Result<TargetTable> read_targets(const Anatomy& anatomy, const OpenTable& open) {
  auto consonants = read_consonants(anatomy, open);
  if (!consonants) return consonants.error();
  auto vowels = read_vowels(anatomy, open);
  if (!vowels) return vowels.error();
  auto glides = read_glides(anatomy, open);
  if (!glides) return glides.error();
  TargetTable table{std::move(*consonants), std::move(*vowels), std::move(*glides)};
  table.consonant_at = rows_by_symbol(table.consonants);
  table.vowel_at = rows_by_symbol(table.vowels);
  return table;
}

Result<std::shared_ptr<const TargetTable>> read_targets(const Anatomy& anatomy) {
  static std::mutex lock;
  static std::map<std::string, std::shared_ptr<const TargetTable>> known;
  const std::lock_guard guard(lock);
  if (const auto at = known.find(anatomy.id); at != known.end()) return at->second;
  auto table = read_targets(anatomy, [](const std::string& speaker, const std::string& name) {
    return read_csv_asset("speakers/" + speaker + "/" + name);
  });
  if (!table) return table.error();
  return known[anatomy.id] = std::make_shared<const TargetTable>(std::move(*table));
}

} // namespace mw
