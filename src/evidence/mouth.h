#pragma once

#include "acoustics/formants.h"
#include "base/assets.h"
#include "evidence/evidence.h"
#include "score/targets.h"
#include "tract/outline.h"

namespace mw {

/// A speaker with its targets and a pen to draw with: what every table asks its figures from.
struct Mouth {
  std::shared_ptr<const Anatomy> anatomy;
  std::shared_ptr<const TargetTable> targets;
  Tracer tracer;
};
Result<Mouth> read_mouth(const std::string& anatomy_id);

/// What a pose gives: its tube, its formants, the top of its tongue.
struct MouthFigures {
  AreaFunction tube;
  std::vector<double> formants{};
  double tongue_top = 0;
};
MouthFigures figures_of(Mouth& mouth, const Pose& pose);

/// Rows of a table in assets/evidence, cells by column name. A cell that is missing or no number is our own mistake.
struct PublishedTable {
  CsvTable csv;
  [[nodiscard]] std::size_t size() const { return csv.rows.size(); }
  [[nodiscard]] const std::string& text(std::size_t row, std::string_view column) const;
  [[nodiscard]] double number(std::size_t row, std::string_view column) const;
  [[nodiscard]] bool has(std::size_t row, std::string_view column) const;
};
Result<PublishedTable> read_published(const std::string& name);

/// Rows of the areas table on the constrictions of r and of the glides (constrictions.csv), appended to `table`.
Result<Done> add_constrictions(EvidenceTable& table, Mouth& mouth);

/// Rows of the formants table on a smaller head, appended to `table` and told in its summary: its vowels against the man's,
/// all shifted by the one factor that the lengths of the two tracts give. Not a comparison with measured voices.
Result<Done> add_smaller_head(EvidenceTable& table, Mouth& man, const std::string& id);

/// Signed distance (%) of a figure from the interval low..high; 0 inside.
double percent_outside(double value, double low, double high);
/// "inside", "+3.0 %".
std::string outside_text(double percent);

} // namespace mw
