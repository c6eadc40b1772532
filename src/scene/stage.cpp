#include "scene/stage.h"

#include "base/text.h"
#include "ipa/inventory.h"
#include "scene/mouth_return.h"
#include "scene/mouth_slip.h"
#include "scene/placer.h"
#include "scene/signs.h"
#include "text/shaper.h"

#include <algorithm>
#include <cmath>

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
      const double column = label_column();
      m.rect.x += column, m.rect.width -= 2 * column;
    }
    if (view.framing) m.box = framing(anatomy(), *view.framing);
    if (view.box) m.box = view.box;
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
  /// From x to the face at these heights, on the side where the sound now stands; less a little air.
  [[nodiscard]] double room_beside(double x, double top, double bottom) const {
    double room = 1e9;
    const auto& head = picture.mouth.section.head;
    for (std::size_t i = 0; i < head.size(); ++i) {
      const Vec2 a = picture.mouth.frame(head[i]), b = picture.mouth.frame(head[(i + 1) % head.size()]);
      if (std::max(a.y, b.y) < top || std::min(a.y, b.y) > bottom) continue;
      for (const double y : {top, bottom, a.y, b.y}) { // where the edge is between these heights
        const double at = std::clamp(y, std::max(top, std::min(a.y, b.y)), std::min(bottom, std::max(a.y, b.y)));
        const double edge = std::abs(b.y - a.y) < 1e-9 ? std::min(a.x, b.x) : a.x + (b.x - a.x) * (at - a.y) / (b.y - a.y);
        room = std::min(room, view.mirrored ? x - edge : edge - x);
      }
    }
    return std::max(room - 3 * view.u, 0.0);
  }
  void draw_sound_now() {
    if (!view.sound_now || !sound) return;
    const double u = view.u, x = view.mirrored ? view.rect.right() - 16 * u : view.rect.x + 16 * u;
    const Anchor anchor = view.mirrored ? Anchor::end : Anchor::start;
    const std::string ipa = to_ipa(*sound);
    const double size = fitting_size(ipa, 46 * u, true, room_beside(x, view.rect.y + 12 * u, view.rect.y + 58 * u), 0.5);
    canvas.text({"sound-now", ipa}, {x, view.rect.y + 48 * u}, ipa, {size, theme.ink, true, anchor, 5 * u, theme.halo});
    double y = view.rect.y + 66 * u, widest = text_width(ipa, size, true);
    const std::string name = learner_sound_name(*sound);
    for (std::string_view rest = name; !rest.empty(); y += 15 * u) { // every line as wide as the face beside it leaves room for
      const double room = std::min(room_beside(x, y - 10 * u, y + 3 * u), 120 * u);
      if (room < 24 * u) break; // at the tip of the nose; the tip of the sound's letter in the score says all
      const std::string line = wrap_text(rest, 12.5 * u, false, room).front();
      const double fits = fitting_size(line, 14 * u, false, room, 12.5 / 14);
      const std::string shown = cut_text(line, fits, false, room + 0.01 * fits); // what just fits is not cut
      canvas.text({"sound-name", {}}, {x, y}, shown, {fits, theme.quiet, false, anchor, 3 * u, theme.halo});
      widest = std::max(widest, text_width(shown, fits));
      rest = trim(rest.substr(std::min(line.size(), rest.size())));
    }
    keep.push_back({view.mirrored ? x - widest : x, view.rect.y + 10 * u, widest, y - view.rect.y - 24 * u});
  }
  [[nodiscard]] double label_column() const { return std::min(112 * view.u * view.label_size / 14.5, view.rect.width * 0.24); }
  void draw_labels_columns() {
    if (view.labels == Labelling::none) return;
    auto [left, right] = usual_labels(view.labels);
    if (view.mirrored) std::swap(left, right);
    const double u = view.u, size = view.label_size * u, column = label_column();
    double nose = 1e300, back = -1e300; // the columns stand close to the head
    for (const Vec2 p : picture.mouth.section.head) nose = std::min(nose, picture.mouth.frame(p).x), back = std::max(back, picture.mouth.frame(p).x);
    const double left_x = std::max(view.rect.x + column, nose - 8 * u), right_x = std::min(view.rect.right() - column, back + 16 * u);
    // the shelf stands below the face
    const double low = view.rect.bottom() - 8 * u, over_shelf = view.shelf ? view.rect.bottom() - 0.25 * view.rect.height : low;
    const LabelColumns columns{left_x, right_x, view.rect.y + 4 * u, view.mirrored ? low : over_shelf, view.mirrored ? over_shelf : low};
    canvas.add(draw_labels(picture.mouth, outline, anatomy(), theme, left, right, columns, size, u));
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
  void draw_return_arrow(const Take& take) {
    if (!view.arrows || !view.lit || view.lit->clash >= take.clashes.size()) return;
    const Clash& c = take.clashes[view.lit->clash];
    if (c.kind != ClashKind::quick_return) return;
    Group group{{"return", {}}};
    group.opacity = view.lit->opacity;
    group.marks = draw_return(picture.mouth, way_of_return(tracer, take, c), theme, view.arrow_u > 0 ? view.arrow_u : view.u);
    canvas.add(std::move(group));
  }
  void draw_slip(const SlipShape& slip) {
    canvas.add(draw_slip_tag(picture.mouth, slip, inset(view.rect, 2 * view.u), keep, theme, view.arrow_u > 0 ? view.arrow_u : view.u, view.slip->opacity));
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
  if (view.other) m.ghosts.push_back({view.other, view.other_kind, 1});
  if (view.trail)
    for (int i = 15; i > 0; --i) // a dot every 12 ms over 180 ms
      if (t - 0.012 * i >= 0) m.trail.push_back(tracer.trace(pose_at(take.motion, t - 0.012 * i)).tip_cap[5]);
  std::optional<SlipShape> slip;
  if (view.slip) slip = slip_shape(take, tracer, view.slip->clash);
  if (slip) m.slip = &slip->outline, m.slip_part = slip->part, m.slip_opacity = view.slip->opacity;
  pen.draw_mouth(m);
  pen.draw_sides();
  pen.draw_sound_now();
  pen.draw_arrows(take);
  pen.draw_return_arrow(take);
  if (slip) pen.draw_slip(*slip);
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
