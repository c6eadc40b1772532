#include "base/text.h"
#include "evidence/mouth.h"

#include <algorithm>

namespace mw {
namespace {
// Stretches of the tract, shares of its length from the glottis: above the voice box to the soft palate, from there to
// the teeth. The lips are the last section.
constexpr double throat_from = 0.18, throat_to = 0.5, mouth_to = 0.92;

double narrowest_area(const AreaFunction& tube, std::string_view region) {
  if (region == "lips") return tube.sections.back().area_cm2;
  const bool throat = region == "throat";
  double least = 1e9;
  for (const TubeSection& s : tube.sections) {
    const double share = (s.from_glottis_mm + 0.5 * s.length_mm) / tube.tract_length_mm;
    if (share >= (throat ? throat_from : throat_to) && share <= (throat ? throat_to : mouth_to))
      least = std::min(least, s.area_cm2);
  }
  return least;
}

std::string limits_text(const std::optional<double>& low, const std::optional<double>& high) {
  return high ? to_text(*low, 2) + "-" + to_text(*high, 2) + " cm2" : "at least " + to_text(*low, 2) + " cm2";
}
} // namespace

Result<Done> add_constrictions(EvidenceTable& table, Mouth& mouth) {
  const auto published = read_published("constrictions.csv");
  if (!published) return published.error();
  for (std::size_t i = 0; i < published->size(); ++i) {
    if (published->text(i, "unit") != "cm2") continue;
    const auto low = parse_number(published->text(i, "low")), high = parse_number(published->text(i, "high"));
    for (const std::string& symbol : split(published->text(i, "symbols"), '|')) {
      const Target* row = mouth.targets->consonant(symbol);
      if (row == nullptr)
        return Problem{ProblemKind::missing, "a consonant has no row", symbol, "install the program again"};
      const double area = narrowest_area(figures_of(mouth, row->pose).tube, published->text(i, "region"));
      EvidenceRow line{.what = "[" + symbol + "] " + published->text(i, "what"),
                       .ours = to_text(area, 2) + " cm2",
                       .published = limits_text(low, high),
                       .source = published->text(i, "source") + " (read in notes)",
                       .difference = outside_text(percent_outside(area, *low, high.value_or(1e9)))};
      // areas of one or two speakers are told; the limit of noise is checked
      if (published->text(i, "checked") == "yes") line.pass = area >= *low;
      table.rows.push_back(std::move(line));
    }
  }
  return Done{};
}

} // namespace mw
