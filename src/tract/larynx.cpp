#include "tract/work.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace mw {
namespace {
constexpr std::size_t leaf_samples = 30, leaf_cap = 5;
constexpr double leaf_wall_softness = 0.15; // the folded leaf lies flat on the throat wall

// Tongue surface behind the leaf: x of the back at a height; below the tongue's foot it runs on down and forwards.
class RootSurface {
public:
  RootSurface(std::span<const Vec2> back, double below) : foot_(back.front()) {
    for (const Vec2 p : back) {
      if (p.y >= below || count_ == points_.size()) continue;
      // nearly in order from the root up: insertion sort by height
      std::size_t i = count_++;
      for (; i > 0 && points_[i - 1].y > p.y; --i) points_[i] = points_[i - 1];
      points_[i] = p;
    }
  }
  [[nodiscard]] double x_at(double y) const {
    if (y <= foot_.y || count_ == 0) return foot_.x - 0.7 * (foot_.y - y);
    if (y <= points_[0].y) return points_[0].x;
    if (y >= points_[count_ - 1].y) return points_[count_ - 1].x;
    std::size_t i = 1;
    while (points_[i].y <= y) ++i;
    const double h = points_[i].y - points_[i - 1].y;
    return points_[i - 1].x + (points_[i].x - points_[i - 1].x) * (y - points_[i - 1].y) / h;
  }

private:
  std::array<Vec2, 121> points_{};
  std::size_t count_ = 0;
  Vec2 foot_;
};

double leaf_half_width(double along) {
  constexpr std::array<double, 5> at{0, 0.15, 0.5, 0.85, 1.0}, half{2.0, 2.0, 1.7, 1.3, 0.9};
  return interpolate(at, half, along);
}

// Centreline of the leaf: from its base to the tip, kept behind the tongue root.
void place_leaf(const Anatomy& anatomy, const Pose& pose, const RootSurface& root, std::span<const double> half,
                Polyline& centre) {
  const double fold = pose.epiglottis;
  const double tip_y = anatomy.epiglottis_tip_y + 0.55 * pose.larynx - 2.0 * fold;
  double tip_x = std::max(root.x_at(tip_y) + 3.0, anatomy.epiglottis_x_min);
  tip_x = std::min(tip_x + fold * (anatomy.epiglottis_x_max - tip_x), anatomy.epiglottis_x_max);
  const Vec2 base = anatomy.epiglottis_base + Vec2(0, pose.larynx), tip(tip_x, tip_y);
  const std::array<Vec2, 4> points{base, base + 0.28 * (tip - base) + Vec2(0.3, 0),
                                   0.55 * (base + tip) - 0.1 * base + Vec2(-0.8 - 0.6 * fold, -0.5), tip};
  spline_into(points, leaf_samples, centre);
  std::array<double, leaf_samples> limit{}, push{};
  for (std::size_t i = 0; i < leaf_samples; ++i) {
    limit[i] = root.x_at(centre[i].y) + half[i] + 1.0;
    push[i] = soft_clamp(limit[i] - centre[i].x, 1.0) * std::pow(static_cast<double>(i) / (leaf_samples - 1), 0.3);
  }
  for (int pass = 0; pass < 8; ++pass) {
    double before = push[0];
    for (std::size_t i = 1; i + 1 < leaf_samples; ++i) {
      const double own = push[i];
      push[i] = 0.25 * before + 0.5 * own + 0.25 * push[i + 1];
      before = own;
    }
  }
  for (std::size_t i = 0; i < leaf_samples; ++i) centre[i].x = std::max(centre[i].x + push[i], limit[i] - 0.5);
  smooth_line(centre, 4);
}

void keep_leaf_off_throat(const FixedParts& fixed, std::span<Vec2> points) {
  for (Vec2& p : points) {
    if (fixed.throat.far(p)) continue;
    const Nearest near = fixed.throat.nearest(p);
    if (near.distance < leaf_wall_softness)
      p += near.normal * (soft_clamp(near.distance, leaf_wall_softness) - near.distance);
  }
}

void trace_epiglottis(const FixedParts& fixed, const Pose& pose, Outline& out) {
  const Anatomy& anatomy = *fixed.anatomy;
  const RootSurface root(out.dorsum, 0.5 * anatomy.epiglottis_tip_y);
  std::array<double, leaf_samples> half{};
  for (std::size_t i = 0; i < leaf_samples; ++i)
    half[i] = leaf_half_width(static_cast<double>(i) / (leaf_samples - 1)) * anatomy.tongue_scale;
  Polyline& centre = out.epiglottis; // the ring's memory serves for the centreline first
  place_leaf(anatomy, pose, root, half, centre);
  out.epiglottis_back.resize(leaf_samples);
  out.epiglottis_front.resize(leaf_samples);
  out.epiglottis_cap.resize(leaf_cap);
  for (std::size_t i = 0; i < leaf_samples; ++i) {
    const Vec2 n = right_normal_at(centre, i) * half[i];
    out.epiglottis_back[i] = centre[i] + n;
    out.epiglottis_front[i] = centre[i] - n;
  }
  const Vec2 end = centre.back(), n = right_normal_at(centre, leaf_samples - 1);
  const double start = std::atan2(n.y, n.x);
  for (std::size_t i = 0; i < leaf_cap; ++i) {
    const double angle = start + std::numbers::pi * static_cast<double>(i + 1) / (leaf_cap + 1);
    out.epiglottis_cap[i] = end + half.back() * Vec2(std::cos(angle), std::sin(angle));
  }
  keep_leaf_off_throat(fixed, out.epiglottis_back);
  keep_leaf_off_throat(fixed, out.epiglottis_cap);
  out.epiglottis.assign(out.epiglottis_back.begin(), out.epiglottis_back.end());
  out.epiglottis.insert(out.epiglottis.end(), out.epiglottis_cap.begin(), out.epiglottis_cap.end());
  out.epiglottis.insert(out.epiglottis.end(), out.epiglottis_front.rbegin(), out.epiglottis_front.rend());
}

// A larynx wall at the larynx's height; its lower end is the windpipe and stays.
void trace_wall(const Anatomy& anatomy, std::span<const Vec2> wall, double height, std::size_t samples, Polyline& out) {
  std::array<Vec2, 12> points{};
  MW_EXPECT(wall.size() <= points.size());
  for (std::size_t i = 0; i < wall.size(); ++i) points[i] = wall[i] + Vec2(0, height);
  points[wall.size() - 1].y = anatomy.glottis_y - 19.0 * anatomy.tongue_scale;
  spline_into(std::span(points).first(wall.size()), samples, out);
}
} // namespace

void trace_larynx(const FixedParts& fixed, const Pose& pose, Outline& out) {
  trace_epiglottis(fixed, pose, out);
  trace_wall(*fixed.anatomy, fixed.larynx_front, pose.larynx, 60, out.larynx_front);
  trace_wall(*fixed.anatomy, fixed.larynx_back, pose.larynx, 50, out.larynx_back);
  out.glottis_y = fixed.anatomy->glottis_y + pose.larynx;
}

} // namespace mw
