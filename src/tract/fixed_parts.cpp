#include "tract/work.h"

#include <algorithm>
#include <map>
#include <mutex>

namespace mw {
namespace {
// Passes and half-width (samples) of the smoothing where the soft palate leaves the bone.
constexpr int joint_passes = 6;
constexpr std::size_t joint_reach = 6;

// Teeth, palate, soft palate as one line from the lips to the throat; joint smoothed. Returns the number of points.
std::size_t join_upper_wall(const Anatomy& anatomy, std::span<const Vec2> velum_under, std::span<Vec2> out) {
  std::size_t n = 0;
  for (std::size_t i = anatomy.upper_incisor.size(); i-- > 0;) out[n++] = anatomy.upper_incisor[i];
  for (std::size_t i = 1; i + 1 < anatomy.palate.size(); ++i) out[n++] = anatomy.palate[i];
  const std::size_t joint = n;
  for (std::size_t i = 1; i < velum_under.size(); ++i) out[n++] = velum_under[i];
  smooth_line(out.subspan(joint - joint_reach - 1, 2 * joint_reach + 3), joint_passes);
  return n;
}

std::size_t upper_joint_of(const Anatomy& anatomy) { return anatomy.upper_incisor.size() + anatomy.palate.size() - 2; }

Polyline lower_wall(const Polyline& incisor, const Polyline& floor) {
  Polyline line(incisor.rbegin(), incisor.rend());
  line.insert(line.end(), floor.begin() + 1, floor.end());
  return line;
}

Polyline open_ring(Polyline ring) {
  ring.pop_back(); // a closed spline repeats its first sample
  return ring;
}

std::shared_ptr<const FixedParts> build_parts(const std::shared_ptr<const Anatomy>& shared) {
  const Anatomy& anatomy = *shared;
  auto parts = std::make_shared<FixedParts>();
  parts->anatomy = shared;
  parts->throat = FixedWall(anatomy.back_wall, 1);
  set_velum_centre(anatomy, 0, parts->shut_velum);
  set_velum_faces(parts->shut_velum);
  keep_off_throat(*parts, parts->shut_velum);
  // the same wall twice: whole with the velum shut, and the part before the first smoothed point
  Polyline upper(upper_wall_capacity);
  MW_EXPECT(anatomy.upper_incisor.size() + anatomy.palate.size() + velum_samples < upper_wall_capacity);
  upper.resize(join_upper_wall(anatomy, parts->shut_velum.under, upper));
  parts->upper_joint = upper_joint_of(anatomy);
  parts->upper_bone = FixedWall(upper, 1, parts->upper_joint - joint_reach - 1);
  parts->upper_shut = FixedWall(std::move(upper), 1);
  parts->lower_incisor_line = spline_through(anatomy.jaw.at("lower_incisor"), 40);
  parts->mouth_floor = spline_through(anatomy.jaw.at("mouth_floor"), 24);
  parts->lower = FixedWall(lower_wall(parts->lower_incisor_line, parts->mouth_floor), -1);
  parts->lower_tooth = open_ring(spline_through(anatomy.jaw.at("lower_incisor_tooth"), 90, true));
  parts->mandible = open_ring(spline_through(anatomy.jaw.at("mandible"), 120, true));
  parts->upper_tooth = open_ring(spline_through(anatomy.skull.at("upper_incisor_tooth"), 90, true));
  Polyline labial = spline_through(anatomy.upper_incisor, 30);
  std::reverse(labial.begin(), labial.end());
  parts->tucked_incisor = resample(labial, 0.7);
  parts->floor_points = anatomy.jaw.at("mouth_floor");
  parts->nose_profile = anatomy.skull.at("nose_profile");
  parts->chin_skin = anatomy.jaw.at("chin_skin");
  parts->larynx_front = anatomy.larynx.at("larynx_front_wall");
  parts->larynx_back = anatomy.larynx.at("larynx_back_wall");
  const Polyline& thyroid = anatomy.larynx.at("thyroid_cartilage");
  parts->thyroid_front_top = thyroid.front();
  for (const Vec2 p : thyroid)
    parts->thyroid_front_top = {std::min(p.x, parts->thyroid_front_top.x), std::max(p.y, parts->thyroid_front_top.y)};
  parts->rest_tip = jaw_transform(anatomy, anatomy.rest.jaw_opening).to_jaw({anatomy.rest.tip_x, anatomy.rest.tip_y});
  return parts;
}
} // namespace

std::shared_ptr<const FixedParts> fixed_parts(const std::shared_ptr<const Anatomy>& anatomy) {
  // kept while any tracer of the speaker lives, so that a tracer per picture costs no new tables
  static std::mutex guard;
  static std::map<const Anatomy*, std::shared_ptr<const FixedParts>> known;
  const std::lock_guard lock(guard);
  auto& parts = known[anatomy.get()];
  if (!parts) parts = build_parts(anatomy);
  return parts;
}

void set_walls(const FixedParts& fixed, std::span<const Vec2> velum_under, bool shut, Walls& walls) {
  walls.fixed = &fixed;
  walls.shut = shut;
  if (shut) {
    const Polyline& line = fixed.upper_shut.line();
    std::copy(line.begin(), line.end(), walls.upper.begin());
    walls.upper_count = line.size();
    return;
  }
  walls.upper_count = join_upper_wall(*fixed.anatomy, velum_under, walls.upper);
  walls.moving.set(walls.upper_line(), fixed.upper_joint - joint_reach - 1);
}

Nearest Walls::nearest_upper(Vec2 p) const {
  if (shut) return fixed->upper_shut.nearest(p);
  Candidate best;
  fixed->upper_bone.search(p, best);
  moving.search(p, best);
  return resolve(upper_line(), p, best, 1);
}

bool Walls::far_from_upper(Vec2 p) const {
  if (shut) return fixed->upper_shut.far(p);
  // behind and above the soft palate a tongue that was asked too much may lie on the wrong side of it: no shortcut there
  return fixed->upper_bone.far(p) && moving.before_or_below(p, contact_softness);
}

} // namespace mw
