#pragma once

#include "paint/gl/context.h"
#include "paint/gl/painter.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

using namespace mw;

struct Bench {
  gl::OffscreenContext context;
  gl::Painter painter;
};
inline Bench& bench() {
  static Bench* const shared = [] {
    auto context = gl::OffscreenContext::make();
    REQUIRE(context.has_value());
    auto painter = gl::Painter::make();
    REQUIRE(painter.has_value());
    return new Bench{std::move(context).value(), std::move(painter).value()};
  }();
  return *shared;
}

inline std::vector<std::uint8_t> paint_with_gl(const Scene& scene, int width, int height) {
  auto& painter = bench().painter;
  auto surface = gl::Surface::make(width, height);
  REQUIRE(surface.has_value());
  painter.paint(scene, *surface, {0, 0}, width / scene.width);
  return surface->read_back();
}

// Root mean square difference of all channels, and the largest mean difference of any 8 x 8 block, both of 1.
struct Difference { double rms = 0, worst_block = 0; };
inline Difference compare(const std::vector<std::uint8_t>& a, const std::vector<std::uint8_t>& b, int width, int height) {
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

inline void keep_picture(const std::string& name, const std::vector<std::uint8_t>& rgba, int width, int height) {
  const char* folder = std::getenv("MOUTHWRIGHT_KEEP_PICTURES");
  if (!folder) return;
  std::FILE* file = std::fopen((std::string(folder) + "/" + name + ".ppm").c_str(), "wb");
  if (!file) return;
  std::fprintf(file, "P6 %d %d 255\n", width, height);
  for (std::size_t i = 0; i < rgba.size(); i += 4) std::fwrite(&rgba[i], 1, 3, file);
  std::fclose(file);
}

