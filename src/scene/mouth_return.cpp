#include "scene/mouth_return.h"

#include "scene/signs.h"
#include "scene/take_text.h"

#include <algorithm>

namespace mw {
namespace {

Vec2 middle(const Polyline& line) {
  Vec2 sum{};
  for (const Vec2 p : line) sum += p;
  return line.empty() ? sum : sum / static_cast<double>(line.size());
}

} // namespace

Vec2 way_of_return(Tracer& tracer, const Take& take, const Clash& clash) {
  if (clash.segments.size() < 2 || clash.articulators.empty()) return {};
  const double first = moment_of(take, clash.segments[0]), next = moment_of(take, clash.segments[1]);
  const auto place = [&](double t) { return middle(surface_of(tracer.trace(pose_at(take.motion, t)), clash.articulators.front())); };
  const Vec2 here = place(first);
  return place((first + next) / 2) - here;
}

std::vector<Mark> draw_return(const MouthPicture& mouth, Vec2 way, const Theme& theme, double u) {
  if (mouth.band_outer.size() < 4) return {};
  const double scale = mouth.section.scale, far = glm::length(way);
  const Vec2 d = far > 0.3 ? way / far : Vec2{0, -1}, n{-d.y, d.x}; // hardly moved: down
  // a hairpin from one side of the band's middle to the other; out as far as the part goes, 8 to 15 mm
  const Vec2 start = 0.5 * (middle(mouth.band_outer) + middle(mouth.band_inner));
  const double half = 3.6 * scale, reach = std::clamp(2 * far, 8.0, 15.0) * scale;
  Polyline line{start - n * half};
  for (int i = 0; i <= 12; ++i) {
    const double a = 3.14159265358979 * i / 12;
    line.push_back(start + d * (reach - half + half * std::sin(a)) - n * (half * std::cos(a)));
  }
  const Vec2 end = start + n * half + d * (1.0 * scale);
  Polyline shown;
  for (const Vec2 p : line) shown.push_back(mouth.frame(p));
  const bool print = theme.name == "print";
  const Colour casing = print ? from_hex("#FFFFFF") : theme.dark ? theme.clash3 : theme.clash2, ink = print ? from_hex("#000000") : from_hex("#1B1206");
  Canvas canvas;
  canvas.stroke({"return", {}}, smooth_path(shown, false), casing, (3 + 2 * 2.6) * u);
  canvas.arrow({"return", {}}, shown.back(), mouth.frame(end), {ink, 3 * u, 13 * u, casing, 2.6 * u});
  canvas.stroke({"return", {}}, smooth_path(shown, false), ink, 3 * u);
  return std::move(canvas.marks);
}

} // namespace mw
