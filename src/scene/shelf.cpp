#include "scene/shelf.h"

#include "base/text.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace mw {
namespace {

Path cubics(Vec2 start, std::initializer_list<std::array<Vec2, 3>> legs) {
  Path path;
  path.steps.emplace_back(Path::Move{start});
  for (const auto& [a, b, c] : legs) path.steps.emplace_back(Path::Cubic{a, b, c});
  path.steps.emplace_back(Path::Close{});
  return path;
}

/// Lips in mm about their middle, carried into a box.
struct LipDrawing {
  double k;
  Vec2 centre;
  [[nodiscard]] Vec2 at(double x, double y) const { return {centre.x + x * k, centre.y - y * k}; }

  [[nodiscard]] Path outer(double half, double a, double t) const {
    return cubics(at(-half, 0), {{at(-half * .62, a + t * .75), at(-half * .3, a + t * 1.15), at(-half * .13, a + t)},
                                 {at(-half * .06, a + t * .82), at(half * .06, a + t * .82), at(half * .13, a + t)},
                                 {at(half * .3, a + t * 1.15), at(half * .62, a + t * .75), at(half, 0)},
                                 {at(half * .62, -a - t * .9), at(half * .35, -a - t * 1.35), at(0, -a - t * 1.35)},
                                 {at(-half * .35, -a - t * 1.35), at(-half * .62, -a - t * .9), at(-half, 0)}});
  }
  [[nodiscard]] Path inner(double half, double b) const {
    return cubics(at(-half, 0), {{at(-half * .6, b * 1.25), at(-half * .25, b * 1.1), at(0, b * .92)},
                                 {at(half * .25, b * 1.1), at(half * .6, b * 1.25), at(half, 0)},
                                 {at(half * .6, -b * 1.3), at(-half * .6, -b * 1.3), at(-half, 0)}});
  }
};

} // namespace

std::vector<Mark> draw_lips(const Theme& theme, const LipsFront& lips, Rect r, double lw) {
  Canvas canvas;
  const LipDrawing d{std::min(r.width / 66, r.height / 40), r.centre()}; // 66 x 40 mm hold the widest lips of an adult
  const bool tuck = lips.teeth_on_lip;
  const double opening = tuck ? std::max(lips.height_mm, 4.2) : lips.height_mm, round = std::clamp(lips.rounding, -1.0, 1.0);
  const double width = tuck ? 34 : opening > 0.3 ? std::max(lips.width_mm, 6.0) : 34 - 14 * std::max(round, 0.0);
  const double half = (width + 18 - 2 * round) / 2, thick = 7.5 + 1.2 * std::max(round, 0.0), a = opening / 2, b = std::max(a, 0.35);
  const MarkId id{"lips-front", {}};
  const Path outer = d.outer(half, a, thick), inner = d.inner(width / 2, b);
  canvas.fill(id, outer, theme.lips);
  canvas.stroke(id, outer, theme.line, 1.6 * lw);
  canvas.fill(id, inner, theme.air);
  if (opening > 2) {
    Group teeth{{"teeth", {}}};
    teeth.clip = inner;
    Canvas row;
    const double height = (b + 3 - (tuck ? -b + 1.0 : std::max(opening / 2 - 2.6, -0.4))) * d.k;
    for (int i = -3; i < 3; ++i)
      row.box({"tooth", {}}, {d.centre.x + (i * 6.2 + 0.25) * d.k, d.centre.y - (b + 3) * d.k, 5.7 * d.k, height}, 1.4 * d.k, theme.tooth, tuck ? theme.line2 : clear, 0.8 * lw);
    teeth.marks = std::move(row.marks);
    canvas.add(std::move(teeth));
  }
  canvas.stroke(id, inner, theme.line, 1.6 * lw);
  return std::move(canvas.marks);
}

std::vector<Mark> draw_palate_map(const Theme& theme, const PalateMap& map, Rect r, double lw) {
  Canvas canvas;
  double depth = 1, width = 1;
  for (const Vec2 p : map.arch) depth = std::max(depth, p.x), width = std::max(width, std::abs(p.y));
  const double unit = depth / 52.0; // marks keep their share of the palate on every speaker
  const double k = std::min(r.width / (2 * width + 13 * unit), r.height / (depth + 5 * unit));
  const Vec2 origin{r.x + r.width / 2, r.y + (r.height - (depth + 2 * unit) * k) / 2 + 2 * unit * k};
  const auto at = [&](Vec2 xz) { return Vec2{origin.x + xz.y * k, origin.y + xz.x * k}; };
  const auto half_at = [&](double x) {
    double z = 0, best = 1e9;
    for (const Vec2 p : map.arch)
      if (std::abs(p.x - x) < best) best = std::abs(p.x - x), z = std::abs(p.y);
    return z;
  };
  for (const double share : {3.2, 7.4, 12.4, 18.6, 26.2, 35.0, 44.5})
    for (const double side : {-1.0, 1.0})
      canvas.circle({"tooth", {}}, at({(share - 0.6) * unit, side * (half_at(share * unit) + 2.7 * unit)}), (2.3 + 0.035 * share) * unit * k, theme.tooth, theme.line2, lw);
  Polyline arch;
  for (const Vec2 p : map.arch) arch.push_back(at({std::max(p.x, 2.0 * unit), p.y}));
  canvas.fill({"palate", {}}, line_path(arch, true), theme.gum);
  canvas.stroke({"palate", {}}, line_path(arch, true), theme.line, 1.6 * lw);
  const int n = 15; // visual design, section 7.9
  Path touching, free;
  for (int i = 0; i < n; ++i)
    for (int j = 0; j < n; ++j) {
      const auto index = static_cast<std::size_t>((map.rows - 1) * i / (n - 1) * map.columns + (2 * (map.columns - 1) * j + n - 1) / (2 * (n - 1)));
      const Vec2 place = at({map.grid[index].x, map.grid[index].y * 0.93});
      if (map.contact[index]) touching = joined(std::move(touching), circle_path(place, 1.45 * unit * k));
      else free = joined(std::move(free), circle_path(place, 0.5 * unit * k));
    }
  canvas.fill({"palate-free", {}}, std::move(free), theme.line2);
  canvas.fill({"palate-contact", {}}, std::move(touching), theme.dark ? from_hex("#FFF3DE") : theme.line);
  return std::move(canvas.marks);
}

std::vector<Mark> draw_front_section(const Theme& theme, const Anatomy& anatomy, const FrontSection& section, const Pose& pose, Rect r, double lw) {
  Canvas canvas;
  const double unit = anatomy.width, at_x = section.behind_teeth_mm, half = section.palate.back().x, gum = section.palate.back().y;
  const double k = std::min(r.width / (62 * unit), r.height / (50 * unit));
  const Vec2 origin{r.x + r.width / 2, r.y + r.height / 2 + 4 * unit * k};
  const auto at = [&](Vec2 zy) { return Vec2{origin.x + zy.x * k, origin.y - zy.y * k}; };
  const auto carried = [&](const Polyline& zy) { Polyline out; for (const Vec2 p : zy) out.push_back(at(p)); return out; };
  const JawTransform jaw = jaw_transform(anatomy, pose.jaw_opening, pose.jaw_forward);
  const double biting = jaw.to_skull({at_x, -1 * unit}).y, floor = jaw.to_skull({at_x, -11 * unit}).y;
  Group cut{{"front-section", {}}};
  cut.clip = rounded_rectangle({r.x, r.y}, {r.width, r.height}, 8 * lw);
  canvas.fill({"front-section", {}}, *cut.clip, theme.head);
  Polyline air = section.palate;
  for (const Vec2 p : {Vec2{half + 1.5 * unit, gum - 2 * unit}, Vec2{half + 3 * unit, biting - 6 * unit}, Vec2{half + 2 * unit, floor + 3 * unit}}) air.push_back(p);
  for (const Vec2 p : {Vec2{-half - 2 * unit, floor + 3 * unit}, Vec2{-half - 3 * unit, biting - 6 * unit}, Vec2{-half - 1.5 * unit, gum - 2 * unit}}) air.push_back(p);
  canvas.fill({"air", {}}, line_path(carried(air), true), theme.air);
  if (section.tongue_present && section.tongue.size() > 2) {
    const double w = section.tongue.back().x, left = section.tongue.front().y, right = section.tongue.back().y;
    Polyline ring = section.tongue;
    if (!section.tongue_underside.empty()) ring.insert(ring.end(), section.tongue_underside.begin(), section.tongue_underside.end());
    else
      for (const Vec2 p : {Vec2{w - .4 * unit, right - 4 * unit}, Vec2{w - 2.5 * unit, biting - 9 * unit}, Vec2{w - 5 * unit, floor + unit}, Vec2{w - 7 * unit, floor - 14 * unit}, Vec2{7 * unit - w, floor - 14 * unit},
                           Vec2{5 * unit - w, floor + unit}, Vec2{2.5 * unit - w, biting - 9 * unit}, Vec2{.4 * unit - w, left - 4 * unit}})
        ring.push_back(p);
    canvas.fill({"tongue", {}}, line_path(carried(ring), true), theme.tongue);
    Polyline rim = section.tongue;
    for (Vec2& p : rim) p.y -= 1.2 * unit;
    canvas.stroke({"tongue-rim", {}}, smooth_path(simplified(carried(rim), 0.1), false), theme.tongue_hi, 2.2 * unit * k);
    canvas.stroke({"tongue", {}}, line_path(carried(ring), true), theme.line, 2.2 * lw);
  }
  canvas.stroke({"palate", {}}, smooth_path(simplified(carried(section.palate), 0.1), false), theme.line, 1.8 * lw);
  for (const double side : {-1.0, 1.0}) {
    const auto tooth = [&](std::initializer_list<Vec2> points) {
      Polyline ring;
      for (const Vec2 p : points) ring.push_back(at({side * (half + p.x * unit), p.y}));
      canvas.fill({"tooth", {}}, line_path(ring, true), theme.tooth);
      canvas.stroke({"tooth", {}}, line_path(ring, true), theme.line2, lw);
    };
    tooth({{.2, gum + unit}, {.4, gum - 4 * unit}, {1.6, .2 * unit}, {4, 1.2 * unit}, {6.4, -.2 * unit}, {7.4, gum - 4 * unit}, {7.2, gum + unit}});
    tooth({{-.4, biting - 9 * unit}, {-.2, biting - 3.5 * unit}, {1, biting + .2 * unit}, {3.2, biting - .6 * unit}, {5.4, biting}, {6.4, biting - 4 * unit}, {6, biting - 9 * unit}});
  }
  cut.marks = std::move(canvas.marks);
  return {Mark{std::move(cut)}};
}

std::vector<Mark> draw_folds(const Theme& theme, double opening, Vec2 c, double r, double lw) {
  Canvas canvas;
  const double w = 0.06 + 0.62 * std::clamp(opening, 0.0, 1.0);
  const auto at = [&](double x, double y) { return c + Vec2{x, y} * r; };
  canvas.circle({"folds", {}}, c, r, theme.deep, theme.line, 1.6 * lw);
  canvas.fill({"glottis", {}}, line_path({at(0, -.74), at(-w * .48, .1), at(-w * .55, .74), at(w * .55, .74), at(w * .48, .1)}, true), theme.air);
  for (const double side : {-1.0, 1.0}) {
    const Path fold = line_path({at(0, -.74), at(side * w * .48, .1), at(side * w * .55, .74), at(side * (w * .55 + .24), .74), at(side * (w * .48 + .26), .05), at(side * .17, -.68)}, true);
    canvas.fill({"fold", {}}, fold, theme.tooth);
    canvas.stroke({"fold", {}}, fold, theme.line2, 0.9 * lw);
  }
  return std::move(canvas.marks);
}

Group compose_shelf(const Anatomy& anatomy, const Outline& outline, const Pose& pose, const ShelfView& view) {
  const Theme& theme = view.theme ? *view.theme : light_theme();
  const double u = view.u, lw = u, caption = 12.5 * u;
  Canvas canvas;
  double shares = 0;
  const auto share_of = [](SidePicture p) { return p == SidePicture::lips ? 0.30 : 0.35; };
  for (const SidePicture p : view.shown) shares += share_of(p);
  const double height = std::min(view.rect.height - 20 * u, view.rect.width * 0.35 / std::max(shares, 0.35) * 1.06), top = view.rect.bottom() - 20 * u - height;
  double x = view.rect.x;
  for (const SidePicture p : view.shown) {
    const double w = view.rect.width * share_of(p) / shares;
    const Rect cell{x + 3 * u, top, w - 6 * u, height};
    std::string name = "lips";
    if (p == SidePicture::lips) canvas.add(draw_lips(theme, lips_front(anatomy, pose), {cell.x, top + height * 0.16, cell.width, height * 0.7}, lw));
    else if (p == SidePicture::palate) {
      canvas.add(draw_palate_map(theme, palate_map(anatomy, outline, pose), cell, lw));
      name = "palate";
    } else {
      const double side = std::min(height * 0.9, cell.width * 0.92);
      canvas.add(draw_front_section(theme, anatomy, front_section(anatomy, outline, pose, view.section_mm * anatomy.jaw_x), pose, {cell.x, top + (height - side) * 0.55, cell.width, side}, lw));
      name = view.section_mm < 25 ? "front, at the ridge" : "front, at " + to_text(view.section_mm * anatomy.jaw_x, 0) + " mm";
    }
    if (view.first == p) canvas.box({"select", {}}, {cell.x - 1 * u, top - 3 * u, cell.width + 2 * u, view.rect.bottom() - top + 3 * u}, 8 * u, clear, theme.action, 1.8 * u);
    TextLook look{caption, theme.quiet, false, Anchor::middle};
    canvas.fitted({"caption", name}, {cell.x + cell.width / 2, view.rect.bottom() - 5 * u}, name, look, w + 14 * u);
    x += w;
  }
  Group shelf{{"shelf", {}}};
  shelf.marks = std::move(canvas.marks);
  return shelf;
}

Rect shelf_room(const MouthPicture& mouth, Rect panel, double u) {
  const double k = mouth.section.scale;
  const double top = mouth.frame({0, mouth.section.chin_y - 8 * k}).y, neck = mouth.frame({mouth.section.neck_x - 2.5 * k, 0}).x;
  if (mouth.frame.flip < 0) return {neck, top, panel.right() - 12 * u - neck, panel.bottom() - 10 * u - top};
  return {panel.x + 12 * u, top, neck - panel.x - 12 * u, panel.bottom() - 10 * u - top};
}

std::pair<Group, Rect> compose_peephole(const MouthPicture& mouth, const Anatomy& anatomy, const Pose& pose, const Theme& theme, double lw) {
  Canvas canvas;
  const HeadWarp warp = head_warp(anatomy);
  const Vec2 centre = mouth.frame(warp(90.2, -91.5)), glottis = mouth.frame({warp(63.2, 0).x, mouth.section.glottis_y});
  const double r = 8.6 * mouth.section.scale * mouth.frame.k; // visual design, section 5
  canvas.line({"leader", "folds"}, glottis, centre - Vec2{mouth.frame.flip * r, -0.1 * r}, theme.line, 1.2 * lw);
  canvas.circle({"leader", "folds"}, glottis, 2.2 * lw, theme.line);
  canvas.circle({"folds", {}}, centre, r + 3 * lw, theme.panel);
  canvas.add(draw_folds(theme, pose.glottis, centre, r, lw));
  Group group{{"peephole", {}}};
  group.marks = std::move(canvas.marks);
  const double all = r + 3 * lw;
  return {std::move(group), Rect{centre.x - all, centre.y - all, 2 * all, 2 * all}};
}

} // namespace mw
