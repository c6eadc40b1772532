#include "evidence/mouth.h"

#include "base/text.h"

#include <algorithm>

namespace mw {

Result<Mouth> read_mouth(const std::string& anatomy_id) {
  const auto anatomy = read_anatomy(anatomy_id);
  if (!anatomy) return anatomy.error();
  const auto targets = read_targets(**anatomy);
  if (!targets) return targets.error();
  return Mouth{*anatomy, *targets, Tracer(*anatomy)};
}

MouthFigures figures_of(Mouth& mouth, const Pose& pose) {
  const Outline& outline = mouth.tracer.trace(pose);
  MouthFigures figures{.tube = area_function(*mouth.anatomy, outline, pose)};
  figures.formants = formants_hz(figures.tube);
  figures.tongue_top = std::ranges::max_element(outline.dorsum, {}, &Vec2::y)->y;
  return figures;
}

Result<PublishedTable> read_published(const std::string& name) {
  auto csv = read_csv_asset("evidence/" + name);
  if (!csv) return csv.error();
  return PublishedTable{std::move(csv).value()};
}

const std::string& PublishedTable::text(std::size_t row, std::string_view column) const {
  const auto at = csv.column(column);
  MW_EXPECT(at.has_value());
  return csv.rows[row][*at];
}

double PublishedTable::number(std::size_t row, std::string_view column) const {
  const auto value = parse_number(text(row, column));
  MW_EXPECT(value.has_value());
  return *value;
}

bool PublishedTable::has(std::size_t row, std::string_view column) const { return !text(row, column).empty(); }

double percent_outside(double value, double low, double high) {
  if (value < low) return 100 * (value / low - 1);
  if (value > high) return 100 * (value / high - 1);
  return 0;
}

std::string outside_text(double percent) {
  if (percent == 0) return "inside";
  const std::string size = to_text(percent, 1);
  return (percent > 0 && size != "0" ? "+" : "") + size + " %";
}

} // namespace mw
