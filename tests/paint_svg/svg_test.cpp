#include "paint/svg/svg.h"
#include "scene/canvas.h"
#include "scene/signs.h"

#include <doctest/doctest.h>

using namespace mw;

namespace {
Scene small_scene() {
  Canvas canvas;
  canvas.fill({"tongue", "t1"}, rounded_rectangle({10, 10}, {50, 40}, 6), RadialBlend{{30, 30}, 2, 40, {{0, {1, 0, 0, 1}}, {1, {0, 0, 1, 0.5f}}}});
  canvas.fill({"clash", "clash-3"}, circle_path({100, 50}, 20), clash_hatch(light_theme(), 3, 6, 1.2));
  canvas.text({"word", {}}, {10, 90}, "kettles & <brass>", {20, {0, 0, 0, 1}, true, Anchor::start, 3, {1, 1, 1, 1}});
  return {200, 120, {1, 1, 1, 1}, canvas.marks};
}
} // namespace

TEST_CASE("svg: text stays text, escaped once, beside its outlines") {
  const std::string svg = svg_of(small_scene(), "a <title>");
  CHECK(svg.find(">kettles &amp; &lt;brass&gt;</text>") != std::string::npos);
  CHECK(svg.find("<title>a &lt;title&gt;</title>") != std::string::npos);
  CHECK(svg.find("<use xlink:href=\"#g1-") != std::string::npos);
}

TEST_CASE("svg: marks carry role and id, and every reference is defined once") {
  const std::string svg = svg_of(small_scene(), "t");
  CHECK(svg.find("class=\"tongue\" data-id=\"t1\"") != std::string::npos);
  for (std::size_t at = svg.find("url(#"); at != std::string::npos; at = svg.find("url(#", at + 1)) {
    const std::string id = svg.substr(at + 5, svg.find(')', at) - at - 5), definition = "id=\"" + id + "\"";
    const std::size_t first = svg.find(definition);
    CHECK(first != std::string::npos);
    CHECK(svg.find(definition, first + 1) == std::string::npos);
  }
}

TEST_CASE("svg: no addresses but the namespaces, no line feeds or control signs inside names") {
  const std::string svg = svg_of(small_scene(), "t\x01\x02");
  std::size_t links = 0;
  for (std::size_t at = svg.find("http"); at != std::string::npos; at = svg.find("http", at + 1)) ++links;
  CHECK(links == 2);
  CHECK(svg.find('\x01') == std::string::npos);
}
