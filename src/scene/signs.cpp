#include "scene/signs.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace mw {
namespace {

constexpr std::array names{
    std::pair{Sign::play, "play"}, std::pair{Sign::pause, "pause"}, std::pair{Sign::step, "step"}, std::pair{Sign::back, "back"},
    std::pair{Sign::loop, "loop"}, std::pair{Sign::slow, "slow"}, std::pair{Sign::sound, "sound"}, std::pair{Sign::no_sound, "no sound"},
    std::pair{Sign::spotlight, "spotlight"}, std::pair{Sign::mirror, "mirror"}, std::pair{Sign::labels, "labels"}, std::pair{Sign::cover, "cover"},
    std::pair{Sign::present, "present"}, std::pair{Sign::down, "open"}, std::pair{Sign::right, "next"}, std::pair{Sign::left, "before"},
    std::pair{Sign::tick, "done"}, std::pair{Sign::cross, "close"}, std::pair{Sign::plus, "add"}, std::pair{Sign::glass, "rest"},
    std::pair{Sign::tug, "tug"}, std::pair{Sign::quick_return, "quick return"}, std::pair{Sign::swap, "swap"}, std::pair{Sign::near_twins, "near twins"},
    std::pair{Sign::counter_move, "counter-move"}, std::pair{Sign::out_of_step, "out of step"}, std::pair{Sign::accent_shift, "accent shift"}};

/// A pen in units of the half side.
struct SignPen {
  Canvas canvas;
  Vec2 centre;
  double s, w;
  Colour colour;
  MarkId id{"sign", {}};

  [[nodiscard]] Vec2 at(double x, double y) const { return centre + Vec2{x, y} * s; }
  [[nodiscard]] Path lines(std::initializer_list<Vec2> points, bool closed = false) const {
    Polyline p;
    for (const Vec2 q : points) p.push_back(at(q.x, q.y));
    return line_path(p, closed);
  }
  void draw(std::initializer_list<Vec2> points, bool closed = false) { canvas.stroke(id, lines(points, closed), colour, w); }
  void solid(std::initializer_list<Vec2> points) { canvas.fill(id, lines(points, true), colour); }
  void arc(Vec2 c, double r, double from, double to, bool close = false) {
    Polyline p;
    const int n = 24;
    for (int i = 0; i <= n; ++i) {
      const double a = from + (to - from) * i / n;
      p.push_back(at(c.x + r * std::cos(a), c.y + r * std::sin(a)));
    }
    canvas.stroke(id, smooth_path(p, close), colour, w);
  }
  void dot(Vec2 c, double r) { canvas.circle(id, at(c.x, c.y), r * s, colour); }
  void arrow(Vec2 a, Vec2 b, double head, double width = 1) { canvas.arrow(id, at(a.x, a.y), at(b.x, b.y), {colour, w * width, head * s, {}, 0}); }
};

void draw_horn(SignPen& p) {
  p.solid({{-0.8, -0.25}, {-0.45, -0.25}, {-0.05, -0.65}, {-0.05, 0.65}, {-0.45, 0.25}, {-0.8, 0.25}});
}

void draw_loop(SignPen& p) {
  const double a = -60 * std::numbers::pi / 180;
  p.arc({0, 0}, 0.75, a, 210 * std::numbers::pi / 180);
  const Vec2 end{0.75 * std::cos(a), 0.75 * std::sin(a)};
  p.draw({{end.x - 0.55, end.y - 0.22}, end, {end.x - 0.08, end.y + 0.58}});
}

void draw_slow(SignPen& p) {
  Polyline stairs;
  for (int i = 0; i < 4; ++i) {
    stairs.push_back(p.at(-0.8 + i * 0.42, -0.6 + i * 0.4));
    stairs.push_back(p.at(-0.4 + i * 0.42, -0.6 + i * 0.4));
  }
  p.canvas.stroke(p.id, line_path(stairs, false), p.colour, p.w);
}

void draw_spotlight(SignPen& p) {
  p.draw({{-0.25, -0.8}, {0.25, -0.8}, {0.8, 0.5}, {-0.8, 0.5}}, true);
  Polyline pool;
  for (int i = 0; i < 24; ++i) {
    const double a = 2 * std::numbers::pi * i / 24;
    pool.push_back(p.at(0.8 * std::cos(a), 0.62 + 0.22 * std::sin(a)));
  }
  p.canvas.fill(p.id, smooth_path(pool, true), p.colour);
}

void draw_mirror(SignPen& p) {
  p.canvas.stroke(p.id, p.lines({{0, -0.85}, {0, 0.85}}), p.colour, p.w, {p.w * 0.3, p.w * 1.9});
  p.solid({{-0.25, -0.5}, {-0.9, 0.5}, {-0.25, 0.5}});
  p.draw({{0.25, -0.5}, {0.9, 0.5}, {0.25, 0.5}}, true);
}

void draw_labels(SignPen& p) {
  p.draw({{-0.8, -0.5}, {0.3, -0.5}, {0.85, 0}, {0.3, 0.5}, {-0.8, 0.5}}, true);
  p.arc({-0.4, 0}, 0.12, 0, 2 * std::numbers::pi, true);
}

void draw_cover(SignPen& p) {
  p.draw({{-0.85, -0.75}, {0.85, -0.75}});
  Path hem;
  hem.steps.emplace_back(Path::Move{p.at(-0.7, -0.7)});
  hem.steps.emplace_back(Path::Line{p.at(-0.7, 0.55)});
  for (int i = 0; i < 4; ++i) {
    const double x = -0.7 + 0.35 * i;
    hem.steps.emplace_back(Path::Cubic{p.at(x, 0.92), p.at(x + 0.35, 0.92), p.at(x + 0.35, 0.55)});
  }
  hem.steps.emplace_back(Path::Line{p.at(0.7, -0.7)});
  p.canvas.stroke(p.id, std::move(hem), p.colour, p.w);
}

void draw_present(SignPen& p) {
  p.canvas.stroke(p.id, rounded_rectangle(p.at(-0.85, -0.65), Vec2{1.7, 1.05} * p.s, 0.12 * p.s), p.colour, p.w);
  p.draw({{-0.5, 0.85}, {0, 0.4}, {0.5, 0.85}});
}

void draw_quick_return(SignPen& p) {
  Path hairpin;
  hairpin.steps = {Path::Move{p.at(-0.5, 0.8)}, Path::Line{p.at(-0.5, -0.1)}, Path::Cubic{p.at(-0.5, -0.95), p.at(0.45, -0.95), p.at(0.45, -0.1)}};
  p.canvas.stroke(p.id, std::move(hairpin), p.colour, p.w);
  p.arrow({0.45, -0.2}, {0.45, 0.85}, 0.7);
}

void draw_twins(SignPen& p) {
  p.arc({-0.38, 0}, 0.46, 0, 2 * std::numbers::pi, true);
  p.arc({0.38, 0}, 0.46, 0.5, 5.8);
  p.dot({0.86, 0}, 0.1);
}

void draw_ticks(SignPen& p) {
  for (const auto& [y, count] : {std::pair{-0.5, 4}, std::pair{0.5, 3}})
    for (int i = 0; i < count; ++i) {
      const double x = -0.8 + 1.6 * i / (count - 1);
      p.draw({{x, y - 0.3}, {x, y + 0.3}});
    }
}

void draw_glass(SignPen& p) {
  p.canvas.fill(p.id, p.lines({{-0.5, -0.2}, {-0.43, 1}, {0.43, 1}, {0.5, -0.2}}, true), with_alpha(p.colour, 0.45));
  p.draw({{-0.55, -1}, {-0.43, 1}, {0.43, 1}, {0.55, -1}});
}

void draw_into(SignPen& p, Sign sign) {
  switch (sign) {
    case Sign::play: p.solid({{-0.55, -0.8}, {0.85, 0}, {-0.55, 0.8}}); p.draw({{-0.55, -0.8}, {0.85, 0}, {-0.55, 0.8}}, true); break;
    case Sign::pause: p.w *= 1.7; p.draw({{-0.42, -0.7}, {-0.42, 0.7}}); p.draw({{0.42, -0.7}, {0.42, 0.7}}); break;
    case Sign::step: p.draw({{-0.7, -0.6}, {0.2, 0}, {-0.7, 0.6}}); p.draw({{0.7, -0.7}, {0.7, 0.7}}); break;
    case Sign::back: p.draw({{0.7, -0.6}, {-0.2, 0}, {0.7, 0.6}}); p.draw({{-0.7, -0.7}, {-0.7, 0.7}}); break;
    case Sign::loop: draw_loop(p); break;
    case Sign::slow: draw_slow(p); break;
    case Sign::sound: draw_horn(p); p.arc({-0.05, 0}, 0.45, -0.7, 0.7); p.arc({-0.05, 0}, 0.85, -0.7, 0.7); break;
    case Sign::no_sound: draw_horn(p); p.draw({{-0.85, 0.85}, {0.85, -0.85}}); break;
    case Sign::spotlight: draw_spotlight(p); break;
    case Sign::mirror: draw_mirror(p); break;
    case Sign::labels: draw_labels(p); break;
    case Sign::cover: draw_cover(p); break;
    case Sign::present: draw_present(p); break;
    case Sign::down: p.draw({{-0.5, -0.25}, {0, 0.3}, {0.5, -0.25}}); break;
    case Sign::right: p.draw({{-0.25, -0.5}, {0.3, 0}, {-0.25, 0.5}}); break;
    case Sign::left: p.draw({{0.25, -0.5}, {-0.3, 0}, {0.25, 0.5}}); break;
    case Sign::tick: p.draw({{-0.6, 0}, {-0.1, 0.5}, {0.7, -0.6}}); break;
    case Sign::cross: p.draw({{-0.5, -0.5}, {0.5, 0.5}}); p.draw({{-0.5, 0.5}, {0.5, -0.5}}); break;
    case Sign::plus: p.draw({{-0.6, 0}, {0.6, 0}}); p.draw({{0, -0.6}, {0, 0.6}}); break;
    case Sign::glass: draw_glass(p); break;
    case Sign::tug: p.arrow({-0.12, 0}, {-1, 0}, 0.62, 1.05); p.arrow({0.12, 0}, {1, 0}, 0.62, 1.05); p.dot({0, 0}, 0.2); break;
    case Sign::quick_return: draw_quick_return(p); break;
    case Sign::swap: p.arrow({-0.8, 0.5}, {0.85, -0.55}, 0.6); p.arrow({-0.8, -0.5}, {0.85, 0.55}, 0.6); break;
    case Sign::near_twins: draw_twins(p); break;
    case Sign::counter_move: p.arrow({-0.85, -0.5}, {0.85, -0.5}, 0.6); p.arrow({0.85, 0.5}, {-0.85, 0.5}, 0.6); break;
    case Sign::out_of_step: draw_ticks(p); break;
    case Sign::accent_shift: p.draw({{-0.85, 0}, {-0.1, 0}}); p.arrow({-0.1, 0}, {0.85, -0.65}, 0.55); p.arrow({-0.1, 0}, {0.85, 0.65}, 0.55); break;
  }
}

Path curve(std::initializer_list<Vec2> points) { // start, then triples of a cubic
  Path path;
  const Vec2* p = points.begin();
  path.steps.emplace_back(Path::Move{p[0]});
  for (std::size_t i = 1; i + 2 < points.size(); i += 3) path.steps.emplace_back(Path::Cubic{p[i], p[i + 1], p[i + 2]});
  return path;
}

Path closed(Path path) {
  path.steps.emplace_back(Path::Close{});
  return path;
}

} // namespace

std::string_view to_text(Sign sign) {
  for (const auto& [key, name] : names)
    if (key == sign) return name;
  return "";
}

std::span<const Sign> all_signs() {
  static const auto all = [] {
    std::array<Sign, names.size()> a{};
    for (std::size_t i = 0; i < names.size(); ++i) a[i] = names[i].first;
    return a;
  }();
  return all;
}

Sign sign_of(ClashKind kind) {
  switch (kind) {
    case ClashKind::tug: return Sign::tug;
    case ClashKind::quick_return: return Sign::quick_return;
    case ClashKind::swap: return Sign::swap;
    case ClashKind::near_twins: return Sign::near_twins;
    case ClashKind::counter_move: return Sign::counter_move;
    case ClashKind::out_of_step: return Sign::out_of_step;
    case ClashKind::accent_shift: return Sign::accent_shift;
  }
  return Sign::tug;
}

std::vector<Mark> draw_sign(Sign sign, Vec2 centre, double s, Colour colour, double width) {
  SignPen pen{{}, centre, s, width > 0 ? width : std::max(s * 0.2, 0.6), colour, {"sign", std::string{to_text(sign)}}};
  draw_into(pen, sign);
  return std::move(pen.canvas.marks);
}

std::vector<Mark> draw_articulator(Articulator articulator, Vec2 c, double s, Colour colour) {
  Canvas canvas;
  const MarkId id{"articulator", std::string{to_text(articulator)}};
  const double w = s * 0.26;
  const auto at = [&](double x, double y) { return c + Vec2{x, y} * s; };
  switch (articulator) {
    case Articulator::lips:
      canvas.stroke(id, closed(curve({at(-1, 0), at(-.4, -1), at(-.2, -.6), at(0, -.4), at(.2, -.6), at(.4, -1), at(1, 0), at(.4, 1), at(-.4, 1), at(-1, 0)})), colour, w);
      canvas.line(id, at(-.9, 0), at(.9, 0), colour, w);
      break;
    case Articulator::tip:
      canvas.fill(id, closed(curve({at(1, .8), at(.2, .6), at(-.5, .3), at(-.9, -.8), at(.1, -.5), at(.8, -.4), at(1, -.1)})), colour);
      break;
    case Articulator::body: canvas.fill(id, closed(curve({at(-1, .7), at(-.9, -1.2), at(.9, -1.2), at(1, .7)})), colour); break;
    case Articulator::root: {
      Path leaf = curve({at(-.1, -1), at(1.1, -.3), at(.9, .5), at(.2, 1)});
      leaf.steps.emplace_back(Path::Line{at(-.6, 1)});
      leaf.steps.emplace_back(Path::Cubic{at(-.1, .3), at(0, -.3), at(-.7, -1)});
      canvas.fill(id, closed(std::move(leaf)), colour);
      break;
    }
    case Articulator::velum: canvas.stroke(id, curve({at(-1, -.5), at(.2, -.9), at(.7, -.3), at(.6, .9)}), colour, w); break;
    case Articulator::jaw: canvas.stroke(id, line_path({at(-.9, -.8), at(-.7, .5), at(.9, .8), at(.9, .2)}, false), colour, w); break;
    case Articulator::larynx:
    case Articulator::glottis: canvas.stroke(id, line_path({at(-.6, .8), at(0, -.9), at(.6, .8)}, false), colour, w); break;
  }
  return std::move(canvas.marks);
}

std::vector<Mark> draw_flag(const Theme& theme, ClashKind kind, int level, bool lit, Vec2 c, double r, const std::string& id) {
  Canvas canvas;
  const Colour ink = lit ? on_clash(theme) : theme.quiet;
  canvas.box({"flag", id}, {c.x - r, c.y - r, 2 * r, 2 * r}, r * 0.42, lit ? theme.clash(level) : theme.raised, lit && theme.dark ? clear : lit ? theme.clash_ink : theme.quiet,
             std::max(r * 0.13, r < 8 ? 0.7 : 1.2));
  canvas.add(draw_sign(sign_of(kind), c - Vec2{0, r * 0.12}, r * 0.58, ink));
  for (int i = 0; i < level; ++i) canvas.circle({"flag-pip", id}, c + Vec2{(i - (level - 1) / 2.0) * r * 0.38, r * 0.68}, std::max(r * 0.1, 0.5), ink);
  return std::move(canvas.marks);
}

std::vector<Mark> draw_logo(const Theme& theme, Vec2 c, double s) {
  Canvas canvas;
  const auto at = [&](double x, double y) { return c + Vec2{x, y} * s; };
  canvas.stroke({"logo", "square"}, line_path({at(-.8, -.85), at(-.8, .75), at(.9, .75)}, false), theme.action, s * 0.2);
  canvas.fill({"logo", "hump"}, closed(curve({at(-.45, .42), at(-.5, -1.05), at(.75, -.8), at(.75, .42)})), theme.tongue);
  return std::move(canvas.marks);
}

std::vector<Mark> draw_lip_sign(Vec2 c, double r, double rounding, Colour line, Colour ground, double width) {
  const double q = std::clamp(rounding, 0.0, 1.0), w = r * (1.35 - 0.5 * q), h = r * (0.42 + 0.48 * q) * (1 + 0.33 * q), in = w * (1 - 0.45 * (1 - q));
  Path lens = closed(curve({c + Vec2{-w, 0}, c + Vec2{-in, -h}, c + Vec2{in, -h}, c + Vec2{w, 0}, c + Vec2{in, h}, c + Vec2{-in, h}, c + Vec2{-w, 0}}));
  Canvas canvas;
  canvas.fill({"lip-sign", {}}, lens, ground);
  canvas.stroke({"lip-sign", {}}, std::move(lens), line, width);
  return std::move(canvas.marks);
}

std::string_view level_word(int level) { return level <= 1 ? "mild" : level == 2 ? "clear" : "strong"; }

Hatch clash_hatch(const Theme& theme, int level, double pitch, double width, double alpha) {
  return {with_alpha(theme.hatch, level > 1 ? 0.85 : 0.6), with_alpha(theme.clash(level), alpha), -38, pitch, width, level >= 3, level <= 1};
}

Colour on_clash(const Theme& theme) { return theme.hatch; }
Colour clash_edge(const Theme& theme) { return theme.dark ? theme.clash3 : theme.clash_ink; }

} // namespace mw
