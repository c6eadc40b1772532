#include "tract/sides.h"

#include "base/expect.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <optional>

namespace mw {
namespace {
// Half-width of the palate at the gum line and height of that line over the biting plane, adult male, mm behind the
// teeth (tract-model.md section 12; from memory of dental casts, width checked against Yunusova et al. 2012).
constexpr std::array half_x{1.0, 3.0, 6.0, 10.0, 16.0, 24.0, 34.0, 44.0, 52.0};
constexpr std::array half_z{2.0, 6.0, 10.0, 13.5, 16.5, 18.5, 20.0, 21.0, 21.5};
constexpr std::array gum_x{0.0, 8.0, 14.0, 24.0, 50.0};
constexpr std::array gum_height{0.5, 6.0, 7.0, 7.5, 8.5};
constexpr double male_palate_top = 20.2; // mm, highest control point of the male palate
constexpr double touch = 0.35;           // mm: surfaces this near are in contact
constexpr double no_tongue = -9.0;       // depth where there is none

// The roof of the mouth across the midline at one x: arch from the midline's height down to the gum line.
struct RoofCut {
  double half_width = 0, gum = 0, middle = 0;
  // how much of its height the arch has lost at a share of the half-width (0..1)
  static double fall(double share) { return std::pow(share, 2.6); }
  [[nodiscard]] double at(double z) const {
    return middle - (middle - gum) * fall(std::min(std::abs(z) / half_width, 1.0));
  }
};
struct Roof {
  explicit Roof(const Anatomy& a) : anatomy(a) {
    for (const Vec2 p : a.palate) {
      xs.push_back(p.x);
      ys.push_back(p.y);
    }
    height_scale = std::ranges::max_element(a.skull.at("palate"), {}, &Vec2::y)->y / male_palate_top;
  }
  [[nodiscard]] RoofCut cut(double x) const {
    return {interpolate(half_x, half_z, x / anatomy.jaw_x) * anatomy.width,
            interpolate(gum_x, gum_height, x / anatomy.jaw_x) * height_scale, interpolate(xs, ys, x)};
  }
  const Anatomy& anatomy;
  std::vector<double> xs, ys;
  double height_scale = 1;
};

// Highest crossing of the upright at x with a line of points.
std::optional<double> height_at(std::span<const Vec2> line, double x) {
  std::optional<double> best;
  for (std::size_t i = 0; i + 1 < line.size(); ++i) {
    const Vec2 a = line[i], b = line[i + 1];
    if ((a.x - x) * (b.x - x) > 0) continue;
    const double run = std::abs(b.x - a.x) < 1e-9 ? 1e-9 : b.x - a.x;
    const double y = a.y + (x - a.x) / run * (b.y - a.y);
    if (!best || y > *best) best = y;
  }
  return best;
}

// The tongue surface across the mouth at one x: dome, or dish when the sides are braced, with a central groove.
struct TongueCut {
  double middle = 0, half_width = 0, edge = 0, groove = 0, groove_width = 4, scale = 1;
  [[nodiscard]] double at(double z) const {
    const double q = std::min(std::abs(z) / std::max(half_width, 0.5), 1.0), q2 = q * q, q6 = q2 * q2 * q2;
    const double across = z / groove_width;
    const double dip = groove > 0 ? groove * (1 - std::exp(-across * across)) * (1 - q6) : 0;
    return middle + (edge - middle) * q2 + dip - 1.6 * scale * q6 * q6 * q2;
  }
};
struct Tongue {
  Tongue(const Roof& above, const Outline& outline, const Pose& at) : roof(above) { set(outline, at); }
  explicit Tongue(const Roof& above) : roof(above) {}
  void set(const Outline& outline, const Pose& at) {
    pose = at;
    // the root is not seen from the front of the mouth
    upper.assign(outline.dorsum.begin() + static_cast<std::ptrdiff_t>(outline.dorsum.size() / 4), outline.dorsum.end());
    upper.insert(upper.end(), outline.tip_cap.begin(), outline.tip_cap.end());
    const auto last = std::min<std::size_t>(3, outline.tip_cap.size());
    lower.assign(outline.tip_cap.end() - static_cast<std::ptrdiff_t>(last), outline.tip_cap.end());
    lower.insert(lower.end(), outline.underside.begin(), outline.underside.end());
    foremost = std::ranges::min_element(outline.tip_cap, {}, &Vec2::x)->x;
  }
  [[nodiscard]] std::optional<TongueCut> cut(double x, const RoofCut& arch) const {
    const auto middle = height_at(upper, x);
    if (!middle) return std::nullopt; // in front of the tip
    const Anatomy& a = roof.anatomy;
    const double k = a.tongue_scale;
    // in plan a round tip, then as wide as the arch
    const double u = std::clamp((x - foremost) / (20 * k), 0.0, 1.0);
    const double width =
        std::min(arch.half_width + 1.2 * a.width, 20.5 * a.width * std::sqrt(1 - (1 - u) * (1 - u)) + 0.01);
    const double free_edge = *middle - (1.5 + 2.5 * width / 20) * k;
    const double brace =
        std::clamp(arch.gum + 2.5 * k - free_edge, 0.0, 13 * k); // lift to the upper gum, limited reach
    const double edge = free_edge + std::max(pose.sides, 0.0) * brace - 9 * k * std::max(-pose.sides, 0.0);
    return TongueCut{*middle, width, edge, pose.groove, 4 * a.width, k};
  }
  const Roof& roof;
  Pose pose;
  Polyline upper, lower;
  double foremost = 0;
};

// Lower face of a raised tip: a rounded bottom between the two edges (z, y), from +W to -W.
Polyline island_bottom(double width, double edge_y, double bottom_y) {
  Polyline line;
  for (int i = 0; i < 40; ++i) {
    const double t = std::numbers::pi * i / 39;
    const double y = edge_y > bottom_y ? 0.5 * (edge_y + bottom_y) - 0.5 * std::max(edge_y - bottom_y, 1.0) *
                                                                         std::pow(std::max(std::sin(t), 0.0), 0.8)
                                       : edge_y - 0.3 * std::sin(t);
    line.push_back({width * std::cos(t), y});
  }
  return line;
}
} // namespace

FrontSection front_section(const Anatomy& anatomy, const Outline& outline, const Pose& pose, double behind_teeth_mm) {
  const Roof roof(anatomy);
  const Tongue tongue(roof, outline, pose);
  const RoofCut arch = roof.cut(behind_teeth_mm);
  const auto surface = tongue.cut(behind_teeth_mm, arch);
  FrontSection cut{.behind_teeth_mm = behind_teeth_mm, .tongue_present = surface.has_value()};
  constexpr int samples = 161;
  const auto across = [](double half, int i) { return half * (2.0 * i / (samples - 1) - 1); };
  for (int i = 0; i < samples; ++i) {
    const double z = across(arch.half_width, i);
    cut.palate.push_back({z, arch.at(z)});
  }
  if (!surface) return cut;
  const double shown = std::min(surface->half_width, arch.half_width);
  for (int i = 0; i < samples; ++i) {
    const double z = across(shown, i);
    cut.tongue.push_back({z, std::min(surface->at(z), arch.at(z))});
  }
  if (const auto bottom = height_at(tongue.lower, behind_teeth_mm))
    cut.tongue_underside = island_bottom(shown, cut.tongue.back().y, *bottom);
  return cut;
}

namespace {
constexpr std::size_t strips = 40; // of one half of a channel: both are alike
}

struct Channels::Work {
  explicit Work(const Anatomy& anatomy) : roof(anatomy), tongue(roof) {
    for (std::size_t i = 0; i < strips; ++i) falls[i] = RoofCut::fall((static_cast<double>(i) + 0.5) / strips);
  }
  Roof roof;
  Tongue tongue;
  const Outline* outline = nullptr;
  std::array<double, strips> falls{}; // of the arch at the middle of each strip of its whole half-width
};

Channels::Channels(const Anatomy& anatomy) : work_(std::make_unique<Work>(anatomy)) {}
Channels::~Channels() = default;
Channels::Channels(Channels&&) noexcept = default;
Channels& Channels::operator=(Channels&&) noexcept = default;

void Channels::set(const Outline& outline, const Pose& pose) {
  work_->outline = &outline;
  work_->tongue.set(outline, pose);
}

std::optional<Channel> Channels::at(double behind_teeth_mm) const {
  MW_EXPECT(work_->outline != nullptr);
  const Roof& roof = work_->roof;
  constexpr double soft_mm = 12; // so far behind the bone the soft palate still arches like its end
  if (behind_teeth_mm < roof.xs.front() || behind_teeth_mm > roof.xs.back() + soft_mm * roof.anatomy.jaw_x)
    return std::nullopt;
  RoofCut arch = roof.cut(behind_teeth_mm);
  if (behind_teeth_mm > roof.xs.back()) {
    const auto soft = height_at(work_->outline->velum_under, behind_teeth_mm);
    if (!soft) return std::nullopt;
    arch.gum += *soft - arch.middle;
    arch.middle = *soft;
  }
  const auto surface = work_->tongue.cut(behind_teeth_mm, arch);
  if (!surface) return std::nullopt;
  const double half = std::min(surface->half_width, arch.half_width), width = half / strips;
  const bool whole = half == arch.half_width; // the usual case: the fall at the strips is known
  double area = 0;
  for (std::size_t i = 0; i < strips; ++i) {
    const double z = (static_cast<double>(i) + 0.5) * width;
    const double roof_y = whole ? arch.middle - (arch.middle - arch.gum) * work_->falls[i] : arch.at(z);
    area += std::max(roof_y - surface->at(z), 0.0) * width;
  }
  area *= 2 / 100.0;
  return Channel{area, area * std::max(surface->groove_width / half, 1.0)};
}

PalateMap palate_map(const Anatomy& anatomy, const Outline& outline, const Pose& pose) {
  const Roof roof(anatomy);
  const Tongue tongue(roof, outline, pose);
  PalateMap map{.rows = 60, .columns = 81};
  constexpr int arch_points = 80;
  for (int i = -arch_points + 1; i < arch_points; ++i) {
    const double x = (1 + 51.0 * std::abs(i) / (arch_points - 1)) * anatomy.jaw_x;
    map.arch.push_back({x, i == 0 ? 0.0 : std::copysign(roof.cut(x).half_width, i)});
  }
  std::vector<double> share, fall; // of the half-width; of the arch's height
  for (int column = 0; column < map.columns; ++column) {
    share.push_back(2.0 * column / (map.columns - 1) - 1);
    fall.push_back(RoofCut::fall(std::abs(share.back())));
  }
  for (int row = 0; row < map.rows; ++row) {
    const double x = (3 + 48.0 * row / (map.rows - 1)) * anatomy.jaw_x;
    const RoofCut arch = roof.cut(x);
    const auto surface = tongue.cut(x, arch);
    for (std::size_t column = 0; column < share.size(); ++column) {
      const double z = arch.half_width * share[column], roof_y = arch.middle - (arch.middle - arch.gum) * fall[column];
      const bool under = surface && std::abs(z) <= surface->half_width;
      const double depth = under ? surface->at(z) - roof_y + touch : no_tongue;
      map.grid.push_back({x, z});
      map.depth.push_back(depth);
      map.contact.push_back(depth > 0);
    }
  }
  return map;
}

double lip_width(const Anatomy& anatomy, const Pose& pose) {
  const double h = std::max(pose.lip_opening, 0.0), k = anatomy.lip_scale;
  const double rounded = std::max(pose.lip_rounding, 0.0), spread = std::max(-pose.lip_rounding, 0.0);
  const double width = std::clamp(26 * k + 0.75 * h - 15 * k * rounded + 12 * k * spread, 6 * k, 52.0);
  // lips that close come together from the corners
  return width * std::sqrt(std::clamp(h / (rounded > 0 ? 6 * k : 2.5), 0.0, 1.0));
}

LipsFront lips_front(const Anatomy& anatomy, const Pose& pose) {
  LipsFront lips{.width_mm = lip_width(anatomy, pose),
                 .height_mm = std::max(pose.lip_opening, 0.0),
                 .rounding = pose.lip_rounding,
                 .protrusion_mm = pose.lip_protrusion,
                 .teeth_on_lip = pose.lip_tuck > 0.5};
  const double rounded = std::max(pose.lip_rounding, 0.0), k = anatomy.lip_scale;
  // the red: 8 mm beside the corners and 7.5 mm above and below; closed lips keep the width of their line
  const double slit = lips.height_mm > 0 ? std::max(lips.width_mm, 3.0) : (30 - 12 * rounded) * k;
  const double half_width = 0.5 * (slit + 16 * k), half_height = 0.5 * (lips.height_mm + 15 * k);
  constexpr int points = 80;
  for (int i = 0; i < points; ++i) {
    const double t = 2 * std::numbers::pi * i / points, c = std::cos(t), s = std::sin(t);
    // cupid's bow: the upper edge dips in the middle, less when rounded
    const double bow = s > 0 ? 1 - 0.22 * std::exp(-(c / 0.22) * (c / 0.22)) * (1 - 0.6 * rounded) : 1.0;
    lips.outer.push_back({half_width * c, half_height * std::copysign(std::pow(std::abs(s), 1.15), s) * bow});
    lips.inner.push_back({0.5 * slit * c, 0.5 * lips.height_mm * s});
  }
  return lips;
}

FoldState fold_state(const Pose& pose) {
  constexpr std::array limits{0.05, 0.10, 0.25, 0.50}; // voiced is about 0.12, rest 0.15
  const auto at = std::ranges::find_if(limits, [&](double limit) { return pose.glottis < limit; });
  return static_cast<FoldState>(at - limits.begin());
}

} // namespace mw
