#pragma once

#include "scene/labels.h"
#include "scene/lit.h"
#include "scene/mouth.h"
#include "scene/shelf.h"
#include "scene/take_text.h"

namespace mw {

struct StageView {
  const Theme* theme = nullptr;
  Rect rect{};                    // the panel
  double u = 1;
  double line_scale = 1.15;       // times u
  std::optional<Framing> framing{}; // full when none
  std::optional<MmBox> box{};       // a stretch of one's own instead of a framing
  bool mirrored = false;
  bool shadows = true, detail = true;
  std::optional<Lit> lit{};       // clash on the flesh
  std::optional<Lit> slip{};      // likely slip (index among them) as a rail with its tag
  bool arrows = true;             // with its arrows and letter tags
  double band_depth_mm = 8.5, tag_size = 19, arrow_u = 0; // arrow_u 0: u
  std::optional<Articulator> spotlight{};
  double spotlight_strength = 1;
  Labelling labels = Labelling::none;
  double label_size = 14.5;         // u
  bool sound_now = true, shelf = true, peephole = true, lips_corner = false;
  std::optional<SidePicture> first_side{};
  std::optional<AirMarks> air = AirMarks{};
  bool next_ghost = false, trail = false;
  const Outline* other = nullptr; // the tongue of another take (Compare)
  Ghost::Kind other_kind = Ghost::Kind::own; // dotted
  std::optional<Colour> backdrop{};
};

struct StagePicture {
  Group group;
  MouthPicture mouth;
  Pose pose;
  std::vector<Rect> tags;
};
/// The stage of a take at time t: mouth, clash on the flesh with its arrows, what the side view hides, the sound now.
StagePicture compose_stage(const Take& take, Tracer& tracer, double t, const StageView& view);
/// The same for one pose without a take. `sound` none: a quiet mouth.
StagePicture compose_pose_stage(Tracer& tracer, const Pose& pose, const Sound* sound, const StageView& view);

} // namespace mw
