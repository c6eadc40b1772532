#include "base/text.h"
#include "evidence/mouth.h"
#include "tract/measure.h"
#include "tract/sides.h"

#include <algorithm>

namespace mw {
namespace {
// Limits between the manners, mm of midsagittal opening (tract-model.md section 8): contact, turbulence, narrow.
constexpr double contact_mm = 0.05, turbulent_mm = 2.3, narrow_mm = 5.1;
constexpr double port_shut_mm = 0.3, port_open_mm = 1.5;

// What the drawn mouth does, in IPA's terms.
struct DrawnSound {
  std::string_view articulator, place, manner;
  double gap_mm = 0;
};

std::string_view manner_of(double gap, double port, const Pose& pose) {
  if (gap <= contact_mm) {
    if (port >= port_open_mm) return "nasal";
    if (port > port_shut_mm) return "leaking";
    return pose.sides < 0 ? "lateral" : "stop";
  }
  if (gap < turbulent_mm) return "fricative";
  return gap <= narrow_mm ? "approximant" : "open";
}

// Where the mouth is narrowest. A sound made in the throat's valve is known by an open mouth and open folds.
DrawnSound drawn(Mouth& mouth, const Pose& pose, std::string_view articulator) {
  const Outline& outline = mouth.tracer.trace(pose);
  const double port = nasal_port(outline);
  // lips narrower than the tongue still leave a tongue sound: a rounded w is told by its tongue
  const Narrowest at =
      articulator == "lips" ? narrowest(*mouth.anatomy, outline, pose) : tongue_gap(*mouth.anatomy, outline);
  if (articulator == "glottis" && at.gap_mm > narrow_mm && pose.glottis >= 0.25)
    return {"glottis", "glottal", "fricative", at.gap_mm};
  return {to_text(at.articulator), at.place, manner_of(at.gap_mm, port, pose), at.gap_mm};
}

// An affricate is a stop whose second half is a fricative at the same place; a tap is a stop by its shape.
bool manner_fits(Mouth& mouth, const Target& row, const DrawnSound& sound, std::string_view wanted,
                 const std::vector<std::string>& places) {
  if (wanted == "tap") return sound.manner == "stop";
  if (wanted != "affricate") return sound.manner == wanted;
  const Target* second = mouth.targets->consonant(row.second_phase);
  if (sound.manner != "stop" || second == nullptr) return false;
  const DrawnSound release = drawn(mouth, second->pose, sound.articulator);
  return release.manner == "fricative" && std::ranges::find(places, release.place) != places.end();
}
} // namespace

Result<EvidenceTable> places_table() { return places_table_of("adult-male"); }

Result<EvidenceTable> places_table_of(const std::string& anatomy_id) {
  auto mouth = read_mouth(anatomy_id);
  if (!mouth) return mouth.error();
  const auto chart = read_published("places.csv");
  if (!chart) return chart.error();
  EvidenceTable table{.name = "places", .title = "Place and manner of the English consonants in the drawn mouth"};
  int met = 0;
  for (std::size_t i = 0; i < chart->size(); ++i) {
    const Target* row = mouth->targets->consonant(chart->text(i, "symbol"));
    if (row == nullptr)
      return Problem{ProblemKind::missing, "a consonant has no row", chart->text(i, "symbol"),
                     "install the program again"};
    const auto places = split(chart->text(i, "places"), '|');
    const std::string &articulator = chart->text(i, "articulator"), &manner = chart->text(i, "manner");
    const DrawnSound sound = drawn(*mouth, row->pose, articulator);
    const bool place_fits = std::ranges::find(places, sound.place) != places.end() && sound.articulator == articulator;
    const bool fits = place_fits && manner_fits(*mouth, *row, sound, manner, places);
    met += fits ? 1 : 0;
    const std::string status =
        chart->text(i, "status").find("READ_NOTES") == std::string::npos ? "" : " (read in notes)";
    table.rows.push_back(
        {.what = "[" + chart->text(i, "symbol") + "] " + chart->text(i, "example"),
         .ours = join({std::string(sound.articulator), std::string(sound.place), std::string(sound.manner)}, ", ") +
                 ", " + to_text(sound.gap_mm, 1) + " mm",
         .published = join({articulator, join(places, " or "), manner}, ", "),
         .source = chart->text(i, "source") + status,
         .difference = fits ? "same" : "differs",
         .pass = fits});
  }
  table.pass = met == static_cast<int>(chart->size());
  table.summary = std::to_string(met) + " of " + std::to_string(chart->size()) +
                  " English consonants are narrowest at their IPA place with the opening of their manner";
  return table;
}

} // namespace mw
