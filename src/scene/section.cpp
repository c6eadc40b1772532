#include "scene/section.h"

#include "base/curve.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace mw {
namespace {

// landmarks of the adult male head (geometry of adult-male): see HeadWarp
constexpr std::array<double, 4> male_x{-31.4, 0, 51.5, 77.2}, male_y{-82, 0, 20.2, 61.5};

double bend(double v, const std::array<double, 4>& from, const std::array<double, 4>& to, double outside) {
  if (v <= from[0]) return to[0] + (v - from[0]) * outside;
  for (std::size_t i = 0; i < 3; ++i)
    if (v <= from[i + 1]) return to[i] + (v - from[i]) / (from[i + 1] - from[i]) * (to[i + 1] - to[i]);
  return to[3] + (v - from[3]) * outside;
}

template <typename F> double extreme(const Polyline& line, F better, double Vec2::*axis) {
  double v = line.front().*axis;
  for (const Vec2 p : line) v = better(v, p.*axis);
  return v;
}
double low(const Polyline& line, double Vec2::*axis) { return extreme(line, [](double a, double b) { return std::min(a, b); }, axis); }
double high(const Polyline& line, double Vec2::*axis) { return extreme(line, [](double a, double b) { return std::max(a, b); }, axis); }

void append(Polyline& to, const Polyline& more) { to.insert(to.end(), more.begin(), more.end()); }
void append_reversed(Polyline& to, const Polyline& more) { to.insert(to.end(), more.rbegin(), more.rend()); }
Polyline part(const Polyline& line, std::size_t from, std::size_t to) {
  const auto at = [&](std::size_t i) { return line.begin() + static_cast<std::ptrdiff_t>(std::min(i, line.size())); };
  return from < to ? Polyline{at(from), at(to)} : Polyline{};
}
template <typename F> Polyline where(const Polyline& line, F keep) {
  Polyline out;
  std::copy_if(line.begin(), line.end(), std::back_inserter(out), keep);
  return out;
}
Polyline moved(Polyline line, Vec2 by) {
  for (Vec2& p : line) p += by;
  return line;
}
const Polyline& piece(const std::map<std::string, Polyline>& frame, const char* name) {
  static const Polyline none;
  const auto at = frame.find(name);
  return at == frame.end() ? none : at->second;
}
Polyline ring(const Polyline& points, int n) {
  return points.size() < 3 ? points : spline_through(points, n, true);
}
std::size_t nearest_height(const Polyline& line, double y, std::size_t count) {
  std::size_t best = 0;
  for (std::size_t i = 0; i < std::min(count, line.size()); ++i)
    if (std::abs(line[i].y - y) < std::abs(line[best].y - y)) best = i;
  return best;
}

/// Everything the steps below share.
struct Cutter {
  const Anatomy& anatomy;
  const Outline& outline;
  const Pose& pose;
  HeadWarp warp;
  JawTransform jaw;
  double k;
  Section s{};

  [[nodiscard]] Polyline warped(std::initializer_list<Vec2> male) const {
    Polyline out;
    for (const Vec2 p : male) out.push_back(warp(p.x, p.y));
    return out;
  }
  [[nodiscard]] Vec2 jaw_at(double x, double y) const { return jaw.to_skull({x * k, y * anatomy.jaw_y}); }
  [[nodiscard]] Polyline in_skull(Polyline line) const {
    for (Vec2& p : line) p = jaw.to_skull(p);
    return line;
  }

  // --- the paper: profile, scissor cut at top and back
  void cut_profile() {
    const double top = warp(0, 62.6).y;
    Polyline nose;
    const Polyline profile = spline_through(piece(anatomy.skull, "nose_profile"), 160);
    for (std::size_t i = 0; i < profile.size(); ++i) {
      Vec2 p = profile[i];
      if (p.y > top) {
        if (i + 1 == profile.size() || profile[i + 1].y > top) continue;
        p = p + (profile[i + 1] - p) * ((p.y - top) / (p.y - profile[i + 1].y)); // the cut goes exactly there
      }
      // the bridge is drawn in a little, so that the cut above it does not read as a forehead
      const double f = std::clamp((p.y - warp(0, 42).y) / (top - warp(0, 42).y), 0.0, 1.0);
      nose.push_back({p.x + 6 * k * f * f, p.y});
    }
    Polyline knots = simplified_every(nose, 12);
    knots.push_back(outline.upper_lip_line.front());
    knots.push_back(outline.upper_lip_line[8]);
    const Polyline smooth = spline_through(knots, 140);
    const int join = sample_of_knot(knots, static_cast<int>(knots.size()) - 2, 140);
    s.nose = part(smooth, 0, static_cast<std::size_t>(join) + 1);
    s.upper_lip = outline.upper_lip_line;
    s.lower_lip = outline.lower_lip_line;
  }
  static Polyline simplified_every(const Polyline& line, std::size_t step) {
    Polyline out;
    for (std::size_t i = 0; i < line.size(); i += step) out.push_back(line[i]);
    if (!line.empty() && (line.size() - 1) % step != 0) out.push_back(line.back());
    return out;
  }
  void cut_chin() {
    const Polyline chin = in_skull(piece(anatomy.jaw, "chin_skin")); // from the neck to the lip
    const Vec2 swing = jaw_at(20, -50) - Vec2{20 * k, -50 * anatomy.jaw_y};
    Polyline knots{outline.lower_lip_line[6], outline.lower_lip_line.front()};
    append_reversed(knots, chin);
    // the neck starts below the chin, in front of the thyroid cartilage
    const Polyline& shield = piece(anatomy.larynx, "thyroid_cartilage");
    const double x = low(shield, &Vec2::x) - 5.4 * k, y = std::min(high(shield, &Vec2::y) + 0.3 * pose.larynx, chin.front().y - 12 * k), floor = warp(0, -104.5).y;
    const Vec2 start = Vec2{x, y} + 0.25 * swing;
    const auto down = [&](double share) { return y + (floor - y) * share; };
    knots.push_back(0.5 * (start + chin.front()) + Vec2{2, 1.5} * k);
    knots.push_back(start);
    knots.push_back({x - 1.2 * k, down(0.3) + 0.5 * pose.larynx});
    knots.push_back({x + 0.6 * k, down(0.65) + 0.3 * pose.larynx});
    knots.push_back({x + 2.2 * k, floor});
    const Polyline smooth = spline_through(knots, 160);
    s.chin = part(smooth, static_cast<std::size_t>(sample_of_knot(knots, 1, 160)), smooth.size());
    s.chin_y = low(where(s.chin, [&](Vec2 q) { return q.x < warp(20, 0).x; }), &Vec2::y);
    const Polyline neck = where(s.chin, [&](Vec2 q) { return q.y < s.chin_y - 8 * k; });
    s.neck_x = neck.empty() ? s.chin.back().x : low(neck, &Vec2::x);
  }
  void cut_head() {
    const Vec2 from = s.chin.back(), to = s.nose.front();
    Polyline knots{from};
    append(knots, warped({{52, -104.9}, {70, -104.6}, {90, -104.6}, {97.2, -102.8}, {100.4, -96}, {101.4, -70}, {101.9, -30}, {102.2, 10}, {101.8, 44}, {100.2, 56}, {94, 61.4}, {80, 62.4}, {40, 62.2}, {10, 62.6}}));
    knots.push_back({to.x + 4 * k, to.y});
    knots.push_back(to);
    s.cut_edge = spline_through(knots, 200);
    s.floor_y = warp(0, -104.4).y;
    s.head = s.nose;
    append(s.head, s.upper_lip);
    append(s.head, warped({{2, 14}, {6, 10}, {6, -8}}));
    append_reversed(s.head, s.lower_lip);
    append(s.head, s.chin);
    append(s.head, s.cut_edge);
  }

  // --- air
  void cut_air() {
    const Polyline& ul = outline.upper_lip_line;
    const Polyline& ll = outline.lower_lip_line;
    std::size_t lowest = 0;
    for (std::size_t i = 0; i < ul.size(); ++i)
      if (ul[i].y < ul[lowest].y) lowest = i;
    const double front = warp(-9.2, 0).x - pose.lip_protrusion * 0.9;
    s.lips_x = front;
    Polyline& a = s.mouth_air;
    a = {{front, ul[lowest].y}};
    append(a, part(ul, lowest, ul.size()));
    a.push_back(warp(0.6, 12));
    append(a, anatomy.palate);
    append(a, warped({{56, 17}, {66, 22}, {78, 20}}));
    append(a, where(anatomy.back_wall, [&](Vec2 p) { return p.y < warp(0, 20).y && p.y > outline.larynx_back.front().y - 7 * k; }));
    append(a, part(outline.larynx_back, 1, outline.larynx_back.size()));
    append_reversed(a, outline.larynx_front);
    append(a, warped({{50, -74}, {46, -60}, {30, -40}}));
    a.push_back(jaw_at(8, -30));
    append_reversed(a, part(ll, ll.size() / 2, ll.size()));
    std::size_t top = 0;
    for (std::size_t i = 0; i < ll.size(); ++i)
      if (ll[i].y > ll[top].y) top = i;
    append_reversed(a, part(ll, top, ll.size() / 2));
    a.push_back({front, ll[top].y});
  }
  void cut_nose() {
    Polyline roof = piece(anatomy.skull, "nasal_roof");
    // the roof is drawn lower than the anatomy's, so that the paper keeps a margin above it
    const double base = roof.front().y;
    for (std::size_t i = 0; i + 1 < roof.size(); ++i) roof[i].y = base + (roof[i].y - base) * 0.87;
    s.nasal_floor = spline_through(piece(anatomy.skull, "nasal_floor"), 60);
    const Polyline& wall = anatomy.back_wall;
    const std::size_t meet = 30 < wall.size() ? 30 : wall.size() / 2;
    Polyline knots = roof;
    knots.back().y += 0.5 * k;
    for (std::size_t i = 8; i <= meet; i += 6) knots.push_back(wall[i]);
    s.back_wall = spline_through(knots, 180);
    append(s.back_wall, part(wall, meet + 1, wall.size()));
    s.nasal_air = where(s.back_wall, [&](Vec2 p) { return p.y > warp(0, 8).y; });
    append_reversed(s.nasal_air, outline.velum_upper);
    append(s.nasal_air, s.nasal_floor);
    for (const char* name : {"turbinate_low", "turbinate_mid"}) s.shelves.push_back(ring(piece(anatomy.skull, name), 60));
  }

  // --- back wall
  void cut_back() {
    const double turn = warp(44, 0).x;
    std::size_t from = 0;
    while (from + 1 < s.back_wall.size() && s.back_wall[from].x < turn) ++from;
    const Polyline wall = where(part(s.back_wall, from, s.back_wall.size()), [&](Vec2 p) { return p.y > s.floor_y; });
    s.back_tissue = wall;
    s.back_tissue.push_back(warp(69, -104.6));
    append(s.back_tissue, where(s.cut_edge, [&](Vec2 p) { return p.x > warp(70, 0).x; }));
    s.back_tissue.push_back(warp(44, 62.2));
    s.back_shadow = where(anatomy.back_wall, [&](Vec2 p) { return p.y > s.floor_y; });
    append(s.back_shadow, warped({{78, -104.6}, {84, -40}, {82, 40}, {60, 52}}));
    // centres 15.4 mm behind the throat wall (adult male), one vertebra every 18 to 20 mm
    for (const auto& [x, y, h] : {std::array{92.0, 8.0, 17.0}, {92.5, -12.0, 17.0}, {91.5, -31.5, 16.0}, {90.0, -50.0, 15.0}, {88.0, -68.0, 15.0}, {86.0, -86.0, 15.0}}) {
      const double w = 7.6, t = h / 2;
      s.vertebrae.push_back(ring(warped({{x - w, y - t + 1}, {x - w + 1.2, y}, {x - w, y + t - 1}, {x, y + t - 0.6}, {x + w, y + t - 1}, {x + w - 1, y}, {x + w, y - t + 1}, {x, y - t + 0.6}}), 60));
    }
  }

  // --- palate and soft palate
  void cut_palate() {
    s.gum = anatomy.palate;
    s.gum.push_back(warp(51.5, 18));
    append(s.gum, where(s.nasal_floor, [&](Vec2 p) { return p.x > 2 * k; }));
    append(s.gum, warped({{2, 27.5}, {0.4, 18}, {0.6, 11}}));
    s.gum_shadow = anatomy.palate;
    append(s.gum_shadow, warped({{50, 22}, {8, 24}, {1, 14}}));
    s.bone = ring(piece(anatomy.skull, "palate_bone"), 120);
    const std::size_t soft = outline.velum_under.size();
    const Polyline& wall = outline.upper_wall;
    s.roof_line = part(wall, std::min<std::size_t>(5, wall.size()), wall.size() > soft ? wall.size() - soft + 4 : wall.size());
    const Polyline tail = part(wall, wall.size() > soft + 1 ? wall.size() - soft - 2 : 0, wall.size());
    const Vec2 hinge = s.nasal_floor.front();
    s.velum = outline.velum_under;
    append(s.velum, outline.velum_cap);
    append_reversed(s.velum, outline.velum_upper);
    append(s.velum, spline_through(Polyline{hinge, hinge + Vec2{-3, -1.8} * k, hinge + Vec2{-4.1, -3.8} * k, hinge + Vec2{-2.3, -5.8} * k, outline.velum_under.front()}, 20));
    s.velum_line = tail;
    append(s.velum_line, outline.velum_cap);
    append_reversed(s.velum_line, outline.velum_upper);
    s.velum_line.push_back(hinge);
    s.velum_line.push_back(hinge + Vec2{-2, 0.1} * k);
    s.velum_shadow = part(outline.velum_under, 4, soft);
    append(s.velum_shadow, outline.velum_cap);
    append_reversed(s.velum_shadow, part(outline.velum_upper, 4, outline.velum_upper.size()));
  }

  // --- lips and teeth
  [[nodiscard]] std::pair<Polyline, Polyline> red_of(const Polyline& line, std::array<int, 2> from_to, double side) const {
    const Polyline q = part(line, static_cast<std::size_t>(std::max(from_to[0], 0)), static_cast<std::size_t>(std::max(from_to[1], 0)) + 1);
    if (q.size() < 20) return {};
    Polyline n = right_normals(q);
    smooth_line(n, 25);
    Polyline inner(q.size()), light_in, light_out;
    const double last = static_cast<double>(q.size() - 1);
    for (std::size_t i = 0; i < q.size(); ++i) {
      const double f = static_cast<double>(i) / last, t = std::min(1.0, std::pow(f / 0.2, 0.7)) * std::pow(1 - f, 0.55); // tract-model.md section 7
      inner[i] = q[i] + n[i] * (side * 3.6 * anatomy.lip_scale * t);
      const double shine = std::pow(std::max(std::sin(std::numbers::pi * f), 0.0), 0.7) * 1.3 * anatomy.lip_scale;
      if (i >= 4 && i + 12 < q.size()) {
        light_out.push_back(q[i] + n[i] * (side * 0.5 * anatomy.lip_scale));
        light_in.push_back(q[i] + n[i] * (side * (0.5 * anatomy.lip_scale + shine)));
      }
    }
    smooth_line(inner, 12);
    Polyline band = q, light = light_out;
    append_reversed(band, inner);
    append_reversed(light, light_in);
    return {band, light};
  }
  void cut_lips() {
    s.upper_flesh = s.upper_lip;
    append(s.upper_flesh, warped({{2, 15.5}, {2, 26}}));
    s.lower_flesh = s.lower_lip;
    s.lower_flesh.push_back(jaw_at(3, -20));
    std::tie(s.upper_red, s.upper_light) = red_of(s.upper_lip, outline.upper_red, -1);
    std::tie(s.lower_red, s.lower_light) = red_of(s.lower_lip, outline.lower_red, 1);
    s.upper_tooth = outline.upper_incisor;
    s.lower_tooth = outline.lower_incisor;
    s.mandible = outline.jaw;
  }

  // --- floor of the mouth, tongue
  void cut_floor() {
    const Vec2 hy = outline.hyoid, gen = outline.genial, fren = outline.frenulum;
    s.genial = gen;
    s.floor_line = outline.mouth_floor;
    s.floor_tissue = outline.mouth_floor;
    append(s.floor_tissue, {fren, fren + Vec2{6, -3} * k, hy + Vec2{8, 4} * k, hy + Vec2{12, 3} * k, warp(53, -72) + Vec2{0, pose.larynx}, warp(50, -92), warp(40, -96), hy + Vec2{-5, -6} * k,
                            jaw_at(16, -42), jaw_at(3, -38), jaw_at(2, -14)});
    const Vec2 mid = 0.5 * (gen + hy);
    s.floor_muscle = ring({gen + Vec2{1, -1.5} * k, mid + Vec2{0, -3.6} * k, hy + Vec2{-2, 1.5} * k, hy + Vec2{-2, -1.5} * k, mid + Vec2{0, -8} * k, gen + Vec2{0.5, -7} * k}, 50);
    for (const double f : {0.3, 0.55, 0.8})
      s.floor_threads.push_back(spline_through(Polyline{gen + Vec2{1, -1.5 - 5 * f} * k, mid + Vec2{0, -3.6 - 4.4 * f} * k, hy + Vec2{-2, 1.5 - 3 * f} * k}, 20));
    s.hyoid = ring({hy + Vec2{-2.6, -2.2} * k, hy + Vec2{-3, 1.2} * k, hy + Vec2{-0.6, 3} * k, hy + Vec2{2.4, 2.2} * k, hy + Vec2{2.8, -0.8} * k, hy + Vec2{0.6, -3} * k}, 40);
  }
  void cut_tongue() {
    const Vec2 hy = outline.hyoid, gen = outline.genial, fren = outline.frenulum, foot = outline.dorsum.front();
    s.tongue_edge = outline.dorsum;
    append(s.tongue_edge, outline.tip_cap);
    append(s.tongue_edge, outline.underside);
    s.tongue = s.tongue_edge;
    append(s.tongue, spline_through(Polyline{fren, 0.5 * (fren + gen) + Vec2{1.6, 1} * k, gen + Vec2{1, 0} * k}, 10));
    append(s.tongue, spline_through(Polyline{gen + Vec2{1, 0} * k, 0.5 * (gen + hy) + Vec2{0, -1.5} * k, hy + Vec2{2, 4} * k}, 12));
    append(s.tongue, spline_through(Polyline{hy + Vec2{2, 3.2} * k, hy + Vec2{7, 2} * k, 0.5 * (hy + Vec2{9, 2} * k) + 0.5 * (foot + Vec2{-4, -3} * k), foot + Vec2{-1.6, -1.8} * k, foot}, 14));
    s.tongue_shadow = s.tongue_edge;
    append(s.tongue_shadow, {gen + Vec2{3, 4} * k, hy + Vec2{4, 6} * k});
    const Vec2 centre = gen + Vec2{1.5, 1.5} * k;
    const double last = static_cast<double>(outline.dorsum.size() - 1) / 120.0; // indices below are for 121 samples
    for (int i = 0; i < 17; ++i) {
      const auto at = static_cast<std::size_t>(std::lround((6 + 110.0 * i / 16) * last));
      const Vec2 target = outline.dorsum[std::min(at, outline.dorsum.size() - 1)], a = centre + (target - centre) * 0.16, e = centre + (target - centre) * 0.86;
      s.fibres.push_back(spline_through(Polyline{a, 0.5 * (a + e) + Vec2{0, 1.5} * k, e}, 12));
    }
  }

  // --- larynx
  void cut_larynx() {
    const double dy = pose.larynx;
    // drawn 5 mm lower than the anatomy's cartilages, so that the voice box stands clear of the hyoid
    const auto cartilage = [&](const char* name, double share) { return ring(moved(piece(anatomy.larynx, name), {0, -5 * k + share * dy}), 50); };
    s.thyroid = cartilage("thyroid_cartilage", 1);
    s.cricoid_front = cartilage("cricoid_front", 0.8);
    s.cricoid_back = cartilage("cricoid_back", 0.9);
    s.larynx_back = where(outline.larynx_back, [&](Vec2 p) { return p.y > s.floor_y; });
    s.larynx_front = where(outline.larynx_front, [&](Vec2 p) { return p.y > s.floor_y; });
    s.larynx_air = s.larynx_back;
    append_reversed(s.larynx_air, s.larynx_front);
    s.gullet = spline_through(Polyline{outline.larynx_back.front() + Vec2{1.2, -0.6} * k, warp(72.2, -78) + Vec2{0, 0.6 * dy}, warp(70.9, -90), warp(69.8, -104.4)}, 30);
    s.larynx_tissue = s.larynx_back;
    s.larynx_tissue.push_back(warp(68.6, -104.4));
    append_reversed(s.larynx_tissue, s.gullet);
    s.glottis_y = outline.glottis_y;
    cut_vallecula();
  }
  void cut_vallecula() { // the pocket between tongue and epiglottis
    const Polyline& leaf = outline.epiglottis_front;
    const Polyline& dorsum = outline.dorsum;
    const Vec2 foot = dorsum.front(), hy = outline.hyoid;
    const std::size_t j = nearest_height(leaf, foot.y + 3 * k, leaf.size()), i = nearest_height(dorsum, foot.y + 3 * k, 14);
    const Vec2 bottom{0.5 * (foot.x + leaf[j >= 3 ? j - 3 : 0].x), foot.y - 2.2 * k};
    s.vallecula = spline_through(Polyline{dorsum[i], dorsum[i / 2] + Vec2{0.2, -0.6} * k, bottom, leaf[j >= 1 ? j - 1 : 0] + Vec2{-0.1, -0.3} * k, leaf[j]}, 24);
    s.vallecula_tissue = s.vallecula;
    append_reversed(s.vallecula_tissue, part(leaf, 0, j + 1));
    append(s.vallecula_tissue, part(s.larynx_front, 0, 8));
    append(s.vallecula_tissue, {warp(40, -80), hy + Vec2{2, -2} * k, foot + Vec2{-4, -4} * k});
    s.epiglottis = outline.epiglottis;
  }
};

} // namespace

Vec2 HeadWarp::operator()(double male_x_mm, double male_y_mm) const { return {bend(male_x_mm, male_x, x, scale), bend(male_y_mm, male_y, y, scale)}; }

HeadWarp head_warp(const Anatomy& a) {
  return {{low(piece(a.skull, "nose_profile"), &Vec2::x), 0, a.palate.back().x, high(a.back_wall, &Vec2::x)},
          {a.glottis_y, 0, high(a.palate, &Vec2::y), high(piece(a.skull, "nasal_roof"), &Vec2::y)},
          a.tongue_scale};
}

Section section_of(const Anatomy& anatomy, const Outline& outline, const Pose& pose) {
  Cutter cutter{anatomy, outline, pose, head_warp(anatomy), jaw_transform(anatomy, pose.jaw_opening, pose.jaw_forward), anatomy.tongue_scale};
  cutter.s.scale = cutter.k;
  cutter.cut_profile();
  cutter.cut_chin();
  cutter.cut_head();
  cutter.cut_air();
  cutter.cut_nose();
  cutter.cut_back();
  cutter.cut_palate();
  cutter.cut_lips();
  cutter.cut_floor();
  cutter.cut_tongue();
  cutter.cut_larynx();
  return std::move(cutter.s);
}

} // namespace mw
