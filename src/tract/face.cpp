#include "tract/work.h"

#include <algorithm>

namespace mw {
namespace {
constexpr std::size_t nose_samples = 160, chin_samples = 200;
} // namespace

// Forehead, nose and upper lip are one curve, lower lip, chin and neck another; the lips' margin lines lie between.
void trace_face(const FixedParts& fixed, const Pose& pose, const JawTransform& jaw, Polyline& curve, Outline& out) {
  const Anatomy& a = *fixed.anatomy;
  const double k = a.tongue_scale;
  std::array<Vec2, 40> points{};
  std::size_t n = 0;
  const auto add = [&](Vec2 p) {
    MW_EXPECT(n < points.size());
    points[n++] = p;
  };
  // nose down to the first point of the upper lip; two lip samples more make the joint smooth
  for (const Vec2 p : fixed.nose_profile) add(p);
  const std::size_t nose_end = n;
  add(a.upper_lip.front().at);
  add(out.upper_lip_line[6]);
  add(out.upper_lip_line[9]);
  spline_into(std::span(points).first(n), nose_samples, curve);
  out.face.assign(curve.begin(), curve.begin() + knot_sample(std::span(points).first(n), nose_end, nose_samples));
  const auto lowest = std::min_element(out.upper_lip_line.begin(), out.upper_lip_line.end(),
                                       [](Vec2 p, Vec2 q) { return p.y < q.y; });
  out.face.insert(out.face.end(), out.upper_lip_line.begin(), lowest + 1);
  out.face_mouth = static_cast<int>(out.face.size());
  // lower lip down to the chin fold
  const auto highest = std::max_element(out.lower_lip_line.begin(), out.lower_lip_line.end(),
                                        [](Vec2 p, Vec2 q) { return p.y < q.y; });
  for (auto at = highest + 1; at != out.lower_lip_line.begin();) out.face.push_back(*--at);
  // neck: in front of the thyroid cartilage, below the chin
  const double front = fixed.thyroid_front_top.x, top = fixed.thyroid_front_top.y;
  const std::span<const Vec2> skin = fixed.chin_skin;
  const Vec2 chin = jaw.to_skull(skin.front()), swing = chin - skin.front();
  const double x = front - 5.4, y = std::min(top + 5 * k + 0.3 * pose.larynx, chin.y - 12 * k);
  const Vec2 throat_angle(x + 0.25 * swing.x, y);
  n = 0;
  add({x + 0.4, a.glottis_y - 38.0});
  add({x, y - 33 * k});
  add({x - 1.6 * k, y - 11 * k + 0.5 * pose.larynx});
  add(throat_angle);
  add(0.5 * (throat_angle + chin) + Vec2(2.0, 1.5) * k);
  for (const Vec2 p : skin) add(jaw.to_skull(p));
  const std::size_t fold = n;
  for (const std::size_t i : {0u, 4u, 8u}) add(out.lower_lip_line[i]);
  spline_into(std::span(points).first(n), chin_samples, curve);
  for (int i = knot_sample(std::span(points).first(n), fold, chin_samples); i-- > 0;)
    out.face.push_back(curve[static_cast<std::size_t>(i)]);
}

void trace_teeth_and_jaw(const FixedParts& fixed, const JawTransform& jaw, Outline& out) {
  const auto carry = [&](const Polyline& line, Polyline& to) {
    to.resize(line.size());
    for (std::size_t i = 0; i < line.size(); ++i) to[i] = jaw.to_skull(line[i]);
  };
  carry(fixed.lower_tooth, out.lower_incisor);
  carry(fixed.mandible, out.jaw);
  carry(fixed.lower_incisor_line, out.lower_incisor_line);
  carry(fixed.mouth_floor, out.mouth_floor);
  out.genial = jaw.to_skull(fixed.anatomy->genial);
}

} // namespace mw
