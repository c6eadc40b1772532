#include "paint/cairo/paint.h"
#include "scene/mouth.h"
#include "tract/outline.h"

#include "paint_gl/compare.h"

#include <doctest/doctest.h>

#include <ctime>

using namespace mw;

namespace {

// The whole stage of one pose: head, band of a clash, spotlight or not, marks of air.
Scene stage(const std::shared_ptr<const Anatomy>& anatomy, const Pose& pose, const Theme& theme, bool spotlight) {
  const Outline outline = trace(anatomy, pose);
  MouthView view;
  view.theme = &theme, view.rect = {0, 0, 540, 588};
  view.clash = ClashBand{Articulator::body, 3, 8.5, 1};
  view.air = AirMarks{};
  if (spotlight) view.spotlight = Articulator::body;
  Scene scene{540, 588, theme.panel, {}};
  scene.marks.emplace_back(compose_mouth(outline, pose, *anatomy, view).group);
  return scene;
}

} // namespace

TEST_CASE("gl painter: the mouth looks as cairo paints it, in every theme, with and without the spotlight") {
  const auto anatomy = read_anatomy("adult-male");
  REQUIRE(anatomy.has_value());
  Pose pose = (*anatomy)->rest;
  pose.body_y += 3, pose.jaw_opening += 3;
  for (const auto* theme : {&light_theme(), &dark_theme(), &high_theme()})
    for (const bool spotlight : {false, true}) {
      const Scene scene = stage(*anatomy, pose, *theme, spotlight);
      const auto ours = paint_with_gl(scene, 540, 588);
      const auto theirs = render(scene, 540, 588).rgba;
      const std::string name = "mouth " + std::string(theme->name) + (spotlight ? " spotlight" : "");
      keep_picture(name + " gl", ours, 540, 588);
      keep_picture(name + " cairo", theirs, 540, 588);
      const auto d = compare(ours, theirs, 540, 588);
      MESSAGE(name << ": rms " << d.rms * 100 << " %, worst block " << d.worst_block * 100 << " %");
      CHECK(d.rms < 0.015);
      CHECK(d.worst_block < 0.03);
    }
}

TEST_CASE("gl painter: a moving mouth keeps what does not move") {
  const auto anatomy = read_anatomy("adult-male");
  REQUIRE(anatomy.has_value());
  bench();
  auto fresh = gl::Painter::make();
  REQUIRE(fresh.has_value());
  gl::Painter& painter = *fresh;
  auto surface = gl::Surface::make(540, 588);
  REQUIRE(surface.has_value());
  Pose pose = (*anatomy)->rest;
  painter.paint(stage(*anatomy, pose, light_theme(), false), *surface);
  const auto all = painter.shapes_made();
  double paint_ms = 0, compose_ms = 0;
  constexpr int frames = 30;
  for (int i = 1; i <= frames; ++i) {
    pose.body_x += 0.1, pose.jaw_opening += 0.1;
    const auto a = std::clock();
    const Scene scene = stage(*anatomy, pose, light_theme(), false);
    const auto b = std::clock();
    painter.paint(scene, *surface);
    glFinish();
    const auto c = std::clock();
    compose_ms += 1000.0 * static_cast<double>(b - a) / CLOCKS_PER_SEC;
    paint_ms += 1000.0 * static_cast<double>(c - b) / CLOCKS_PER_SEC;
  }
  MESSAGE("shapes: all " << all << ", in a moving picture " << painter.shapes_made() << "; compose " << compose_ms / frames << " ms, paint " << paint_ms / frames << " ms");
  CHECK(painter.shapes_made() < all);
}
