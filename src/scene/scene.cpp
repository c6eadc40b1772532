#include "scene/scene.h"

#include "base/text.h"

#include <algorithm>
#include <cmath>

namespace mw {
namespace {

// a turn this sharp is a corner of the drawing (tooth edge, cut paper), not a sample of a curve
constexpr double corner_cos = 0.766; // 40 degrees
constexpr double kappa = 0.5522847498; // cubic that follows a quarter circle

struct Tangents { Vec2 in{}, out{}; }; // unit directions before and after a point

Vec2 unit(Vec2 v) {
  const double l = glm::length(v);
  return l > 1e-12 ? v / l : Vec2{};
}

Tangents tangents_at(Vec2 before, Vec2 at, Vec2 after) {
  const Vec2 a = at - before, b = after - at;
  const double la = glm::length(a), lb = glm::length(b);
  if (la < 1e-12 || lb < 1e-12) return {unit(a + b), unit(a + b)};
  if (glm::dot(a, b) < corner_cos * la * lb) return {a / la, b / lb};
  const Vec2 t = unit(a / la * lb + b / lb * la); // the nearer neighbour counts more
  return {t, t};
}

Polyline without_repeats(const Polyline& points, bool closed) {
  Polyline out;
  out.reserve(points.size());
  for (const Vec2 p : points)
    if (out.empty() || glm::distance(p, out.back()) > 1e-9) out.push_back(p);
  while (closed && out.size() > 1 && glm::distance(out.front(), out.back()) < 1e-9) out.pop_back();
  return out;
}

} // namespace

Path smooth_path(const Polyline& points, bool closed) {
  const Polyline p = without_repeats(points, closed);
  const std::size_t n = p.size();
  if (n < 3) return line_path(p, closed);
  std::vector<Tangents> t(n);
  for (std::size_t i = 0; i < n; ++i) {
    if (closed || (i > 0 && i + 1 < n)) t[i] = tangents_at(p[(i + n - 1) % n], p[i], p[(i + 1) % n]);
    else t[i] = i == 0 ? Tangents{unit(p[1] - p[0]), unit(p[1] - p[0])} : Tangents{unit(p[i] - p[i - 1]), unit(p[i] - p[i - 1])};
  }
  Path path;
  path.steps.reserve(n + 2);
  path.steps.emplace_back(Path::Move{p[0]});
  const std::size_t legs = closed ? n : n - 1;
  for (std::size_t i = 0; i < legs; ++i) {
    const std::size_t j = (i + 1) % n;
    // a handle at most four times the leg on the other side: a short neighbour's direction must not bend a long leg
    const double leg = glm::distance(p[i], p[j]);
    const double before = closed || i > 0 ? glm::distance(p[(i + n - 1) % n], p[i]) : leg, after = closed || j + 1 < n ? glm::distance(p[j], p[(j + 1) % n]) : leg;
    path.steps.emplace_back(Path::Cubic{p[i] + t[i].out * std::min(leg / 3, 4 * before), p[j] - t[j].in * std::min(leg / 3, 4 * after), p[j]});
  }
  if (closed) path.steps.emplace_back(Path::Close{});
  return path;
}

Path line_path(const Polyline& points, bool closed) {
  Path path;
  if (points.size() < 2) return path;
  path.steps.reserve(points.size() + 1);
  path.steps.emplace_back(Path::Move{points[0]});
  for (std::size_t i = 1; i < points.size(); ++i) path.steps.emplace_back(Path::Line{points[i]});
  if (closed) path.steps.emplace_back(Path::Close{});
  return path;
}

Path rounded_rectangle(Vec2 top_left, Vec2 size, double radius) {
  const double r = std::max(0.0, std::min({radius, size.x / 2, size.y / 2})), k = r * (1 - kappa);
  const double x0 = top_left.x, y0 = top_left.y, x1 = x0 + size.x, y1 = y0 + size.y;
  if (r <= 0) return line_path({{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}, true);
  Path p;
  p.steps = {Path::Move{{x0 + r, y0}}, Path::Line{{x1 - r, y0}}, Path::Cubic{{x1 - k, y0}, {x1, y0 + k}, {x1, y0 + r}},
             Path::Line{{x1, y1 - r}}, Path::Cubic{{x1, y1 - k}, {x1 - k, y1}, {x1 - r, y1}},
             Path::Line{{x0 + r, y1}}, Path::Cubic{{x0 + k, y1}, {x0, y1 - k}, {x0, y1 - r}},
             Path::Line{{x0, y0 + r}}, Path::Cubic{{x0, y0 + k}, {x0 + k, y0}, {x0 + r, y0}}, Path::Close{}};
  return p;
}

Path circle_path(Vec2 c, double r) {
  const double k = kappa * r;
  Path p;
  p.steps = {Path::Move{{c.x + r, c.y}},
             Path::Cubic{{c.x + r, c.y + k}, {c.x + k, c.y + r}, {c.x, c.y + r}},
             Path::Cubic{{c.x - k, c.y + r}, {c.x - r, c.y + k}, {c.x - r, c.y}},
             Path::Cubic{{c.x - r, c.y - k}, {c.x - k, c.y - r}, {c.x, c.y - r}},
             Path::Cubic{{c.x + k, c.y - r}, {c.x + r, c.y - k}, {c.x + r, c.y}}, Path::Close{}};
  return p;
}

Path joined(Path a, const Path& b) {
  a.steps.insert(a.steps.end(), b.steps.begin(), b.steps.end());
  return a;
}

std::pair<Vec2, Vec2> bounds(const Path& path) {
  Vec2 low{1e300, 1e300}, high{-1e300, -1e300};
  const auto add = [&](Vec2 p) { low = {std::min(low.x, p.x), std::min(low.y, p.y)}; high = {std::max(high.x, p.x), std::max(high.y, p.y)}; };
  for (const auto& step : path.steps)
    std::visit(Overloaded{[&](const Path::Move& s) { add(s.to); }, [&](const Path::Line& s) { add(s.to); },
                          [&](const Path::Cubic& s) { add(s.c1); add(s.c2); add(s.to); }, [](const Path::Close&) {}}, step);
  if (low.x > high.x) return {};
  return {low, high};
}

Polyline simplified(const Polyline& points, double tolerance) {
  const std::size_t n = points.size();
  if (n < 3) return points;
  std::vector<bool> keep(n, false);
  keep.front() = keep.back() = true;
  std::vector<std::pair<std::size_t, std::size_t>> open{{0, n - 1}};
  while (!open.empty()) {
    const auto [a, b] = open.back();
    open.pop_back();
    double worst = tolerance;
    std::size_t at = 0;
    const Vec2 d = points[b] - points[a];
    const double l = glm::length(d);
    for (std::size_t i = a + 1; i < b; ++i) {
      const Vec2 q = points[i] - points[a];
      const double along = l > 1e-12 ? std::clamp(glm::dot(q, d) / (l * l), 0.0, 1.0) : 0.0;
      const double off = glm::length(q - d * along);
      if (off > worst) { worst = off; at = i; }
    }
    if (at == 0) continue;
    keep[at] = true;
    open.emplace_back(a, at);
    open.emplace_back(at, b);
  }
  Polyline out;
  for (std::size_t i = 0; i < n; ++i)
    if (keep[i]) out.push_back(points[i]);
  return out;
}

bool Group::operator==(const Group& o) const {
  return mark == o.mark && a == o.a && b == o.b && c == o.c && d == o.d && tx == o.tx && ty == o.ty && clip == o.clip &&
         opacity == o.opacity && marks == o.marks;
}

// ---- dump
namespace {

std::string hex(Colour c) {
  const auto two = [](float v) {
    const int q = static_cast<int>(std::lround(static_cast<double>(std::clamp(v, 0.0f, 1.0f)) * 255));
    const char* digits = "0123456789ABCDEF";
    return std::string{digits[q / 16], digits[q % 16]};
  };
  return "#" + two(c.r) + two(c.g) + two(c.b) + (c.a < 1 ? two(c.a) : "");
}

std::string extent(const Path& path) {
  const auto [low, high] = bounds(path);
  return to_text(low.x, 0) + "," + to_text(low.y, 0) + " " + to_text(high.x - low.x, 0) + "x" + to_text(high.y - low.y, 0);
}

std::string paint_text(const Paint& paint) {
  return std::visit(Overloaded{[](const Colour& c) { return hex(c); }, [](const RadialBlend&) { return std::string{"radial"}; },
                               [](const LinearBlend&) { return std::string{"linear"}; },
                               [](const Hatch& h) { return "hatch " + hex(h.ground) + (h.crossed ? " crossed" : "") + (h.broken ? " broken" : ""); },
                               [](const Dots& d) { return "dots " + hex(d.ground); }}, paint);
}

void dump_mark(const Mark& mark, int depth, std::string& out) {
  const auto name = [](const MarkId& id) { return id.role + (id.id.empty() ? "" : "/" + id.id); };
  out += std::string(static_cast<std::size_t>(depth) * 2, ' ');
  std::visit(Overloaded{
      [&](const Fill& f) { out += "fill " + name(f.mark) + " " + extent(f.path) + " " + paint_text(f.paint) + "\n"; },
      [&](const Stroke& s) { out += "stroke " + name(s.mark) + " " + extent(s.path) + " " + hex(s.colour) + " " + to_text(s.width, 1) + (s.dashes.empty() ? "" : " dashed") + "\n"; },
      [&](const Text& t) { out += "text " + name(t.mark) + " \"" + t.text + "\" " + to_text(t.at.x, 0) + "," + to_text(t.at.y, 0) + " " + to_text(t.size, 1) + (t.bold ? " bold " : " ") + hex(t.colour) + "\n"; },
      [&](const Image& i) { out += "image " + name(i.mark) + " " + to_text(i.columns) + "x" + to_text(i.rows) + "\n"; },
      [&](const Group& g) {
        out += "group " + name(g.mark) + (g.clip ? " clip " + extent(*g.clip) : "") + (g.opacity < 1 ? " opacity " + to_text(g.opacity, 2) : "") + "\n";
        for (const Mark& m : g.marks) dump_mark(m, depth + 1, out);
      }}, mark);
}

} // namespace

std::string dump(const Scene& scene) {
  std::string out = "scene " + to_text(scene.width, 0) + "x" + to_text(scene.height, 0) + " " + hex(scene.ground) + "\n";
  for (const Mark& m : scene.marks) dump_mark(m, 1, out);
  return out;
}

} // namespace mw
