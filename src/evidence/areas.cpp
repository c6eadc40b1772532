#include "base/text.h"
#include "evidence/mouth.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace mw {
namespace {
constexpr std::string_view american = "Story, Titze & Hoffman 1996";
constexpr double aim_mean = 0.85, aim_single = 0.65;
constexpr std::string_view central_a = "a\u0308";
constexpr int samples = 44; // along the normalised tract, without the very ends

double place_of(int i) { return 0.02 + 0.96 * i / (samples - 1); }

// Area at shares 0..1 of the tract from the lips; sections given glottis first.
std::vector<double> sampled(const std::vector<double>& middles, const std::vector<double>& areas) {
  std::vector<double> out;
  for (int i = 0; i < samples; ++i) out.push_back(interpolate(middles, areas, 1 - place_of(i)));
  return out;
}
std::vector<double> along_tract(const AreaFunction& tube) {
  std::vector<double> middles, areas;
  for (const TubeSection& s : tube.sections) {
    middles.push_back((s.from_glottis_mm + 0.5 * s.length_mm) / tube.tract_length_mm);
    areas.push_back(s.area_cm2);
  }
  return sampled(middles, areas);
}
std::vector<double> along_tract(const std::vector<double>& areas) {
  std::vector<double> middles;
  for (std::size_t i = 0; i < areas.size(); ++i)
    middles.push_back((static_cast<double>(i) + 0.5) / static_cast<double>(areas.size()));
  return sampled(middles, areas);
}

double correlation(const std::vector<double>& a, const std::vector<double>& b) {
  const double n = static_cast<double>(a.size());
  double ma = 0, mb = 0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    ma += a[i] / n;
    mb += b[i] / n;
  }
  double ab = 0, aa = 0, bb = 0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    ab += (a[i] - ma) * (b[i] - mb);
    aa += (a[i] - ma) * (a[i] - ma);
    bb += (b[i] - mb) * (b[i] - mb);
  }
  return ab / std::sqrt(aa * bb);
}

// One published area function, glottis first.
struct PublishedArea {
  std::string source, ipa, word;
  double length_mm = 0;
  std::vector<double> areas;
};
std::vector<PublishedArea> area_functions(const PublishedTable& table) {
  std::vector<PublishedArea> all;
  for (std::size_t i = 0; i < table.size(); ++i) {
    if (all.empty() || all.back().source != table.text(i, "source") || all.back().ipa != table.text(i, "ipa"))
      all.push_back({table.text(i, "source"), table.text(i, "ipa"), table.text(i, "word"), 0, {}});
    all.back().areas.push_back(table.number(i, "area_cm2"));
    all.back().length_mm += 10 * table.number(i, "spacing_cm");
  }
  return all;
}
} // namespace

Result<EvidenceTable> areas_table() {
  auto mouth = read_mouth("adult-male");
  if (!mouth) return mouth.error();
  const auto published = read_published("area_functions.csv");
  if (!published) return published.error();
  EvidenceTable table{.name = "areas", .title = "Area functions of the adult male's vowels against published ones"};
  double sum = 0, worst = 1;
  int count = 0;
  const std::vector<PublishedArea> all = area_functions(*published);
  for (const PublishedArea& area : all) {
    // Fant's Russian open vowel lies between the rows of front and back
    const Target* row = mouth->targets->vowel(area.ipa == "a" ? central_a : area.ipa);
    if (row == nullptr)
      return Problem{ProblemKind::missing, "a vowel has no row", area.ipa, "install the program again"};
    const AreaFunction tube = figures_of(*mouth, row->pose).tube;
    const double r = correlation(along_tract(tube), along_tract(area.areas));
    EvidenceRow line{.what = "[" + area.ipa + "] " + area.word,
                     .ours = "tract " + to_text(tube.tract_length_mm, 0) + " mm",
                     .published = "tract " + to_text(area.length_mm, 0) + " mm",
                     .source = area.source,
                     .difference = "areas correlate " + to_text(r, 2)};
    if (area.source == american) { // one American man: checked; one Russian man: told for comparison
      line.pass = r >= aim_single;
      sum += r;
      worst = std::min(worst, r);
      ++count;
    } else if (const auto other = std::ranges::find_if(
                   all, [&](const PublishedArea& o) { return o.source == american && o.ipa == area.ipa; });
               other != all.end()) {
      line.difference += "; the American's own correlate " +
                         to_text(correlation(along_tract(other->areas), along_tract(area.areas)), 2) + " with them";
    }
    table.rows.push_back(std::move(line));
  }
  const double mean = sum / count;
  table.rows.push_back({.what = "all vowels of the American speaker, mean correlation",
                        .ours = to_text(mean, 2),
                        .published = "at least " + to_text(aim_mean, 2),
                        .source = std::string(american),
                        .difference = "",
                        .pass = mean >= aim_mean});
  if (const auto done = add_constrictions(table, *mouth); !done) return done.error();
  table.pass = std::ranges::none_of(table.rows, [](const EvidenceRow& row) { return row.pass == false; });
  table.summary = std::to_string(count) + " area functions of an American man: correlation " + to_text(mean, 2) +
                  " on average, " + to_text(worst, 2) + " at worst";
  return table;
}

} // namespace mw
