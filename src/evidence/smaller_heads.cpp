#include "base/text.h"
#include "evidence/mouth.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace mw {
namespace {
// Vowels of the published men; FACE and GOAT by the rows of their first vowels.
constexpr std::array vowels{"i", "ɪ", "e", "ɛ", "æ", "ɑ", "ɔ", "o", "ʊ", "u", "ʌ", "ɝ"};
constexpr double limit = 6.5;   // per cent, first and second formant, as for the men
constexpr double wall_hz = 203; // the yielding wall lifts the first formant, in quadrature, alike in every size
constexpr std::string_view source =
    "derived: one factor for the whole pattern, the ratio of the tracts' lengths (Turner et al. 2009, read in a summary)";

double scaled(double hz, double ratio, std::size_t formant) {
  if (formant > 0) return hz * ratio;
  return std::sqrt(std::max(hz * hz - wall_hz * wall_hz, 0.0) * ratio * ratio + wall_hz * wall_hz);
}
} // namespace

Result<Done> add_smaller_head(EvidenceTable& table, Mouth& man, const std::string& id) {
  auto own = read_mouth(id);
  if (!own) return own.error();
  const double ratio = figures_of(man, man.anatomy->rest).tube.tract_length_mm /
                       figures_of(*own, own->anatomy->rest).tube.tract_length_mm;
  double sum = 0, worst = 0;
  for (const char* vowel : vowels) {
    const Target *his = man.targets->vowel(vowel), *row = own->targets->vowel(vowel);
    if (his == nullptr || row == nullptr)
      return Problem{ProblemKind::missing, "a vowel has no row", vowel, "install the program again"};
    const auto from = figures_of(man, his->pose).formants, ours = figures_of(*own, row->pose).formants;
    for (std::size_t f = 0; f < 3; ++f) {
      const double wanted = scaled(from[f], ratio, f), percent = percent_outside(ours[f], wanted, wanted);
      if (f < 2) sum += std::abs(percent), worst = std::max(worst, std::abs(percent));
      EvidenceRow line{.what = own->anatomy->name + ": [" + vowel + "] F" + std::to_string(f + 1),
                       .ours = to_text(ours[f], 0) + " Hz",
                       .published = "none read; the man's times " + to_text(ratio, 3) + ": " + to_text(wanted, 0) + " Hz",
                       .source = std::string(source),
                       .difference = outside_text(percent)};
      if (f < 2) line.pass = std::abs(percent) <= limit; // the third is told: throat and mouth do not scale alike
      table.rows.push_back(std::move(line));
    }
  }
  table.summary += "; " + own->anatomy->name + ": F1 and F2 off the man's pattern times " + to_text(ratio, 3) + " by " +
                   to_text(sum / (2 * vowels.size()), 1) + " % on average, " + to_text(worst, 1) + " % at worst";
  return Done{};
}

} // namespace mw
