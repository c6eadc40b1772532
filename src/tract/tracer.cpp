#include "tract/outline.h"

#include "base/text.h"
#include "tract/work.h"

#include <algorithm>
#include <cmath>

namespace mw {

struct Tracer::Work {
  std::shared_ptr<const FixedParts> parts;
  Walls walls;
  VelumSamples velum;
  TongueBuild coarse, fine;
  BoxedLine tongue_back;
  Polyline curve;
  Outline outline;
};

namespace {
// What one tongue and one lip can give. The retroflex stops raise the tip 22.0 (man, woman) and 23.4 mm (child, scaled to
// the man's tongue) above its rest place on the jaw: more is asked too much. Lip and area: all target rows lie inside.
constexpr double highest_tip = 24, least_lip = 0.6, most_lip = 1.6, most_area_error = 0.03;
// Room between the incisor edges below which a tip cannot lie there, mm (adult male): half its thickness.
constexpr double least_bite = 2.8;

void copy_tongue(const TongueTask& task, const TongueBuild& b, Outline& out) {
  out.dorsum.assign(b.back.begin(), b.back.end());
  out.tip_cap.assign(b.cap.begin(), b.cap.end());
  out.underside.assign(b.under.begin(), b.under.end());
  out.hyoid = b.hyoid;
  out.frenulum = task.frenulum;
  out.body_centre = task.body;
  out.tip_centre = task.tip;
  out.tip_direction = task.tip_direction;
  // the ring of the area: back, tip, under side, chin tubercle, hyoid, foot
  out.tongue.assign(out.dorsum.begin(), out.dorsum.end());
  out.tongue.insert(out.tongue.end(), out.tip_cap.begin(), out.tip_cap.end());
  out.tongue.insert(out.tongue.end(), out.underside.begin(), out.underside.end());
  out.tongue.insert(out.tongue.end(), {out.genial, out.hyoid, out.dorsum.front() + Vec2(-3, -4)});
  out.tongue_area_mm2 = b.area;
  out.area_error = b.area / task.anatomy->rest_area_fine - 1;
}

// The drawn upper wall: the wall of the contact, its tail replaced by the draped velum.
void copy_velum(const FixedParts& parts, const Walls& walls, const VelumSamples& velum, Outline& out) {
  out.velum_under.assign(velum.under.begin(), velum.under.end());
  out.velum_cap.assign(velum.cap.begin(), velum.cap.end());
  out.velum_upper.assign(velum.upper.begin(), velum.upper.end());
  out.velum.assign(velum.under.begin(), velum.under.end());
  out.velum.insert(out.velum.end(), velum.cap.begin(), velum.cap.end());
  out.velum.insert(out.velum.end(), velum.upper.rbegin(), velum.upper.rend());
  const auto upper = walls.upper_line();
  out.upper_wall.assign(upper.begin(), upper.end());
  for (std::size_t i = 1; i < velum_samples; ++i) {
    const double share = std::clamp((static_cast<double>(i) - 7) / 8, 0.0, 1.0);
    Vec2& p = out.upper_wall[parts.upper_joint + i - 1];
    p = (1 - share) * p + share * velum.under[i];
  }
  const auto teeth = static_cast<std::ptrdiff_t>(parts.anatomy->upper_incisor.size());
  out.palate.assign(out.upper_wall.begin() + teeth - 1,
                    out.upper_wall.begin() + static_cast<std::ptrdiff_t>(parts.upper_joint) + 1);
}

void set_strain(const FixedParts& parts, const TongueTask& task, Outline& out) {
  const double k = parts.anatomy->tongue_scale;
  const Vec2 rest_tip = task.jaw.to_skull(parts.rest_tip);
  const char* reason = nullptr;
  if (std::fabs(out.area_error) > most_area_error)
    reason = "the back and the tip of the tongue are asked to be farther apart than one tongue reaches";
  else if (task.tip.y - rest_tip.y > highest_tip * k)
    reason = "the tip of the tongue is asked to be higher than it reaches from this jaw";
  else if (task.tip.x < task.incisor_edge.x && task.tip.y < parts.anatomy->tip_radius &&
           -task.incisor_edge.y < least_bite * k)
    reason = "the tip of the tongue is asked to go between teeth that are nearly closed";
  else if (out.lower_lip_ratio < least_lip || out.lower_lip_ratio > most_lip)
    reason = "the lower lip is asked to stretch farther than it gives at this jaw opening";
  out.strained = reason != nullptr;
  out.strain_reason.assign(reason != nullptr ? reason : "");
}
} // namespace

Tracer::Tracer(std::shared_ptr<const Anatomy> anatomy) : work_(std::make_unique<Work>()) {
  MW_EXPECT(anatomy != nullptr);
  work_->parts = fixed_parts(anatomy);
  work_->outline.upper_incisor = work_->parts->upper_tooth;
  work_->outline.back_wall = anatomy->back_wall;
  work_->outline.strain_reason.reserve(120);
}
Tracer::~Tracer() = default;
Tracer::Tracer(Tracer&&) noexcept = default;
Tracer& Tracer::operator=(Tracer&&) noexcept = default;

const Anatomy& Tracer::anatomy() const { return *work_->parts->anatomy; }

const Outline& Tracer::trace(const Pose& pose) {
  Work& w = *work_;
  const FixedParts& parts = *w.parts;
  const Anatomy& a = *parts.anatomy;
  Outline& out = w.outline;
  const JawTransform jaw = jaw_transform(a, pose.jaw_opening, pose.jaw_forward);
  // soft palate and walls before the tongue
  const double opening = pose.velum > 0 ? yielded_velum(a, pose, w.velum) : 0.0;
  const bool shut = opening <= 0;
  if (shut) w.velum = parts.shut_velum;
  else {
    set_velum_centre(a, opening, w.velum);
    set_velum_faces(w.velum);
    keep_off_throat(parts, w.velum);
  }
  set_walls(parts, w.velum.under, shut, w.walls);
  trace_teeth_and_jaw(parts, jaw, out);
  // tongue
  const TongueTask task = tongue_task(parts, w.walls, w.velum.under, pose, jaw);
  const TongueSolution solution = solve_tongue(task, w.coarse, w.fine);
  out.root_shift = solution.shift;
  out.hyoid_drop = solution.drop;
  copy_tongue(task, w.fine, out);
  // what lies on the tongue or moves with it
  w.tongue_back.set(out.dorsum);
  drape_velum(parts, w.tongue_back, w.velum);
  copy_velum(parts, w.walls, w.velum, out);
  trace_larynx(parts, pose, out);
  trace_lips(parts, pose, jaw, out);
  trace_face(parts, pose, jaw, w.curve, out);
  set_strain(parts, task, out);
  return out;
}

Outline trace(const std::shared_ptr<const Anatomy>& anatomy, const Pose& pose) { return Tracer(anatomy).trace(pose); }

} // namespace mw
