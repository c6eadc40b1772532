#pragma once

#include "anatomy/anatomy.h"
#include "anatomy/velum.h"
#include "tract/contact.h"
#include "tract/outline.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

// Working values of the tracer, shared by the files of this layer.
namespace mw {

/// What one speaker's tracers share: walls with their tables, curves that only move as a whole. Immutable.
struct FixedParts {
  std::shared_ptr<const Anatomy> anatomy;
  VelumSamples shut_velum;         // opening 0, kept off the back wall
  FixedWall throat;                // back wall
  FixedWall upper_shut;            // upper wall with the velum shut
  FixedWall upper_bone;            // its part that no velum opening changes
  FixedWall lower;                 // labial gum, edge, lingual face of the lower incisor, mouth floor; jaw frame, side -1
  Polyline lower_incisor_line, mouth_floor, lower_tooth, mandible; // jaw frame
  Polyline upper_tooth, tucked_incisor;                            // skull frame
  std::size_t upper_joint = 0;     // index of the first soft-palate point in the upper wall
  Vec2 rest_tip{};                 // jaw frame
  // pieces used at every trace, so that none is looked up by name
  std::span<const Vec2> floor_points, nose_profile, chin_skin, larynx_front, larynx_back; // control points
  Vec2 thyroid_front_top{}; // foremost x and highest y of the thyroid cartilage
};
/// Built once per speaker and shared; thread-safe.
std::shared_ptr<const FixedParts> fixed_parts(const std::shared_ptr<const Anatomy>& anatomy);

inline constexpr std::size_t upper_wall_capacity = 128;

/// Upper and throat wall at one velum opening.
struct Walls {
  const FixedParts* fixed = nullptr;
  bool shut = true;                 // the velum is at its closed place: tables hold
  std::array<Vec2, upper_wall_capacity> upper{};
  std::size_t upper_count = 0;
  BoxedLine moving;                 // soft part of the upper wall, when not shut

  [[nodiscard]] std::span<const Vec2> upper_line() const { return {upper.data(), upper_count}; }
  [[nodiscard]] Nearest nearest_upper(Vec2 p) const;
  [[nodiscard]] bool far_from_upper(Vec2 p) const;
};
void set_walls(const FixedParts& fixed, std::span<const Vec2> velum_under, bool shut, Walls& walls);

/// Numbers of samples of a tongue build: back, round tip, free under side, curve to the floor. The coarse build solves
/// the area, the fine one is drawn. `stride`: fine samples per sample.
struct Sampling {
  int back, cap, free, floor, stride;
};
inline constexpr Sampling fine_sampling{121, 11, 9, 12, 1};
inline constexpr Sampling coarse_sampling{41, 5, 4, 5, 3};

/// What stays the same in all builds of one pose.
struct TongueTask {
  const Anatomy* anatomy = nullptr;
  const Walls* walls = nullptr;
  JawTransform jaw;
  Pose pose;
  Vec2 body{}, tip{};          // disc centres after contact
  double body_radius = 0;
  // blade disc and tip direction
  Vec2 tip_direction{}, blade{};
  double tip_reach = 0, blade_radius = 0; // before the drop's share
  double body_blade = 0;       // distance of body and blade disc
  double raised = 0;           // 0..1, tip over the floor
  double dip = 0;              // mm, bunched r
  Vec2 frenulum{}, floor_back{}, floor_up{}; // end of the under side; jaw-frame directions there
  double lower_x_min = 0, lower_x_max = 0;
  Vec2 incisor_edge{};         // of the lower incisor, skull frame
};
TongueTask tongue_task(const FixedParts& fixed, const Walls& walls, std::span<const Vec2> velum_under, const Pose& pose,
                       const JawTransform& jaw);

/// One tongue build and its scratch memory.
struct TongueBuild {
  std::array<Vec2, 121> centre{}, back{}, ventral{}, scratch{};
  std::array<double, 121> radius{}, weight{};
  std::array<Vec2, 11> cap{};
  std::array<Vec2, 21> under{}; // free part and curve to the floor
  Sampling sampling = fine_sampling;
  Vec2 hyoid{};
  double body_arc = 0;          // arc position of the body disc along the back
  double area = 0;
};
/// Root shift (mm, found by area), root retraction (pose), hyoid drop.
void build_tongue(const TongueTask& task, double shift, double root, double drop, const Sampling& sampling,
                  TongueBuild& out);

// The last steps of a build: contact, under side down to the floor, tip laid on the lower teeth, area.
void push_from_walls(const TongueTask& task, std::span<Vec2> points);
void close_underside(const TongueTask& task, TongueBuild& build);
void uncross(TongueBuild& build);
void rest_on_teeth(const TongueTask& task, TongueBuild& build);
double outline_area(const TongueTask& task, const TongueBuild& build);

/// Root shift and hyoid drop that keep the rest area, and the fine build with them.
struct TongueSolution {
  double shift = 0, drop = 0;
};
TongueSolution solve_tongue(const TongueTask& task, TongueBuild& coarse, TongueBuild& fine);

/// Areas of the speaker's rest posture as the builds give them; `rest_area_*` of the anatomy must agree.
struct RestAreas {
  double fine = 0, coarse = 0;
};
RestAreas rest_areas(const std::shared_ptr<const Anatomy>& anatomy);

/// Opening of the soft palate after it has yielded to the tongue body.
double yielded_velum(const Anatomy& anatomy, const Pose& pose, VelumSamples& scratch);
/// Drapes the free end over the tongue back and rebuilds the faces; `velum` holds centreline and faces before it.
void drape_velum(const FixedParts& fixed, const BoxedLine& tongue_back, VelumSamples& velum);
void keep_off_throat(const FixedParts& fixed, VelumSamples& velum);

void trace_lips(const FixedParts& fixed, const Pose& pose, const JawTransform& jaw, Outline& out);
void trace_larynx(const FixedParts& fixed, const Pose& pose, Outline& out);
void trace_teeth_and_jaw(const FixedParts& fixed, const JawTransform& jaw, Outline& out);
/// `curve`: working memory.
void trace_face(const FixedParts& fixed, const Pose& pose, const JawTransform& jaw, Polyline& curve, Outline& out);

/// `n` samples of the natural spline through at most 40 points, without allocation once `out` has room.
void spline_into(std::span<const Vec2> points, std::size_t n, Polyline& out);
/// Sample index of control point `i` in spline_into(points, n).
int knot_sample(std::span<const Vec2> points, std::size_t i, std::size_t n);
/// Unit normal to the right of travel at a sample.
inline Vec2 right_normal_at(std::span<const Vec2> line, std::size_t i) {
  const std::size_t last = line.size() - 1;
  const Vec2 t = line[i < last ? i + 1 : last] - line[i > 0 ? i - 1 : 0];
  const double l = std::max(std::sqrt(t.x * t.x + t.y * t.y), 1e-9);
  return {t.y / l, -t.x / l};
}

} // namespace mw
