#include "tract/work.h"

#include <algorithm>
#include <cmath>

namespace mw {
namespace {
constexpr std::size_t lip_points = 13, lip_samples = 100;
constexpr std::size_t margin_row = 7, skin_border_row = 3, wet_end_row = 8; // control points of a lip
using LipShape = std::array<Vec2, lip_points>;

// Heights of both margins: the upper lip does 16 % of the opening, rises with tuck, sinks when the lips close.
struct Margins {
  double upper = 0, lower = 0, press = 0;
};
Margins margins_of(const Anatomy& anatomy, const Pose& pose) {
  const double opening = std::max(pose.lip_opening, 0.0);
  Margins m;
  m.press = std::max(-pose.lip_opening, 0.0);
  m.upper = anatomy.upper_lip[margin_row].at.y + std::clamp(0.16 * (opening - 4.0), -1.2, 2.0) + 1.6 * pose.lip_tuck -
            1.6 * std::clamp((3.0 - opening) / 3.0, 0.0, 1.0);
  m.lower = m.upper - opening;
  return m;
}

LipShape upper_shape(const Anatomy& anatomy, const Pose& pose, const Margins& m) {
  const double round = std::max(pose.lip_rounding, 0.0), spread = std::max(-pose.lip_rounding, 0.0);
  const double raise = m.upper - anatomy.upper_lip[margin_row].at.y;
  LipShape out;
  for (std::size_t i = 0; i < lip_points; ++i) {
    const LipPoint& p = anatomy.upper_lip[i];
    out[i] = p.at + Vec2(-pose.lip_protrusion * p.protrusion, raise * p.height) + round * p.round + spread * p.spread;
  }
  return out;
}

struct LowerShape {
  LipShape points;
  double ratio = 1;
};
LowerShape lower_shape(const Anatomy& anatomy, const Pose& pose, const JawTransform& jaw, const Margins& m) {
  const double round = std::max(pose.lip_rounding, 0.0), spread = std::max(-pose.lip_rounding, 0.0);
  LipShape ridden; // carried by the jaw
  for (std::size_t i = 0; i < lip_points; ++i) ridden[i] = jaw.to_skull(anatomy.lower_lip[i].at);
  // stretched about the chin fold until the margin is where it is wanted; a stretched lip is thinner
  const Vec2 fold = ridden[0];
  const double ratio = std::clamp((m.lower + m.press - fold.y) / (ridden[6].y - fold.y), 0.45, 1.75);
  const double thinner = std::pow(ratio, -0.3), wet_x = ridden[margin_row].x;
  // part of the jaw's backward swing is undone; the lip goes forward as a block
  const double forward = -0.78 * pose.lip_protrusion - 0.15 * (ridden[6].x - anatomy.lower_lip[6].at.x);
  LowerShape out{ridden, ratio};
  for (std::size_t i = 0; i < lip_points; ++i) {
    const LipPoint& p = anatomy.lower_lip[i];
    Vec2& q = out.points[i];
    if (p.height > 0) q.y += (ratio - 1) * p.height * (ridden[i].y - fold.y);
    if (i >= 1 && i < margin_row) q.x = wet_x + (ridden[i].x - wet_x) * thinner;
    q += Vec2(forward * p.protrusion + anatomy.tuck_reach * pose.lip_tuck * p.tuck, 0) + round * p.round + spread * p.spread;
  }
  return out;
}

// Pressed lips: what each control point from the skin border (row 3) to the crown (row 6) does per mm of pressure. Both
// reds bulge round the seam, the lower lip comes forward to meet the upper one, and the red between them is hidden
// (common practice; the outer face of a lip keeps its tissue when the seam flattens).
using Rolling = std::array<Vec2, 4>;
constexpr Rolling upper_rolling{{{0.15, 0}, {0.2, 0.25}, {0.1, 0.5}, {0.1, 0}}};
constexpr Rolling lower_rolling{{{-0.1, 0}, {-0.1, -0.1}, {-0.3, -0.6}, {-0.35, 0}}};
void roll_in(LipShape& lip, const Rolling& rolling, double press) {
  for (std::size_t i = 0; i < rolling.size(); ++i) lip[skin_border_row + i] += press * rolling[i];
}

// Pressed lips: both margins lie on one line. Softer the harder they press, so that the first touch already closes.
void lay_on_line(Outline& out, double y, double press) {
  const double softness = std::min(0.6, 0.5 * press);
  for (Vec2& p : out.upper_lip_line)
    if (p.x < -3) p.y = y + soft_clamp(p.y - y, softness);
  for (Vec2& p : out.lower_lip_line)
    if (p.x < -1) p.y = y - soft_clamp(y - p.y, softness);
}

// Labiodentals: the lower lip lies against the upper incisor edge.
void lay_on_teeth(const FixedParts& fixed, Outline& out) {
  for (Vec2& p : out.lower_lip_line) {
    if (p.x <= -9 || p.x >= 5) continue;
    const Nearest near = nearest_on(fixed.tucked_incisor, p);
    if (near.distance >= -6 && !near.beyond_end)
      p += near.normal * (soft_clamp(near.distance, 0.5) - near.distance);
  }
}
} // namespace

void trace_lips(const FixedParts& fixed, const Pose& pose, const JawTransform& jaw, Outline& out) {
  const Anatomy& anatomy = *fixed.anatomy;
  const Margins m = margins_of(anatomy, pose);
  LipShape upper = upper_shape(anatomy, pose, m);
  LowerShape lower = lower_shape(anatomy, pose, jaw, m);
  if (m.press > 0) {
    roll_in(upper, upper_rolling, m.press);
    roll_in(lower.points, lower_rolling, m.press);
  }
  spline_into(upper, lip_samples, out.upper_lip_line);
  spline_into(lower.points, lip_samples, out.lower_lip_line);
  out.upper_red = {knot_sample(upper, skin_border_row, lip_samples), knot_sample(upper, wet_end_row, lip_samples)};
  out.lower_red = {knot_sample(lower.points, skin_border_row, lip_samples),
                   knot_sample(lower.points, wet_end_row, lip_samples)};
  if (m.press > 0) lay_on_line(out, m.upper + 0.5 * m.press, m.press);
  if (pose.lip_tuck > 0.05) lay_on_teeth(fixed, out);
  out.upper_margin_y = m.upper;
  out.lower_margin_y = m.lower;
  out.lip_edge_x = 0.5 * (upper[6].x + lower.points[6].x);
  out.lower_lip_ratio = lower.ratio;
  out.lip_tuck = pose.lip_tuck;
  out.lip_fold = out.lower_lip_line.front();
  // rings: the margin line closed through the tissue behind it
  out.upper_lip.assign(out.upper_lip_line.begin(), out.upper_lip_line.end());
  out.lower_lip.assign(out.lower_lip_line.begin(), out.lower_lip_line.end());
  out.lower_lip.push_back(jaw.to_skull(Vec2(3.2, -20.0) * anatomy.tongue_scale)); // below the gum, inside the chin
}

} // namespace mw
