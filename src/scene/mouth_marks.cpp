#include "scene/mouth_pen.h"
#include "scene/mouth_slip.h"
#include "scene/signs.h"

#include "acoustics/sections.h"
#include "base/curve.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace mw {
namespace {

// ---- clash on the flesh

Polyline band_ring(const Polyline& outer, const Polyline& inner) {
  Polyline ring = outer;
  ring.insert(ring.end(), inner.rbegin(), inner.rend());
  return ring;
}

bool on_tongue(Articulator a) { return a == Articulator::tip || a == Articulator::body || a == Articulator::root; }

} // namespace

void draw_clash_band(const MouthPen& p, const ClashBand& clash, const Polyline& outer, const Polyline& inner) {
  if (outer.empty() || !on_tongue(clash.articulator)) return; // other parts are drawn after their own piece
  const double lw = p.view.line_scale, pitch = std::max(1.55 * p.frame.k * p.s.scale, 4.2 * lw);
  Hatch hatch = clash_hatch(p.theme, clash.level, pitch, 1.25 * lw, 0.96 * clash.opacity);
  hatch.line = with_alpha(hatch.line, static_cast<double>(hatch.line.a) * clash.opacity);
  p.fill("clash", band_ring(outer, inner), hatch);
}

void draw_clash_edge(const MouthPen& p, const ClashBand& clash, const Polyline& outer, const Polyline& inner) {
  if (outer.empty()) return;
  const double lw = p.view.line_scale;
  if (!on_tongue(clash.articulator)) {
    const double pitch = std::max(1.2 * p.frame.k * p.s.scale, 3.6 * lw);
    Hatch hatch = clash_hatch(p.theme, clash.level, pitch, 1.25 * lw, 0.96 * clash.opacity);
    hatch.line = with_alpha(hatch.line, static_cast<double>(hatch.line.a) * clash.opacity);
    p.fill("clash", band_ring(outer, inner), hatch);
  }
  const auto faded = [&](Colour c) { return with_alpha(c, clash.opacity); };
  p.stroke("clash", inner, faded(p.theme.dark ? p.theme.hatch : p.theme.clash_ink), 1.6 * lw, false, clash.level == 1 ? std::vector<double>{5 * lw, 3.5 * lw} : std::vector<double>{});
  p.stroke("clash", outer, faded(p.theme.dark ? p.theme.line : p.theme.halo), 6.2 * lw);
  p.stroke("clash", outer, faded(p.theme.dark ? p.theme.clash2 : p.theme.clash_ink), 4.2 * lw);
}

// ---- spotlight: everything else recedes

void draw_spotlight_veil(const MouthPen& p, const Outline& outline) {
  const Articulator part = *p.view.spotlight;
  Polyline ring, edge;
  if (on_tongue(part)) ring = p.s.tongue, edge = p.s.tongue_edge;
  else if (part == Articulator::velum) ring = p.s.velum, edge = p.s.velum_line;
  else if (part == Articulator::jaw) ring = edge = p.s.mandible;
  else if (part == Articulator::lips) ring = edge = outline.lower_lip_line;
  else ring = edge = p.s.larynx_air;
  const double veil = (p.theme.name == "high" ? 0.35 : 0.50) * p.view.spotlight_strength; // visual design, section 7.6
  Path path = rounded_rectangle({p.view.rect.x, p.view.rect.y}, {p.view.rect.width, p.view.rect.height}, 0);
  path = joined(std::move(path), p.frame.path(ring, true));
  if (part == Articulator::lips) path = joined(std::move(path), p.frame.path(outline.upper_lip_line, true));
  p.canvas.fill({"veil", {}}, std::move(path), with_alpha(p.theme.panel, veil), true);
  p.stroke("spotlight", edge, p.theme.line, p.heavy);
  if (part == Articulator::lips) p.stroke("spotlight", outline.upper_lip_line, p.theme.line, p.heavy);
  if (on_tongue(part)) {
    Polyline roof = p.s.roof_line;
    roof.insert(roof.end(), p.s.velum_line.begin(), p.s.velum_line.begin() + static_cast<std::ptrdiff_t>(std::min<std::size_t>(p.s.velum_line.size(), 58)));
    p.stroke("spotlight", roof, p.theme.line, p.wall);
  }
}

// ---- where the tongue is going, was, or may slip to

void draw_ghosts(const MouthPen& p) {
  const double lw = p.view.line_scale;
  for (const Ghost& ghost : p.view.ghosts) {
    const Outline& o = *ghost.outline;
    Polyline line{o.dorsum.begin() + static_cast<std::ptrdiff_t>(o.dorsum.size() / 4), o.dorsum.end()};
    line.insert(line.end(), o.tip_cap.begin(), o.tip_cap.end());
    line.insert(line.end(), o.underside.begin(), o.underside.begin() + static_cast<std::ptrdiff_t>(std::min<std::size_t>(6, o.underside.size())));
    const double width = 2.0 * lw;
    p.stroke("ghost", line, with_alpha(p.theme.dark ? p.theme.halo : p.theme.shadow, 0.55 * ghost.opacity), width + 2.4 * lw);
    p.stroke("ghost", line, with_alpha(p.theme.ghost, ghost.opacity), width, false, ghost.kind == Ghost::Kind::next ? std::vector<double>{7 * lw, 5 * lw} : std::vector<double>{2 * lw, 5 * lw});
  }
  const double n = static_cast<double>(p.view.trail.size());
  for (std::size_t i = 0; i < p.view.trail.size(); ++i)
    p.canvas.circle({"trail", {}}, p.frame(p.view.trail[i]), (1.2 + 2.4 * static_cast<double>(i) / n) * lw, p.theme.dark ? p.theme.of(Articulator::tip) : from_hex("#9CC7FF"), from_hex("#0B1B2A"), 0.8 * lw);
  if (p.view.slip)
    for (const Polyline& line : rail_of(*p.view.slip, p.view.slip_part)) {
      const double on = p.view.slip_opacity;
      p.stroke("slip", line, with_alpha(from_hex("#1B1206"), 0.75 * on), 6.4 * lw);
      p.stroke("slip", line, with_alpha(p.theme.clash2, on), 4.0 * lw);
      p.stroke("slip", line, with_alpha(from_hex("#1B1206"), on), 1.5 * lw);
    }
}

// ---- air

Airway airway_of(const Anatomy& anatomy, const Outline& outline, const Pose& pose) {
  const Midline middle = midline(cross_lines(anatomy, outline));
  Airway air{middle.point, middle.width, 0};
  // the lips are narrower than the lines just behind them where they are nearly shut
  for (std::size_t i = 0; i < air.gap.size(); ++i)
    if (air.line[i].x < outline.lip_edge_x + 4) air.gap[i] = std::min(air.gap[i], std::max(pose.lip_opening, 0.0));
  const std::size_t most = air.gap.size() > 6 ? air.gap.size() - 6 : air.gap.size(); // not the voice box
  for (std::size_t i = 1; i < most; ++i)
    if (air.gap[i] < air.gap[air.narrowest]) air.narrowest = i;
  return air;
}

namespace {

constexpr double shut_mm = 0.25;       // visual design, section 7.8 and the prototype's closures
constexpr double least_gap_mm = 0.6;   // no arrow in a narrower place
constexpr double turbulent_mm = 1.6;   // fricatives of the table keep 0.8 to 1.5; approximants 2 and more
constexpr double arrow_mm = 4.8, arrow_step_mm = 9.5;

/// A fixed sequence of numbers 0..1, so that a picture is the same every time (xorshift).
struct Scatter {
  std::uint32_t state;
  double next() {
    state ^= state << 13, state ^= state >> 17, state ^= state << 5;
    return static_cast<double>(state % 10000u) / 10000.0;
  }
};

void draw_arrow(const MouthPen& p, const Polyline& points) {
  const double lw = p.view.line_scale, head = 3.0 * lw;
  const Polyline q = p.frame(points);
  const Colour colour = with_alpha(p.theme.flow, 0.9 * p.view.air->opacity);
  p.canvas.stroke({"air-arrow", {}}, smooth_path(q, false), colour, 1.5 * lw);
  const Vec2 tip = q.back();
  Vec2 along = tip - q[q.size() - 2];
  along /= std::max(glm::length(along), 1e-9);
  const Vec2 across{-along.y, along.x};
  p.canvas.stroke({"air-arrow", {}}, line_path({tip - along * head + across * (head * 0.8), tip, tip - along * head - across * (head * 0.8)}, false), colour, 1.5 * lw);
}

/// Arrows along a line from its start; `gap` none = no narrow places; stops at arc length `end`.
void draw_arrows(const MouthPen& p, const Polyline& line, const std::vector<double>& gap, double end) {
  const double k = p.s.scale, step = arrow_step_mm * k;
  const std::vector<double> arcs = arc_lengths(line);
  for (double at = 3 * k + std::fmod(p.view.air->drift_mm, step); at + arrow_mm * k < std::min(end, arcs.back()); at += step) {
    if (!gap.empty() && interpolate(arcs, gap, at) < least_gap_mm) continue;
    if (!gap.empty() && interpolate(arcs, gap, at + arrow_mm * k) < least_gap_mm) continue;
    Polyline points;
    for (int i = 0; i < 6; ++i) points.push_back(point_at(line, arcs, at + arrow_mm * k * i / 5));
    draw_arrow(p, points);
  }
}

void draw_turbulence(const MouthPen& p, const Airway& air) {
  std::size_t i = air.narrowest; // outside it, 7 mm on
  while (i > 0 && glm::distance(air.line[i], air.line[air.narrowest]) < 7 * p.s.scale) --i;
  const Vec2 c = p.frame(air.line[i]);
  const double lw = p.view.line_scale;
  Scatter scatter{97};
  for (int n = 0; n < 7; ++n) {
    const double a = 2.4 + 1.6 * scatter.next(), r = (2 + 6 * scatter.next()) * lw * 1.3;
    const Vec2 o = c + Vec2{p.frame.flip * std::cos(a), -0.5 * std::sin(a)} * (r * 2.4);
    Polyline spiral;
    for (int j = 0; j < 14; ++j) {
      const double t = 4.6 * j / 13, rr = (1.2 + 0.75 * t) * lw * 0.8;
      spiral.push_back(o + Vec2{std::cos(t + n), std::sin(t + n)} * rr);
    }
    p.canvas.stroke({"turbulence", {}}, smooth_path(spiral, false), with_alpha(p.theme.flow, 0.95 * p.view.air->opacity), 1.2 * lw);
  }
}

void draw_pressure(const MouthPen& p, const Airway& air) {
  const double k = p.s.scale;
  std::vector<std::size_t> places; // from the closure down to the voice box
  for (std::size_t i = air.narrowest + 2; i + 6 < air.gap.size(); ++i)
    if (air.gap[i] > 2 && air.line[i].y > p.s.glottis_y + 14 * k) places.push_back(i);
  if (places.empty()) return;
  Scatter scatter{31};
  for (int n = 0; n < 60; ++n) {
    const auto at = static_cast<std::size_t>(static_cast<double>(places.size()) * std::pow(scatter.next(), 1.7));
    const std::size_t i = places[std::min(at, places.size() - 1)];
    Vec2 along = air.line[std::min(i + 1, air.line.size() - 1)] - air.line[i - 1];
    along /= std::max(glm::length(along), 1e-9);
    const double off = (scatter.next() - 0.5) * 0.6 * std::min(air.gap[i], 9.0 * k), on = (scatter.next() - 0.5) * 4 * k;
    p.canvas.circle({"pressure", {}}, p.frame(air.line[i] + Vec2{-along.y, along.x} * off + along * on), 1.8 * p.view.line_scale, with_alpha(p.theme.flow, p.view.air->opacity));
  }
}

double front_wall_at(const Section& s, double y) { // x of the larynx's front wall at a height
  double x = 0, best = 1e9;
  for (const Vec2 q : s.larynx_front)
    if (std::abs(q.y - y) < best) best = std::abs(q.y - y), x = q.x;
  return x;
}

void draw_ripples(const MouthPen& p) {
  const double k = p.s.scale, lw = p.view.line_scale;
  const double x0 = front_wall_at(p.s, p.s.glottis_y + 5 * p.s.scale) + 0.4 * k, x1 = x0 + 7.2 * k;
  for (int i = 0; i < 3; ++i) {
    Polyline wave;
    for (int j = 0; j < 24; ++j) {
      const double t = j / 23.0;
      wave.push_back({x0 + (x1 - x0) * t, p.s.glottis_y + (3.4 + i * 3.3 + 0.8 * std::sin(t * 3 * std::numbers::pi)) * k});
    }
    p.stroke("voice", wave, with_alpha(p.theme.voice, (1 - 0.22 * i) * p.view.air->opacity), (2.2 - 0.45 * i) * lw);
  }
}

Polyline nose_way(const Anatomy& anatomy, const Outline& outline, const Airway& air) {
  const HeadWarp warp = head_warp(anatomy);
  const double k = anatomy.tongue_scale, below = outline.velum_cap[outline.velum_cap.size() / 2].y - 7 * k;
  Polyline knots;
  std::size_t n = 0;
  for (std::size_t i = air.line.size(); i-- > 0;) // from the voice box up to the soft palate
    if (air.line[i].y < below && n++ % 4 == 0) knots.push_back(air.line[i]);
  for (const double share : {0.98, 0.8, 0.6}) { // between its upper face and the back wall
    const Vec2 soft = outline.velum_upper[static_cast<std::size_t>(share * static_cast<double>(outline.velum_upper.size() - 1))];
    const Nearest wall = nearest_on(anatomy.back_wall, soft);
    knots.push_back(0.5 * (soft + wall.foot));
  }
  for (const auto& [x, y] : {std::pair{58.0, 36.0}, {45.0, 31.5}, {25.0, 31.0}, {5.0, 32.0}, {-10.0, 33.0}, {-23.0, 31.2}}) knots.push_back(warp(x, y));
  return spline_through(knots, 160);
}

} // namespace

void draw_air(const MouthPen& p, const Anatomy& anatomy, const Outline& outline, const Pose& pose) {
  const Airway air = airway_of(anatomy, outline, pose);
  if (air.line.size() < 8 || p.view.air->opacity <= 0.01) return;
  const AirMarks& marks = *p.view.air;
  const bool folds_shut = pose.glottis < 0.03, nose = pose.velum > 0.25, sides_open = pose.sides < -0.3;
  const bool shut = air.gap[air.narrowest] < shut_mm;
  if (marks.arrows && !folds_shut) {
    const Polyline out{air.line.rbegin(), air.line.rend()}; // voice box to lips
    const std::vector<double> gap{air.gap.rbegin(), air.gap.rend()}, arcs = arc_lengths(out);
    const std::size_t stop = out.size() - 1 - air.narrowest;
    if (nose) draw_arrows(p, nose_way(anatomy, outline, air), {}, 1e9);
    if (!nose || !shut) draw_arrows(p, out, gap, shut ? (sides_open ? arcs[stop] : 0.0) : 1e9);
  }
  if (marks.turbulence && !shut && !nose && !folds_shut && air.gap[air.narrowest] < turbulent_mm) draw_turbulence(p, air);
  if (marks.pressure && shut && !nose && !sides_open) draw_pressure(p, air);
  if (marks.ripples && pose.glottis > 0.03 && pose.glottis < 0.3) draw_ripples(p);
}

} // namespace mw
