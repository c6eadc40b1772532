#include "support/targets.h"
#include "tract/outline.h"

#include <doctest/doctest.h>

using namespace mw;

namespace {
// Every line and number of two outlines, compared bit by bit.
bool same(const Outline& a, const Outline& b) {
  constexpr Polyline Outline::*lines[] = {
      &Outline::tongue, &Outline::upper_lip, &Outline::lower_lip, &Outline::velum, &Outline::upper_incisor,
      &Outline::lower_incisor, &Outline::jaw, &Outline::epiglottis, &Outline::palate, &Outline::back_wall, &Outline::face,
      &Outline::larynx_front, &Outline::larynx_back, &Outline::upper_wall, &Outline::dorsum, &Outline::tip_cap,
      &Outline::underside, &Outline::velum_under, &Outline::velum_cap, &Outline::velum_upper, &Outline::upper_lip_line,
      &Outline::lower_lip_line, &Outline::lower_incisor_line, &Outline::mouth_floor, &Outline::epiglottis_front,
      &Outline::epiglottis_back, &Outline::epiglottis_cap};
  for (const auto line : lines)
    if (a.*line != b.*line) return false;
  return a.frenulum == b.frenulum && a.genial == b.genial && a.hyoid == b.hyoid && a.upper_red == b.upper_red &&
         a.lower_red == b.lower_red && a.lip_edge_x == b.lip_edge_x && a.upper_margin_y == b.upper_margin_y &&
         a.lower_margin_y == b.lower_margin_y && a.lower_lip_ratio == b.lower_lip_ratio && a.lip_fold == b.lip_fold &&
         a.glottis_y == b.glottis_y && a.face_mouth == b.face_mouth && a.tongue_area_mm2 == b.tongue_area_mm2 &&
         a.area_error == b.area_error && a.root_shift == b.root_shift && a.hyoid_drop == b.hyoid_drop &&
         a.strained == b.strained && a.strain_reason == b.strain_reason && a.body_centre == b.body_centre &&
         a.tip_centre == b.tip_centre && a.tip_direction == b.tip_direction;
}
} // namespace

TEST_CASE("tracer: an outline depends on its pose alone, to the bit: two tracers, forwards, backwards, afresh") {
  for (const auto& anatomy : test::speakers()) {
    std::vector<test::Target> rows = test::targets(anatomy, "consonants");
    for (auto& row : test::targets(anatomy, "vowels")) rows.push_back(row);
    Tracer forwards(anatomy), backwards(anatomy);
    std::vector<Outline> first;
    for (const auto& row : rows) first.push_back(forwards.trace(row.pose));
    for (std::size_t i = rows.size(); i-- > 0;) {
      CAPTURE(rows[i].label());
      CHECK(same(backwards.trace(rows[i].pose), first[i]));
    }
    for (std::size_t i = 0; i < rows.size(); i += 17) CHECK(same(trace(anatomy, rows[i].pose), first[i]));
  }
}

TEST_CASE("tracer: the comparison above sees the smallest change of a pose") {
  const auto anatomy = read_anatomy("adult-male").value();
  Pose pose = anatomy->rest;
  const Outline before = trace(anatomy, pose);
  pose.tip_y += 1e-9;
  CHECK_FALSE(same(before, trace(anatomy, pose)));
}

TEST_CASE("tracer: sides, groove and glottis do not change the section") {
  const auto anatomy = read_anatomy("adult-male").value();
  Pose pose = anatomy->rest;
  const Outline before = trace(anatomy, pose);
  pose.sides = 1;
  pose.groove = 2.2;
  pose.glottis = 0.9;
  CHECK(same(before, trace(anatomy, pose)));
}
