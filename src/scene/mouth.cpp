#include "scene/mouth.h"

#include "base/curve.h"
#include "scene/mouth_pen.h"

#include <algorithm>
#include <cmath>

namespace mw {
namespace {

// ---- layers, back to front (visual design, section 7)

void draw_paper(const MouthPen& p) {
  p.shadow(p.s.head, 3.0, 0.8);
  p.fill("head", p.s.head, p.theme.head);
}

// The air of mouth and throat; in front of the lips it fades out, so that the mouth is open to the room.
void draw_hollow(const MouthPen& p) {
  const Colour air = p.theme.air;
  const double inside = p.s.lips_x + 6.5 * p.s.scale, outside = p.s.lips_x;
  const Colour behind = p.view.backdrop.value_or(p.theme.panel);
  if (behind.a > 0) p.fill("air", p.s.mouth_air, behind);
  p.fill("air", p.s.mouth_air, LinearBlend{p.frame({inside, 0}), p.frame({outside, 0}), {{0, air}, {0.35, with_alpha(air, 0.82)}, {1, with_alpha(air, 0)}}});
  p.fill("nasal-air", p.s.nasal_air, p.theme.nasal);
  if (!p.view.detail && p.view.line_scale < 0.5) return;
  for (const Polyline& shelf : p.s.shelves) p.piece("nose-shelf", shelf, p.theme.turb, p.theme.line2, 0.8 * p.view.line_scale);
}

void draw_back(const MouthPen& p) {
  // its shadow must not fall below the paper; a box is the cheapest clip there is
  Canvas canvas;
  MouthPen{canvas, p.theme, p.view, p.frame, p.s, p.thin, p.wall, p.heavy}.shadow(p.s.back_shadow, 2.4);
  if (!canvas.marks.empty()) {
    Group inside{{"shadow", "back"}};
    const double floor = p.frame({0, p.s.floor_y}).y;
    inside.clip = rounded_rectangle({p.view.rect.x - 1e4, p.view.rect.y - 1e4}, {p.view.rect.width + 2e4, floor - p.view.rect.y + 1e4}, 0);
    inside.marks = std::move(canvas.marks);
    p.canvas.add(std::move(inside));
  }
  p.fill("back", p.s.back_tissue, p.theme.head);
  if (p.view.detail)
    for (const Polyline& bone : p.s.vertebrae) p.piece("vertebra", bone, p.theme.vert, p.theme.vert_e, 0.9 * p.view.line_scale);
  p.stroke("back-wall", p.s.back_wall, p.theme.line, p.wall);
}

void draw_palate(const MouthPen& p) {
  p.shadow(p.s.gum_shadow, 2.6);
  p.fill("palate", p.s.gum, p.theme.gum);
  p.piece("bone", p.s.bone, p.theme.bone, p.theme.line2, 0.9 * p.view.line_scale);
  p.stroke("nose-floor", p.s.nasal_floor, p.theme.line, p.thin);
  p.stroke("palate", p.s.roof_line, p.theme.line, p.wall);
  p.shadow(p.s.velum_shadow, 2.6);
  p.fill("velum", p.s.velum, p.theme.velum);
  p.stroke("velum", p.s.velum_line, p.theme.line, p.wall);
}

void draw_upper_tooth(const MouthPen& p) {
  p.fill("upper-lip", p.s.upper_flesh, p.theme.head);
  p.shadow(p.s.upper_tooth, 1.6, 0.7);
  p.piece("upper-tooth", p.s.upper_tooth, p.theme.tooth, p.theme.dark ? p.theme.line2 : p.theme.line, p.thin);
}

void draw_floor(const MouthPen& p) {
  p.fill("floor", p.s.floor_tissue, p.theme.head);
  p.stroke("floor", p.s.floor_line, p.theme.line, p.thin);
  p.piece("floor-muscle", p.s.floor_muscle, p.theme.deep, p.theme.line2, 0.9 * p.view.line_scale);
  for (const Polyline& thread : p.s.floor_threads) p.stroke("floor-muscle", thread, with_alpha(p.theme.line2, 0.7), 0.6 * p.view.line_scale);
}

void draw_tongue(const MouthPen& p) {
  const double mm = p.frame.k * p.s.scale;
  p.shadow(p.s.tongue_shadow, 3.4, 1.1);
  const Vec2 chin = p.frame(p.s.genial + Vec2{2, 4} * p.s.scale);
  p.fill("tongue", p.s.tongue, RadialBlend{chin, 6 * mm, 58 * mm, {{0, p.theme.tongue_lo}, {0.62, p.theme.tongue}, {1, p.theme.tongue}}});
  for (const Polyline& fibre : p.s.fibres) p.stroke("fibre", fibre, with_alpha(p.theme.fibre, 0.42), 1.0 * p.view.line_scale);
  Group inside{{"tongue-flesh", {}}}; // the light rim lies inside the edge
  inside.clip = p.frame.path(p.s.tongue, true);
  Polyline rim = p.s.tongue_edge;
  if (rim.size() > 4) rim.resize(rim.size() - 3);
  Canvas flesh;
  flesh.stroke({"tongue-rim", {}}, p.frame.path(rim, false), p.theme.tongue_hi, 3.4 * mm);
  inside.marks = std::move(flesh.marks);
  p.canvas.add(std::move(inside));
}

void draw_jaw(const MouthPen& p) {
  p.piece("hyoid", p.s.hyoid, p.theme.bone, p.theme.line2, p.thin);
  p.fill("lower-lip", p.s.lower_flesh, p.theme.head);
  p.shadow(p.s.mandible, 1.6, 0.5);
  p.piece("jaw", p.s.mandible, p.theme.bone, p.theme.line2, p.thin);
  p.piece("lower-tooth", p.s.lower_tooth, p.theme.tooth, p.theme.dark ? p.theme.line2 : p.theme.line, p.thin);
}

void draw_larynx(const MouthPen& p) {
  p.piece("cartilage", p.s.cricoid_front, p.theme.cart, p.theme.line2, p.thin);
  p.fill("air", p.s.larynx_air, p.theme.air);
  p.fill("larynx", p.s.larynx_tissue, p.theme.deep);
  p.piece("cartilage", p.s.cricoid_back, p.theme.cart, p.theme.line2, p.thin);
  p.stroke("larynx", p.s.larynx_back, p.theme.line, p.wall);
  p.stroke("gullet", p.s.gullet, p.theme.line, p.thin);
  if (!p.s.gullet.empty() && !p.s.larynx_back.empty()) p.stroke("gullet", {p.s.gullet.front(), p.s.larynx_back.front()}, p.theme.line, p.thin);
  p.stroke("larynx", p.s.larynx_front, p.theme.line, p.wall);
  p.fill("pocket", p.s.vallecula_tissue, p.theme.head);
  p.piece("cartilage", p.s.thyroid, p.theme.cart, p.theme.line2, p.thin);
  p.piece("hyoid", p.s.hyoid, p.theme.bone, p.theme.line2, p.thin);
  p.piece("epiglottis", p.s.epiglottis, p.theme.epi, p.theme.line, p.thin);
  p.stroke("pocket", p.s.vallecula, p.theme.line, p.thin);
}

void draw_lips(const MouthPen& p) {
  p.fill("upper-lip", p.s.upper_red, p.theme.lips);
  p.fill("upper-lip", p.s.upper_light, with_alpha(p.theme.lip_hi, 0.8));
  p.fill("lower-lip", p.s.lower_red, p.theme.lips);
  p.fill("lower-lip", p.s.lower_light, with_alpha(p.theme.lip_hi, 0.8));
  Polyline upper = p.s.nose, lower{p.s.lower_lip.rbegin(), p.s.lower_lip.rend()};
  upper.insert(upper.end(), p.s.upper_lip.begin() + 1, p.s.upper_lip.end());
  lower.insert(lower.end(), p.s.chin.begin() + 1, p.s.chin.end());
  p.stroke("profile", upper, p.theme.line, p.wall * 1.1);
  p.stroke("profile", lower, p.theme.line, p.wall * 1.1);
  p.stroke("cut-edge", p.s.cut_edge, p.theme.line2, 1.0 * p.view.line_scale);
}

// ---- the band of a clash

double depth_limit(Articulator a) { return a == Articulator::lips || a == Articulator::velum || a == Articulator::jaw ? 4.2 : 99; }

/// The side of a part's surface on which its flesh lies: +1 right of travel, -1 left.
double inward_side(const Outline& o, Articulator a, const Polyline& outer, const Polyline& normals) {
  const Polyline& ring = a == Articulator::lips ? o.lower_lip : a == Articulator::velum ? o.velum : o.jaw;
  if (a == Articulator::larynx || a == Articulator::glottis) return 1;
  int right = 0;
  for (std::size_t i = 0; i < outer.size(); ++i) right += contains(ring, outer[i] + normals[i] * 1.0) ? 1 : contains(ring, outer[i] - normals[i] * 1.0) ? -1 : 0;
  return right >= 0 ? 1 : -1;
}

void set_band(MouthPicture& picture, const Outline& outline, const ClashBand& clash) {
  const Polyline outer = surface_of(outline, clash.articulator);
  const std::size_t n = outer.size();
  if (n < 4) return;
  const bool tongue = clash.articulator == Articulator::tip || clash.articulator == Articulator::body || clash.articulator == Articulator::root;
  const Vec2 core = outline.genial + Vec2{6, 6} * picture.section.scale;
  const Polyline normals = right_normals(outer);
  const double side = inward_side(outline, clash.articulator, outer, normals);
  const double depth = std::min(clash.depth_mm, depth_limit(clash.articulator)) * picture.section.scale;
  Polyline inner(n);
  for (std::size_t i = 0; i < n; ++i) {
    const double ends = std::min(1.0, static_cast<double>(std::min(i, n - 1 - i)) / 7.0), taper = std::sqrt(std::max(ends * (2 - ends), 0.0));
    Vec2 inward = tongue ? core - outer[i] : normals[i] * side;
    inward /= std::max(glm::length(inward), 1e-9);
    double d = depth;
    if (clash.articulator == Articulator::tip) d = std::min(d, 5.5 * picture.section.scale); // the tip is thin
    inner[i] = outer[i] + inward * (d * taper);
  }
  picture.band_outer = outer;
  picture.band_inner = inner;
}

Polyline slice(const Polyline& line, double from, double to) {
  const double last = static_cast<double>(line.size()) - 1;
  const auto a = static_cast<std::ptrdiff_t>(std::lround(from * last)), b = static_cast<std::ptrdiff_t>(std::lround(to * last));
  return {line.begin() + a, line.begin() + b + 1};
}

} // namespace

Polyline points_of(std::initializer_list<Vec2> points) { return {points}; }

Polyline MouthFrame::operator()(const Polyline& mm) const {
  Polyline out;
  out.reserve(mm.size());
  for (const Vec2 p : mm) out.push_back((*this)(p));
  return out;
}

Path MouthFrame::path(const Polyline& mm, bool closed) const {
  // 0.07 units: below what an edge shows; cubics restore the curve between the points kept
  return smooth_path(simplified((*this)(mm), 0.07), closed);
}

MouthFrame fit_mouth(const MmBox& b, Rect r, bool mirrored) {
  MouthFrame f;
  f.k = std::min(r.width / (b.x1 - b.x0), r.height / (b.y1 - b.y0));
  f.flip = mirrored ? -1 : 1;
  const double left = r.x + (r.width - f.k * (b.x1 - b.x0)) / 2;
  f.ox = mirrored ? left + f.k * b.x1 : left - f.k * b.x0;
  f.oy = r.y + (r.height - f.k * (b.y1 - b.y0)) / 2 + f.k * b.y1;
  return f;
}

MmBox framing(const Anatomy& anatomy, Framing kind) {
  // boxes of the visual design (sections 5, 6, 12) for the adult male, carried to the speaker
  const std::array<MmBox, 5> male{MmBox{-40, 104, -107, 65}, MmBox{-40, 96, -70, 46}, MmBox{-38, 93, -88, 47}, MmBox{-34, 90, -66, 46}, MmBox{-38, 105, -94, 49}};
  const MmBox b = male[static_cast<std::size_t>(kind)];
  const HeadWarp warp = head_warp(anatomy);
  const Vec2 low = warp(b.x0, b.y0), high = warp(b.x1, b.y1);
  return {low.x, high.x, low.y, high.y};
}

void MouthPen::shadow(const Polyline& ring, double reach_mm, double strength) const {
  if (!view.shadows || theme.name == "print") return; // paper is its own shadow
  const double r = reach_mm * s.scale * frame.k;
  // six strokes of 4.5 % (visual design, section 7.3) on a screen; the same darkness from fewer when small, more when large
  const int steps = std::clamp(static_cast<int>(std::lround(r / 3.5)), 4, 20);
  const double alpha = 1 - std::pow(1 - 0.045 * strength, 6.0 / steps);
  const Polyline rough = simplified(frame(ring), std::max(0.4, r * 0.06)); // it is blurred anyway
  Polyline shifted = rough;
  for (Vec2& p : shifted) p += Vec2{frame.flip * 0.22, 0.35} * r;
  const Path path = line_path(shifted, true); // the wide strokes round the corners off
  for (int i = 0; i < steps; ++i) canvas.stroke({"shadow", {}}, path, with_alpha(theme.shadow, alpha), 2 * r * (1 - static_cast<double>(i) / steps));
}

Polyline surface_of(const Outline& o, Articulator articulator) {
  switch (articulator) {
    case Articulator::root: return slice(o.dorsum, 0.07, 0.38); // shares of the 121 samples root foot .. tip (visual design, 7.5)
    case Articulator::body: return slice(o.dorsum, 0.43, 0.82);
    case Articulator::tip: {
      Polyline tip = slice(o.dorsum, 0.84, 1.0);
      tip.insert(tip.end(), o.tip_cap.begin(), o.tip_cap.end());
      return tip;
    }
    case Articulator::velum: {
      Polyline soft = slice(o.velum_under, 0.3, 1.0);
      soft.insert(soft.end(), o.velum_cap.begin(), o.velum_cap.end());
      return soft;
    }
    case Articulator::lips:
      return {o.lower_lip_line.begin() + std::clamp(o.lower_red[0], 0, static_cast<int>(o.lower_lip_line.size()) - 1),
              o.lower_lip_line.begin() + std::clamp(o.lower_red[1] + 1, 0, static_cast<int>(o.lower_lip_line.size()))};
    case Articulator::jaw: return slice(o.jaw, 0.0, 0.45);
    case Articulator::larynx:
    case Articulator::glottis: return slice(o.larynx_front, 0.2, 0.8);
  }
  return {};
}

MouthPicture compose_mouth(const Outline& outline, const Pose& pose, const Anatomy& anatomy, const MouthView& view) {
  MouthPicture picture;
  const Theme& theme = view.theme ? *view.theme : light_theme();
  picture.section = section_of(anatomy, outline, pose);
  picture.frame = fit_mouth(view.box.value_or(framing(anatomy, Framing::full)), view.rect, view.mirrored);
  Canvas canvas;
  const double lw = view.line_scale;
  const bool print = theme.name == "print";
  const MouthPen pen{canvas, theme, view, picture.frame, picture.section, (print ? 1.1 : 1.25) * lw, 1.9 * lw, 2.8 * lw};
  if (view.clash) set_band(picture, outline, *view.clash);
  draw_paper(pen);
  draw_hollow(pen);
  draw_back(pen);
  draw_palate(pen);
  draw_upper_tooth(pen);
  draw_floor(pen);
  draw_tongue(pen);
  if (view.clash) draw_clash_band(pen, *view.clash, picture.band_outer, picture.band_inner);
  pen.stroke("tongue", picture.section.tongue_edge, theme.line, pen.heavy);
  draw_jaw(pen);
  draw_larynx(pen);
  draw_lips(pen);
  if (view.spotlight) draw_spotlight_veil(pen, outline);
  if (view.clash) draw_clash_edge(pen, *view.clash, picture.band_outer, picture.band_inner);
  draw_ghosts(pen);
  if (view.air) draw_air(pen, anatomy, outline, pose);
  // the paper is cut at its lower edge
  picture.group.mark = {"mouth", {}};
  picture.group.marks = std::move(canvas.marks);
  picture.group.clip = rounded_rectangle({view.rect.x, view.rect.y}, {view.rect.width, view.rect.height}, 0);
  return picture;
}

} // namespace mw
