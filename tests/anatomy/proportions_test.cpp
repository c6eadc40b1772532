// The heads against published proportions (assets/speakers/proportions.csv); figures from memory are no limits.
#include "anatomy/places.h"
#include "support/data.h"

#include <doctest/doctest.h>

using namespace mw;

namespace {
double palate_length(const Anatomy& a) { return a.palate.back().x - a.palate.front().x; }
double palate_height(const Anatomy& a) {
  double top = 0;
  for (const Vec2 p : a.palate) top = std::max(top, p.y);
  return top;
}
// From the free end of the shut soft palate down to the folds.
double throat(const Anatomy& a) { return velum_shape(a, 0).cap[velum_shape(a, 0).cap.size() / 2].y - a.glottis_y; }
// Along the upper wall from the incisor edge to the folds: teeth to larynx without the lips.
double wall(const Anatomy& a) { return wall_table(a).landmarks[3]; }
double tract(const Anatomy& a) { return wall(a) - a.upper_lip[6].at.x; }
double mouth(const Anatomy& a) { return wall_table(a).landmarks[2] - a.upper_lip[6].at.x; }

double measured(const std::string& name, const Anatomy& a, const Anatomy& man) {
  if (name == "tract_ratio") return tract(a) / tract(man);
  if (name == "throat_ratio") return throat(a) / throat(man);
  if (name == "palate_length_ratio") return palate_length(a) / palate_length(man);
  if (name == "palate_height_ratio") return palate_height(a) / palate_height(man);
  if (name == "palate_width_ratio") return a.width / man.width;
  if (name == "palate_height_to_length") return palate_height(a) / palate_length(a) / (palate_height(man) / palate_length(man));
  if (name == "mouth_to_throat") return mouth(a) / throat(a) / (mouth(man) / throat(man));
  FAIL("no such measure: ", name);
  return 0;
}
} // namespace

TEST_CASE("proportions: every head meets the published lengths and ratios that were read") {
  const auto man = read_anatomy("adult-male").value();
  int checked = 0;
  for (const test::Row& row : test::asset_table("speakers/proportions.csv")) {
    CAPTURE(row.at("speaker"));
    CAPTURE(row.at("measure"));
    CHECK_FALSE(row.at("source").empty());
    CHECK_FALSE(row.at("status").empty());
    if (!row.has("low")) continue;
    CHECK(row.at("status") != "MEMORY");
    const double ours = measured(row.at("measure"), *read_anatomy(row.at("speaker")).value(), *man);
    CHECK(ours >= row.number("low"));
    CHECK(ours <= row.number("high"));
    ++checked;
  }
  CHECK(checked >= 10);
}

TEST_CASE("proportions: the smaller heads are no maps of the man's: every part has a scale of its own") {
  const auto man = read_anatomy("adult-male").value();
  for (const char* id : {"adult-female", "child"}) {
    CAPTURE(id);
    const auto own = read_anatomy(id).value();
    const auto height = [](const Polyline& line) {
      const auto [low, high] = std::minmax_element(line.begin(), line.end(), [](Vec2 a, Vec2 b) { return a.y < b.y; });
      return high->y - low->y;
    };
    const double crown = height(own->skull.at("upper_incisor_edge_labial")) / height(man->skull.at("upper_incisor_edge_labial"));
    // from the edge down to the neck, where the root begins (control points 1 and 4 of the ring)
    const auto lower = [](const Anatomy& a) {
      const Polyline& tooth = a.jaw.at("lower_incisor_tooth");
      return tooth[1].y - tooth[4].y;
    };
    if (own->id == "child") CHECK(lower(*own) / lower(*man) < own->jaw_y - 0.05); // milk teeth, shorter than the jaw asks
    const double vault = palate_height(*own) / palate_height(*man);
    const double jaw = height(own->jaw.at("mandible")) / height(man->jaw.at("mandible"));
    const double cartilage = height(own->larynx.at("thyroid_cartilage")) / height(man->larynx.at("thyroid_cartilage"));
    std::vector<double> scales{crown, vault, jaw, cartilage, throat(*own) / throat(*man), own->lip_scale, own->jaw_x};
    std::sort(scales.begin(), scales.end());
    for (std::size_t i = 1; i < scales.size(); ++i) CHECK(scales[i] > scales[i - 1]);
    CHECK(scales.back() - scales.front() > 0.2);
    CHECK(own->jaw.at("chin_skin")[3].x > man->jaw.at("chin_skin")[3].x); // the chin stands further back
  }
}
