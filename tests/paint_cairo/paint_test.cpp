#include "paint/cairo/paint.h"
#include "scene/canvas.h"
#include "scene/signs.h"

#include <doctest/doctest.h>

#include <cstdlib>
#include <fstream>
#include <cstdio>
#include <array>

using namespace mw;

namespace {

std::array<int, 4> pixel(const Pixels& p, int x, int y) {
  const std::uint8_t* at = &p.rgba[static_cast<std::size_t>((y * p.width + x) * 4)];
  return {at[0], at[1], at[2], at[3]};
}

Scene red_square() {
  Scene scene{10, 10, {1, 1, 1, 1}, {}};
  scene.marks.emplace_back(Fill{{"square", {}}, line_path({{2, 2}, {8, 2}, {8, 8}, {2, 8}}, true), Colour{1, 0, 0, 1}});
  return scene;
}

} // namespace

TEST_CASE("paint: a fill lands where the scene says, at any scale") {
  for (const int k : {10, 40}) {
    const Pixels p = render(red_square(), k, k);
    CHECK(pixel(p, k / 2, k / 2) == std::array<int, 4>{255, 0, 0, 255});
    CHECK(pixel(p, k / 10, k / 10) == std::array<int, 4>{255, 255, 255, 255});
  }
}

TEST_CASE("paint: transparent leaves the ground out and keeps colours straight under half alpha") {
  Scene scene = red_square();
  std::get<Fill>(scene.marks[0]).paint = Colour{1, 0, 0, 0.5f};
  const Pixels p = render(scene, 10, 10, true);
  CHECK(pixel(p, 0, 0)[3] == 0);
  const auto middle = pixel(p, 5, 5);
  CHECK(middle[0] >= 253);
  CHECK(middle[1] == 0);
  CHECK(std::abs(middle[3] - 128) <= 1);
}

TEST_CASE("paint: group opacity counts once where two marks overlap") {
  Scene scene{10, 10, {1, 1, 1, 1}, {}};
  Group group;
  group.opacity = 0.5;
  for (int i = 0; i < 2; ++i) group.marks.emplace_back(Fill{{}, line_path({{0, 0}, {10, 0}, {10, 10}, {0, 10}}, true), Colour{0, 0, 0, 1}});
  scene.marks.emplace_back(group);
  CHECK(std::abs(pixel(render(scene, 10, 10), 5, 5)[0] - 128) <= 2);
}

TEST_CASE("paint: a hatch has lines and ground; crossed has more of the line, broken less") {
  const auto ink = [](bool crossed, bool broken) {
    Scene scene{100, 100, {1, 1, 1, 1}, {}};
    scene.marks.emplace_back(Fill{{}, rounded_rectangle({0, 0}, {100, 100}, 0), Hatch{{0, 0, 0, 1}, {1, 1, 0, 1}, -38, 8, 2, crossed, broken}});
    const Pixels p = render(scene, 100, 100);
    int dark = 0;
    for (std::size_t i = 0; i < p.rgba.size(); i += 4) dark += p.rgba[i] < 128;
    return dark;
  };
  const int plain = ink(false, false);
  CHECK(plain > 1500);
  CHECK(plain < 4000);
  CHECK(ink(true, false) > plain * 3 / 2);
  CHECK(ink(false, true) < plain * 4 / 5);
}

TEST_CASE("paint: the same scene gives the same bytes, and both finishes agree closely") {
  Canvas canvas;
  canvas.text({"t", {}}, {10, 60}, "\u0261l\u0251\u02D0s", {40, {0, 0, 0, 1}});
  canvas.add(draw_logo(light_theme(), {150, 50}, 30));
  const Scene scene{200, 100, {1, 1, 1, 1}, canvas.marks};
  const Pixels a = render(scene, 400, 200), b = render(scene, 400, 200), quick = render(scene, 400, 200, false, Finish::sequence);
  CHECK(a.rgba == b.rgba);
  double off = 0;
  for (std::size_t i = 0; i < a.rgba.size(); ++i) off += std::abs(a.rgba[i] - quick.rgba[i]);
  CHECK(off / static_cast<double>(a.rgba.size()) < 1.0);
}

TEST_CASE("paint: a PDF holds its text so that it can be selected and found") {
  Canvas canvas;
  canvas.text({"t", {}}, {30, 60}, "Brass ladles", {20, {0, 0, 0, 1}});
  canvas.text({"t", {}}, {30, 100}, "\u02C8b\u0279\u0251\u02D0s e\u0303\u0301", {20, {0, 0, 0, 1}});
  const std::array pages{Scene{300, 200, {1, 1, 1, 1}, canvas.marks}, Scene{200, 300, {1, 1, 1, 1}, canvas.marks}};
  const auto pdf = pdf_of(pages, "A handout");
  REQUIRE(pdf.has_value());
  CHECK(pdf->starts_with("%PDF"));
  const std::string file = std::string{std::getenv("TMPDIR") ? std::getenv("TMPDIR") : "/tmp"} + "/mouthwright-paint-test.pdf";
  std::ofstream{file, std::ios::binary} << *pdf;
  std::string text;
  FILE* reader = popen(("pdftotext '" + file + "' - 2>/dev/null").c_str(), "r");
  REQUIRE(reader != nullptr);
  std::array<char, 4096> buffer{};
  while (const std::size_t n = fread(buffer.data(), 1, buffer.size(), reader)) text.append(buffer.data(), n);
  pclose(reader);
  std::remove(file.c_str());
  CHECK(text.find("Brass ladles") != std::string::npos);
  CHECK(text.find("b\u0279\u0251\u02D0s") != std::string::npos);
  CHECK(text.find("\f") != text.rfind("\f")); // two pages
}
