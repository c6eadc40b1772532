#include "scene/stage.h"

#include "ipa/inventory.h"
#include "scene/placer.h"
#include "scene/signs.h"
#include "text/shaper.h"

#include <algorithm>

namespace mw {
namespace {

struct StagePen {
  Tracer& tracer;
  const StageView& view;
  const Theme& theme;
  Pose pose;
  const Sound* sound = nullptr;
  Outline outline{};
  StagePicture picture{};
  Canvas canvas{};
  std::vector<Rect> keep{}; // boxes that tags must not cover

  [[nodiscard]] const Anatomy& anatomy() const { return tracer.anatomy(); }

  [[nodiscard]] MouthView mouth_view() const {
    MouthView m;
    m.theme = &theme;
    const double u = view.u;
    m.rect = {view.rect.x + 4 * u, view.rect.y + 4 * u, view.rect.width - 8 * u, view.rect.height - 6 * u};
    if (view.labels != Labelling::none) { // room for the columns
      const double column = std::min(150 * u, view.rect.width * 0.24);
      m.rect.x += column, m.rect.width -= 2 * column;
    }
    if (view.framing) m.box = framing(anatomy(), *view.framing);
    m.line_scale = view.line_scale * u;
    m.mirrored = view.mirrored;
    m.shadows = view.shadows, m.detail = view.detail;
    m.backdrop = view.backdrop;
    m.spotlight = view.spotlight, m.spotlight_strength = view.spotlight_strength;
    m.air = view.air;
    if (m.air && sound) m.air->turbulence = m.air->turbulence && is_fricative(*sound);
    if (m.air && !sound) m.air->turbulence = m.air->pressure = false;
    return m;
  }

  void draw_mouth(MouthView m) {
    picture.mouth = compose_mouth(outline, pose, anatomy(), m);
    canvas.add(picture.mouth.group);
  }
  void draw_sides() {
    const double u = view.u;
    if (view.peephole) {
      auto [group, box] = compose_peephole(picture.mouth, anatomy(), pose, theme, view.line_scale * u);
      if (box.bottom() <= view.rect.bottom() + 1) canvas.add(std::move(group)), keep.push_back(box);
    }
    const double where = sound ? section_place(*sound) : 15;
    if (view.shelf) {
      const Rect room = shelf_room(picture.mouth, view.rect, u);
      if (room.width > 120 * u && room.height > 56 * u) {
        canvas.add(compose_shelf(anatomy(), outline, pose, {&theme, room, u, where, view.first_side}));
        keep.push_back(room);
      }
    } else if (view.lips_corner) {
      const Rect lips{view.rect.x + 8 * u, view.rect.bottom() - 60 * u, 76 * u, 52 * u};
      canvas.add(draw_lips(theme, lips_front(anatomy(), pose), lips, u));
      keep.push_back(lips);
    }
  }
  void draw_sound_now() {
    if (!view.sound_now || !sound) return;
    const double u = view.u, x = view.mirrored ? view.rect.right() - 18 * u : view.rect.x + 18 * u;
    const Anchor anchor = view.mirrored ? Anchor::end : Anchor::start;
    const std::string ipa = to_ipa(*sound);
    canvas.text({"sound-now", ipa}, {x, view.rect.y + 54 * u}, ipa, {48 * u, theme.ink, true, anchor, 5 * u, theme.halo});
    double y = view.rect.y + 78 * u, widest = text_width(ipa, 48 * u, true);
    for (const std::string& line : wrap_text(learner_sound_name(*sound), 14 * u, false, view.labels == Labelling::none ? 58 * u : 120 * u)) {
      canvas.text({"sound-name", {}}, {x, y}, line, {14 * u, theme.quiet, false, anchor, 3 * u, theme.halo});
      widest = std::max(widest, text_width(line, 14 * u));
      y += 17 * u;
    }
    keep.push_back({view.mirrored ? x - widest : x, view.rect.y + 10 * u, widest, y - view.rect.y - 24 * u});
  }
  void draw_labels_columns() {
    if (view.labels == Labelling::none) return;
    auto [left, right] = usual_labels(view.labels == Labelling::few);
    if (view.mirrored) std::swap(left, right);
    const double u = view.u, size = 14.5 * u, column = std::min(150 * u, view.rect.width * 0.24);
    double nose = 1e300, back = -1e300; // the columns stand close to the head
    for (const Vec2 p : picture.mouth.section.head) nose = std::min(nose, picture.mouth.frame(p).x), back = std::max(back, picture.mouth.frame(p).x);
    const double left_x = std::max(view.rect.x + column, nose - 8 * u), right_x = std::min(view.rect.right() - column, back + 16 * u);
    canvas.add(draw_labels(picture.mouth, outline, anatomy(), theme, left, right, left_x, right_x, size, u));
  }
  void draw_arrows(const Take& take) {
    if (!view.arrows || !view.lit || view.lit->clash >= take.clashes.size()) return;
    const Clash& c = take.clashes[view.lit->clash];
    if (c.kind != ClashKind::tug || c.segments.size() < 2 || c.articulators.empty() || !take.targets) return;
    const Sound &a = take.track.segments[c.segments.front()].sound, &b = take.track.segments[c.segments.back()].sound;
    const auto pulls = pulls_of(tracer, *take.targets, pose, c.articulators.front(), a, b);
    std::array<Vec2, 2> shown = pulls;
    const double u = view.arrow_u > 0 ? view.arrow_u : view.u;
    const auto arrows = place_tug(picture.mouth, field_of(picture.mouth, inset(view.rect, 2 * view.u), keep), shown, {to_ipa(a), to_ipa(b)}, u, view.tag_size);
    Group group{{"tug", {}}};
    group.opacity = view.lit->opacity;
    group.marks = draw_tug(arrows, theme, u, view.tag_size);
    for (const TugArrow& arrow : arrows) picture.tags.push_back(arrow.tag.box);
    canvas.add(std::move(group));
  }
  StagePicture finish() {
    picture.pose = pose;
    picture.group.mark = {"stage", {}};
    picture.group.marks = std::move(canvas.marks);
    return std::move(picture);
  }
};

} // namespace

StagePicture compose_stage(const Take& take, Tracer& tracer, double t, const StageView& view) {
  const auto now = sound_at(take, t);
  const Sound* sound = now ? &take.track.segments[*now].sound : nullptr;
  StagePen pen{tracer, view, view.theme ? *view.theme : light_theme(), pose_at(take.motion, t), sound};
  pen.outline = tracer.trace(pen.pose);
  MouthView m = pen.mouth_view();
  if (view.lit && view.lit->clash < take.clashes.size()) {
    const Clash& c = take.clashes[view.lit->clash];
    const bool on_flesh = !c.articulators.empty() && c.kind != ClashKind::swap && c.kind != ClashKind::out_of_step && c.kind != ClashKind::accent_shift;
    if (on_flesh) m.clash = ClashBand{c.articulators.front(), c.level, view.band_depth_mm, view.lit->opacity};
  }
  Outline next;
  if (view.next_ghost && now && *now + 1 < take.track.segments.size()) {
    next = tracer.trace(pose_at(take.motion, moment_of(take, *now + 1)));
    m.ghosts.push_back({&next, Ghost::Kind::next, 1});
  }
  if (view.other) m.ghosts.push_back({view.other, Ghost::Kind::own, 1});
  if (view.trail)
    for (int i = 15; i > 0; --i) // a dot every 12 ms over 180 ms
      if (t - 0.012 * i >= 0) m.trail.push_back(tracer.trace(pose_at(take.motion, t - 0.012 * i)).tip_cap[5]);
  pen.draw_mouth(m);
  pen.draw_sides();
  pen.draw_sound_now();
  pen.draw_arrows(take);
  pen.draw_labels_columns();
  return pen.finish();
}

StagePicture compose_pose_stage(Tracer& tracer, const Pose& pose, const Sound* sound, const StageView& view) {
  StagePen pen{tracer, view, view.theme ? *view.theme : light_theme(), pose, sound};
  pen.outline = tracer.trace(pose);
  pen.draw_mouth(pen.mouth_view());
  pen.draw_sides();
  pen.draw_sound_now();
  pen.draw_labels_columns();
  return pen.finish();
}

} // namespace mw
