// Statements about the drawn outline of every target row of every speaker (tract model, acceptance tests).
#include "support/targets.h"
#include "tract/measure.h"
#include "tract/work.h"

#include <cmath>
#include <doctest/doctest.h>
#include <numbers>

using namespace mw;

namespace {
struct Ring {
  const char* name;
  Polyline Outline::*line;
};
constexpr Ring rings[] = {{"tongue", &Outline::tongue},       {"upper_lip", &Outline::upper_lip},
                          {"lower_lip", &Outline::lower_lip}, {"velum", &Outline::velum},
                          {"upper_incisor", &Outline::upper_incisor}, {"lower_incisor", &Outline::lower_incisor},
                          {"jaw", &Outline::jaw},             {"epiglottis", &Outline::epiglottis}};
constexpr Ring lines[] = {{"palate", &Outline::palate}, {"back_wall", &Outline::back_wall}, {"face", &Outline::face},
                          {"larynx_front", &Outline::larynx_front}, {"larynx_back", &Outline::larynx_back},
                          {"upper_wall", &Outline::upper_wall}};

// Largest turn of the tongue back, degrees per mm (its polyline in steps of 1 mm).
double sharpest_turn(const Outline& outline) {
  const Polyline line = resample(outline.dorsum, 1.0);
  double most = 0;
  for (std::size_t i = 1; i + 1 < line.size(); ++i) {
    const Vec2 a = line[i] - line[i - 1], b = line[i + 1] - line[i];
    most = std::max(most, std::abs(std::atan2(cross(a, b), glm::dot(a, b))) * 180 / std::numbers::pi);
  }
  return most;
}

Polyline surface(const Outline& outline) {
  Polyline line = outline.dorsum;
  line.insert(line.end(), outline.tip_cap.begin(), outline.tip_cap.end());
  line.insert(line.end(), outline.underside.begin(), outline.underside.end());
  return line;
}

std::map<std::string, Tracer> all_tracers() {
  std::map<std::string, Tracer> tracers;
  for (const auto& anatomy : test::speakers()) tracers.emplace(anatomy->id, Tracer(anatomy));
  return tracers;
}
} // namespace

TEST_CASE("rows: the rest areas kept with the speakers are those of the tongue construction") {
  for (const auto& anatomy : test::speakers()) {
    CAPTURE(anatomy->id);
    const RestAreas areas = rest_areas(anatomy);
    CHECK(areas.fine == doctest::Approx(anatomy->rest_area_fine).epsilon(1e-6));
    CHECK(areas.coarse == doctest::Approx(anatomy->rest_area_coarse).epsilon(1e-6));
  }
}

TEST_CASE("rows: the tongue keeps its area within 3 % and nothing is strained") {
  auto tracers = all_tracers();
  for (const auto& target : test::all_targets()) {
    CAPTURE(target.label());
    const Outline& outline = tracers.at(target.anatomy->id).trace(target.pose);
    CHECK(std::abs(outline.area_error) < 0.03);
    CHECK_MESSAGE(!outline.strained, outline.strain_reason);
    CHECK(std::abs(signed_area(outline.tongue)) == doctest::Approx(outline.tongue_area_mm2).epsilon(0.01));
  }
}

TEST_CASE("rows: the tongue enters no wall by 0.2 mm, the soft palate by 0.05 mm") {
  auto tracers = all_tracers();
  for (const auto& target : test::all_targets()) {
    CAPTURE(target.label());
    const Outline& outline = tracers.at(target.anatomy->id).trace(target.pose);
    CHECK(penetration(*target.anatomy, outline) < 0.2);
    for (std::size_t i = 1; i < outline.velum_under.size(); ++i) {
      const Nearest near = nearest_on(outline.dorsum, outline.velum_under[i]);
      if (!near.beyond_end && near.distance > -6) CHECK(near.distance > -0.05);
    }
  }
}

TEST_CASE("rows: the epiglottis keeps out of the tongue root and the throat wall") {
  auto tracers = all_tracers();
  for (const auto& target : test::all_targets()) {
    CAPTURE(target.label());
    const Outline& outline = tracers.at(target.anatomy->id).trace(target.pose);
    const double most = target.anatomy->id == "adult-male" ? 0.2 : 0.4;
    for (std::size_t i = 12; i < outline.epiglottis_front.size(); ++i) {
      const Nearest near = nearest_on(outline.dorsum, outline.epiglottis_front[i]);
      if (!near.beyond_end && near.distance > -6) CHECK(near.distance > -most);
    }
    for (const Vec2 p : outline.epiglottis_back) CHECK(nearest_on(outline.back_wall, p).distance > -0.05);
  }
}

TEST_CASE("rows: the tongue back turns by less than 20 degrees per mm in the man, in proportion in the others") {
  auto tracers = all_tracers();
  for (const auto& target : test::all_targets()) {
    CAPTURE(target.label());
    CHECK(sharpest_turn(tracers.at(target.anatomy->id).trace(target.pose)) < 20.0 / target.anatomy->tongue_scale);
  }
}

TEST_CASE("rows: every ring is simple and does not repeat its first point; lines are finite and do not cross themselves") {
  auto tracers = all_tracers();
  for (const auto& target : test::all_targets()) {
    CAPTURE(target.label());
    const Outline& outline = tracers.at(target.anatomy->id).trace(target.pose);
    for (const Ring& ring : rings) {
      CAPTURE(std::string(ring.name));
      const Polyline& line = outline.*ring.line;
      REQUIRE(line.size() > 10);
      CHECK(glm::distance(line.front(), line.back()) > 1e-6);
      CHECK(is_simple(line, true));
      for (const Vec2 p : line) CHECK((std::isfinite(p.x) && std::isfinite(p.y)));
    }
    for (const Ring& open : lines) {
      CAPTURE(std::string(open.name));
      CHECK(is_simple(outline.*open.line, false));
      for (const Vec2 p : outline.*open.line) CHECK((std::isfinite(p.x) && std::isfinite(p.y)));
    }
    CHECK(is_simple(surface(outline), false));
  }
}
