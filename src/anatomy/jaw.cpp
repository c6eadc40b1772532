#include "anatomy/anatomy.h"

#include <cmath>

namespace mw {

Vec2 JawTransform::to_skull(Vec2 q) const {
  const Vec2 d = q - hinge;
  return Vec2(c * d.x - s * d.y, s * d.x + c * d.y) + hinge + slide;
}

Vec2 JawTransform::to_jaw(Vec2 q) const {
  const Vec2 d = q - hinge - slide;
  return Vec2(c * d.x + s * d.y, -s * d.x + c * d.y) + hinge;
}

JawTransform jaw_transform(const Anatomy& anatomy, double jaw_opening, double jaw_forward) {
  // the opening is the drop of the incisor edge, an arc of this radius round the hinge
  const double angle = jaw_opening / anatomy.jaw_length;
  return {std::cos(angle), std::sin(angle), anatomy.condyle, {-jaw_forward, 0.0}};
}

double body_radius(const Anatomy& anatomy, Vec2 centre) {
  // a humped front tongue is broad, one raised at the back is drawn in and tighter
  const Vec2 d = (centre - anatomy.body_neutral) / anatomy.tongue_scale;
  return anatomy.body_radius - 5.0 * anatomy.tongue_scale * smooth_step((d.x - 2.0) / 14.0 + 0.02 * (d.y - 2.5));
}

} // namespace mw
