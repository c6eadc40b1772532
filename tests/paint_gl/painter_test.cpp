#include "paint/cairo/paint.h"
#include "paint/gl/context.h"
#include "paint/gl/painter.h"

#include "paint_gl/compare.h"
#include "paint_gl/scenes.h"

#include <doctest/doctest.h>


using namespace mw;

TEST_CASE("gl painter: every synthetic scene looks as cairo paints it, at two sizes") {
  for (const auto& [name, scene] : scenes::all())
    for (const int scale : {1, 2}) {
      CAPTURE(name);
      CAPTURE(scale);
      const int w = 320 * scale, h = 240 * scale;
      const auto ours = paint_with_gl(scene, w, h);
      const auto theirs = render(scene, w, h).rgba;
      keep_picture(name + (scale == 1 ? "" : " x2") + " gl", ours, w, h);
      keep_picture(name + (scale == 1 ? "" : " x2") + " cairo", theirs, w, h);
      const auto d = compare(ours, theirs, w, h);
      MESSAGE(name << " x" << scale << ": rms " << d.rms * 100 << " %, worst block " << d.worst_block * 100 << " %");
      CHECK(d.rms < 0.015);
      CHECK(d.worst_block < 0.03);
    }
}

TEST_CASE("gl painter: a comparison that sees a wrong winding rule") {
  auto scene = scenes::all().front().second;
  const auto right = paint_with_gl(scene, 320, 240);
  std::get<Fill>(scene.marks[1]).even_odd = false;
  CHECK(compare(right, paint_with_gl(scene, 320, 240), 320, 240).rms > 0.03);
}

TEST_CASE("gl painter: nothing outside the scene's own place is touched") {
  bench();
  auto surface = gl::Surface::make(400, 300);
  REQUIRE(surface.has_value());
  Scene white{400, 300, {1, 1, 1, 1}, {}};
  bench().painter.paint(white, *surface);
  bench().painter.paint(scenes::all()[1].second, *surface, {33, 21});
  const auto pixels = surface->read_back();
  std::size_t touched_outside = 0, touched_inside = 0;
  for (int y = 0; y < 300; ++y)
    for (int x = 0; x < 400; ++x) {
      const auto* p = &pixels[static_cast<std::size_t>((y * 400 + x) * 4)];
      const bool inside = x >= 33 && x < 353 && y >= 21 && y < 261;
      if (p[0] != 255 || p[1] != 255 || p[2] != 255) ++(inside ? touched_inside : touched_outside);
    }
  CHECK(touched_outside == 0);
  CHECK(touched_inside == 320 * 240);
}

TEST_CASE("gl painter: a scene moved by whole pixels is the same picture and costs no new shape") {
  bench();
  const Scene scene = scenes::all()[2].second;
  auto a = gl::Surface::make(400, 300), b = gl::Surface::make(400, 300);
  const Scene white{400, 300, {1, 1, 1, 1}, {}};
  for (auto* s : {&a, &b}) bench().painter.paint(white, **s);
  bench().painter.paint(scene, *a, {3, 5});
  bench().painter.paint(scene, *b, {40, 30});
  CHECK(bench().painter.shapes_made() == 0);
  const auto pa = a->read_back(), pb = b->read_back();
  std::size_t different = 0;
  for (int y = 0; y < 240; ++y)
    for (int x = 0; x < 320 * 4; ++x)
      different += pa[static_cast<std::size_t>((y + 5) * 1600 + 12 + x)] != pb[static_cast<std::size_t>((y + 30) * 1600 + 160 + x)];
  CHECK(different == 0);
}

TEST_CASE("gl painter: only what changed is computed again") {
  bench();
  auto scene = scenes::all()[0].second;
  auto surface = gl::Surface::make(320, 240);
  bench().painter.paint(scene, *surface);
  bench().painter.paint(scene, *surface);
  CHECK(bench().painter.shapes_made() == 0);
  std::get<Fill>(scene.marks[0]).path = scenes::star({81, 80}, 70, 5, 2);
  bench().painter.paint(scene, *surface);
  CHECK(bench().painter.shapes_made() == 1);
}
