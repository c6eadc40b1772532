#pragma once

#include "scene/scene.h"

#include <cmath>
#include <string>
#include <utility>
#include <vector>

/// Synthetic scenes, each about one thing that a painter can get wrong.
namespace scenes {
using namespace mw;

inline Path star(Vec2 centre, double radius, int points, int step) {
  Polyline line;
  for (int i = 0; i < points; ++i) {
    const double a = 2 * 3.14159265358979 * i * step / points;
    line.push_back(centre + radius * Vec2{std::sin(a), -std::cos(a)});
  }
  return line_path(line, true);
}
inline Path blob(Vec2 c, double r) {
  return smooth_path({c + Vec2{-r, 0}, c + Vec2{-0.3 * r, -0.9 * r}, c + Vec2{r, -0.4 * r}, c + Vec2{0.5 * r, 0.8 * r}}, true);
}
inline Path with_hole(Vec2 c, double r) { // the hole runs the other way round
  return joined(circle_path(c, r), line_path({c + Vec2{-r, -r} * 0.4, c + Vec2{-r, r} * 0.4, c + Vec2{r, r} * 0.4, c + Vec2{r, -r} * 0.4}, true));
}

inline Scene page(std::vector<Mark> marks) { return {320, 240, {0.98f, 0.96f, 0.92f, 1}, std::move(marks)}; }
constexpr Colour ink{0.17f, 0.14f, 0.13f, 1}, rose{0.82f, 0.48f, 0.42f, 1}, glass{0.12f, 0.35f, 0.37f, 0.5f};

inline std::vector<std::pair<std::string, Scene>> all() {
  std::vector<std::pair<std::string, Scene>> out;
  out.emplace_back("fills, both winding rules and a hole", page({Fill{{}, star({80, 80}, 70, 5, 2), rose}, Fill{{}, star({230, 80}, 70, 5, 2), rose, true},
                   Fill{{}, with_hole({90, 180}, 45), ink}, Fill{{}, blob({230, 170}, 60), glass}, Fill{{}, rounded_rectangle({10.3, 20.7}, {60.5, 33.2}, 8), glass}}));
  out.emplace_back("beyond the edges", page({Fill{{}, blob({0, 0}, 90), rose}, Fill{{}, blob({330, 240}, 120), glass}, Stroke{{}, circle_path({160, 120}, 170), ink, 9}}));
  out.emplace_back("strokes", page({Stroke{{}, line_path({{20, 20}, {120, 30}, {40, 60}, {150, 90}}, false), ink, 12}, Stroke{{}, blob({230, 80}, 60), rose, 3.4},
                   Stroke{{}, star({80, 170}, 50, 7, 3), glass, 6}, Stroke{{}, smooth_path({{150, 200}, {180, 120}, {210, 220}, {260, 150}, {300, 225}}, false), ink, 1.25},
                   Stroke{{}, line_path({{170, 20}}, false), ink, 0}}));
  out.emplace_back("tight bends", page({Stroke{{}, smooth_path({{60, 60}, {70, 50}, {80, 60}, {75, 80}, {66, 70}}, true), glass, 30},
                   Stroke{{}, smooth_path({{160, 200}, {170, 100}, {176, 99}, {186, 200}}, false), glass, 34}, Stroke{{}, line_path({{230, 60}, {300, 62}, {232, 64}}, false), ink, 10}}));
  out.emplace_back("dashes", page({Stroke{{}, circle_path({80, 80}, 60), ink, 4, {14, 10}}, Stroke{{}, line_path({{20, 180}, {300, 180}, {300, 30}}, false), rose, 5, {0.1, 9}},
                   Stroke{{}, blob({210, 100}, 60), ink, 2, {7, 5, 2}}}));
  out.emplace_back("blends", page({Fill{{}, blob({90, 110}, 80), RadialBlend{{90, 110}, 6, 80, {{0, ink}, {0.62, rose}, {1, {0.9f, 0.8f, 0.7f, 1}}}}},
                   Fill{{}, rounded_rectangle({180, 30}, {120, 160}, 14), LinearBlend{{180, 30}, {300, 190}, {{0, glass}, {0.5, rose}, {1, {1, 1, 1, 0}}}}}}));
  out.emplace_back("hatching and dots", page({Fill{{}, blob({80, 70}, 60), Hatch{ink, {0.93f, 0.71f, 0.24f, 1}}}, Fill{{}, blob({240, 70}, 60), Hatch{ink, {0.97f, 0.6f, 0.04f, 1}, -38, 5, 1.25, true}},
                   Fill{{}, blob({80, 180}, 50), Hatch{ink, {0.95f, 0.87f, 0.65f, 1}, -38, 5, 1.25, false, true}}, Fill{{}, blob({240, 180}, 50), Dots{ink, rose, 6, 1.6}}}));
  Group clipped{{}, 1, 0, 0, 1, 0, 0, circle_path({100, 110}, 80), 1, {Fill{{}, star({100, 110}, 110, 5, 2), rose}, Stroke{{}, blob({120, 120}, 70), ink, 8}}};
  Group inner{{}, 0.8, 0.3, -0.3, 0.8, 250, 60, rounded_rectangle({-40, -40}, {90, 110}, 12), 0.6, {Fill{{}, blob({0, 0}, 60), rose}, Fill{{}, blob({20, 20}, 40), ink}, Text{{}, "tug", {-20, 30}, 30, {1, 1, 1, 1}}}};
  Group nested{{}, 0.7, 0, 0, 0.7, 60, 60, circle_path({100, 110}, 60), 0.5, {clipped, Stroke{{}, star({100, 110}, 80, 5, 1), glass, 12}}};
  out.emplace_back("clips, turns and layers", page({clipped, inner, nested}));
  out.emplace_back("text", page({Text{{}, "Tug on the back", {20, 50}, 34, ink, Anchor::start, true}, Text{{}, "ˈkɛtə̃ɫz a ɑ", {160, 110}, 28, rose, Anchor::middle, false, 5, {1, 1, 1, 1}},
                   Text{{}, "who moves when", {310, 150}, 13, ink, Anchor::end}, Text{{}, "12.5 px of quiet text, long enough", {10, 200}, 12.5, ink}}));
  Image image{{}, {40, 30}, {192, 144}, 64, 48, {}};
  for (int y = 0; y < 48; ++y)
    for (int x = 0; x < 64; ++x)
      image.pixels.insert(image.pixels.end(), {static_cast<std::uint8_t>(x * 4), 120, static_cast<std::uint8_t>(255 - y * 5), static_cast<std::uint8_t>((x / 8 + y / 8) % 5 == 0 ? 90 : 255)});
  out.emplace_back("image", page({image}));
  return out;
}

} // namespace scenes
