#include "score/transfer.h"

#include "anatomy/places.h"

namespace mw {
namespace {
constexpr double narrow_mm = 1.5; // openings up to here are the same for every speaker
constexpr double near_wall_mm = 6; // a tip this close to the upper wall has a goal there

struct Scale {
  double Pose::*value;
  double Anatomy::*by;
};
constexpr Scale scales[] = {
    {&Pose::jaw_opening, &Anatomy::jaw_x}, {&Pose::lip_protrusion, &Anatomy::lip_scale}, {&Pose::root, &Anatomy::tongue_scale},
    {&Pose::blade, &Anatomy::tongue_scale}, {&Pose::larynx, &Anatomy::larynx_scale}, {&Pose::groove, &Anatomy::tongue_scale},
};

/// Where a disc stands against the upper wall, in terms every speaker shares.
struct Spot {
  double place, gap, offset;
};
Spot spot_of(const WallTable& wall, Vec2 centre, double radius) {
  const WallSpot at = locate_on_wall(wall, centre);
  return {normalised_place(wall, at.u), at.distance - radius, at.offset};
}

/// The disc centre of a spot; `radius` may depend on the centre, eight rounds settle it.
template <typename Radius> Vec2 centre_of(const WallTable& wall, const Spot& spot, double scale, Radius&& radius) {
  const double u = place_of_normalised(wall, spot.place);
  const Vec2 p = wall_point(wall, u), n = wall_normal(wall, u), along(-n.y, n.x);
  const double gap = spot.gap < narrow_mm ? spot.gap : narrow_mm + (spot.gap - narrow_mm) * scale;
  Vec2 centre = p + n * (gap + radius(p)) + along * (spot.offset * scale);
  for (int round = 0; round < 8; ++round) centre = p + n * (gap + radius(centre)) + along * (spot.offset * scale);
  return centre;
}
} // namespace

Pose transfer(const Pose& pose, const Anatomy& from, const Anatomy& to) {
  Pose out = pose;
  for (const auto& scale : scales) out.*scale.value *= to.*scale.by / from.*scale.by;
  if (pose.lip_opening > 0) out.lip_opening *= to.lip_scale / from.lip_scale;
  const double k = to.tongue_scale / from.tongue_scale;
  const WallTable &wall = wall_table(from, pose.velum), &own = wall_table(to, pose.velum);
  const Vec2 body{pose.body_x, pose.body_y}, tip{pose.tip_x, pose.tip_y};
  const Vec2 c = centre_of(own, spot_of(wall, body, body_radius(from, body)), k, [&](Vec2 q) { return body_radius(to, q); });
  out.body_x = c.x;
  out.body_y = c.y;
  const Spot tip_spot = spot_of(wall, tip, from.tip_radius);
  Vec2 t{};
  if (tip_spot.gap < near_wall_mm && pose.tip_y > -pose.jaw_opening + 0.5)
    t = centre_of(own, tip_spot, k, [&](Vec2) { return to.tip_radius; });
  else {
    const double jx = to.jaw_x / from.jaw_x;
    const Vec2 q = jaw_transform(from, pose.jaw_opening, pose.jaw_forward).to_jaw(tip);
    t = jaw_transform(to, out.jaw_opening, out.jaw_forward)
            .to_skull({q.x * jx + to.tip_radius - from.tip_radius * jx, q.y * to.jaw_y / from.jaw_y});
  }
  out.tip_x = t.x;
  out.tip_y = t.y;
  return out;
}

} // namespace mw
