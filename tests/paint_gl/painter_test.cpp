#include "paint/cairo/paint.h"
#include "paint/gl/context.h"
#include "paint/gl/painter.h"

#include "paint_gl/scenes.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>

using namespace mw;

namespace {

struct Bench {
  gl::OffscreenContext context;
  gl::Painter painter;
};
Bench& bench() {
  static Bench* const shared = [] {
    auto context = gl::OffscreenContext::make();
    REQUIRE(context.has_value());
    auto painter = gl::Painter::make();
    REQUIRE(painter.has_value());
    return new Bench{std::move(context).value(), std::move(painter).value()};
  }();
  return *shared;
}

std::vector<std::uint8_t> paint_with_gl(const Scene& scene, int width, int height) {
  auto& painter = bench().painter;
  auto surface = gl::Surface::make(width, height);
  REQUIRE(surface.has_value());
  painter.paint(scene, *surface, {0, 0}, width / scene.width);
  return surface->read_back();
}

// Root mean square difference of all channels, and the largest mean difference of any 8 x 8 block, both of 1.
struct Difference { double rms = 0, worst_block = 0; };
Difference compare(const std::vector<std::uint8_t>& a, const std::vector<std::uint8_t>& b, int width, int height) {
  Difference out;
  double sum = 0;
  for (int by = 0; by < height; by += 8)
    for (int bx = 0; bx < width; bx += 8) {
      double block = 0, count = 0;
      for (int y = by; y < std::min(by + 8, height); ++y)
        for (int i = (y * width + bx) * 4; i < (y * width + std::min(bx + 8, width)) * 4; ++i, ++count) {
          const double d = (a[static_cast<std::size_t>(i)] - b[static_cast<std::size_t>(i)]) / 255.0;
          sum += d * d, block += d;
        }
      out.worst_block = std::max(out.worst_block, std::abs(block) / count);
    }
  out.rms = std::sqrt(sum / static_cast<double>(a.size()));
  return out;
}

void keep_picture(const std::string& name, const std::vector<std::uint8_t>& rgba, int width, int height) {
  const char* folder = std::getenv("MOUTHWRIGHT_KEEP_PICTURES");
  if (!folder) return;
  std::FILE* file = std::fopen((std::string(folder) + "/" + name + ".ppm").c_str(), "wb");
  if (!file) return;
  std::fprintf(file, "P6 %d %d 255\n", width, height);
  for (std::size_t i = 0; i < rgba.size(); i += 4) std::fwrite(&rgba[i], 1, 3, file);
  std::fclose(file);
}

} // namespace

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
