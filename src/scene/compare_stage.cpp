#include "scene/compare_view.h"

#include "ipa/inventory.h"
#include "motion/motion.h"
#include "scene/accent_picture.h"
#include "scene/signs.h"
#include "text/shaper.h"

#include <algorithm>

namespace mw {
namespace {

constexpr double head_u = 46; // strip with name and sound
constexpr double shown_mm = 3; // tongues nearer than this have no arrow between them (visual design: least 3 mm)

struct SideNow {
  const Take* take;
  double t;
  ChartSet::Look look;
};
SideNow side_now(const Comparing& c, double target_s, bool target) {
  if (target) return {c.target.get(), target_s, ChartSet::Look::own};
  return {c.own.get(), own_time(c.clock, target_s), ChartSet::Look::second};
}

std::string name_of(const Take& take) { return take.accent ? short_name(*take.accent) : take.request.accent; }

// As much below the mouth as the panel is tall.
MmBox box_for(const Anatomy& anatomy, Rect rect) {
  MmBox box = framing(anatomy, Framing::close);
  const MmBox whole = framing(anatomy, Framing::full);
  box.y0 = std::max(whole.y0, std::min(box.y0, box.y1 - (box.x1 - box.x0) * rect.height / rect.width));
  return box;
}

/// Where two tongues differ most: from a point of the other to one of this.
struct Difference { Vec2 from, to; double size = 0; };

// Point against point along both surfaces: the way a piece of the tongue goes.
Difference along_surfaces(const Polyline& here, const Polyline& other) {
  const std::size_t n = std::min(here.size(), other.size());
  Difference out;
  for (std::size_t i = n / 4; i < n; ++i)
    if (const double d = glm::distance(here[i], other[i]); d > out.size) out = {other[i], here[i], d};
  return out;
}

// Two types of tongue (tip up and bunched) have no points in common that could go from the one to the other: the gap
// between the two lines is what is seen.
Difference between_lines(const Polyline& here, const Polyline& other) {
  Difference out;
  for (std::size_t i = here.size() / 4; i < here.size(); ++i) {
    const auto nearest = std::min_element(other.begin(), other.end(), [&](Vec2 a, Vec2 b) { return glm::distance(a, here[i]) < glm::distance(b, here[i]); });
    if (nearest != other.end())
      if (const double d = glm::distance(*nearest, here[i]); d > out.size) out = {*nearest, here[i], d};
  }
  return out;
}

// The tip leads on one side and not on the other.
bool is_other_type(const Comparing& c, std::size_t column) {
  const CompareColumn& at = c.columns[column];
  if (!at.own || !at.target) return false;
  const auto lead = [](const Take& take, std::size_t i) -> std::optional<Primary> {
    if (!take.targets) return {};
    const auto target = target_of(*take.anatomy, *take.targets, take.track.segments[i].sound);
    return target ? std::optional(target->primary) : std::nullopt;
  };
  return lead(*c.own, *at.own) != lead(*c.target, *at.target) || c.own->track.segments[*at.own].sound.kind != c.target->track.segments[*at.target].sound.kind;
}

// From the learner's tongue to the target's, where they lie furthest apart; the target's end is where it points. No longer
// than the arrows of a tug (visual design, 7.1): 9 to 16 mm.
void draw_difference(Canvas& canvas, const MouthFrame& frame, const Theme& theme, double u, const Difference& difference) {
  if (difference.size < shown_mm) return;
  const Vec2 along = (difference.from - difference.to) / difference.size;
  const Colour ink = from_hex("#1B1206");
  const Vec2 from = frame(difference.to + along * std::clamp(difference.size, 9.0, 16.0)), to = frame(difference.to);
  const double v = std::min(u, glm::distance(from, to) / 24); // the head is about half of it at most
  canvas.arrow({"difference", {}}, from, to, {ink, 3 * v, 13 * v, theme.clash2, 2.6 * v});
}

const char* key_words(bool target) { return target ? "your own tongue" : "the target\u2019s tongue"; }

void draw_key_line(Canvas& canvas, const Theme& theme, Vec2 at, double length, double u, bool target) {
  canvas.line({"ghost-key", {}}, at, at + Vec2{length, 0}, theme.ink, 2.4 * u, target ? std::vector<double>{2 * u, 5 * u} : std::vector<double>{7 * u, 5 * u});
}

void draw_key(Canvas& canvas, const Theme& theme, Vec2 at, double width, double u, bool target) {
  draw_key_line(canvas, theme, at, 34 * u, u, target);
  double y = at.y + 19 * u;
  for (const std::string& line : wrap_text(key_words(target), 13.5 * u, false, width)) {
    canvas.text({"ghost-key", {}}, {at.x, y}, line, {13.5 * u, theme.ink, false, Anchor::start, 3 * u, theme.panel});
    y += 17 * u;
  }
}

// Mark, name and role at the left, the sound now at the right; in Present the key of the other tongue in the role's place,
// which has no room beside the face there. Gives the box of the name.
Rect draw_head(Canvas& canvas, const SideNow& side, const CompareStageView& view, const Theme& theme) {
  const double u = view.u;
  const Rect r{view.rect.x, view.rect.y, view.rect.width, head_u * u};
  canvas.box({"head", {}}, inset(r, 1.1 * u), 9 * u, theme.panel);
  canvas.add(draw_side_mark(theme, side.look, {r.x + 20 * u, r.y + 24 * u}, 7 * u));
  const auto sound = sound_at(*side.take, side.t);
  const std::string ipa = sound ? ipa_of(*side.take, *sound) : "";
  const double sound_width = std::max(54 * u, text_width(ipa, 34 * u, true)), x = r.x + 38 * u;
  const double room = r.right() - 18 * u - sound_width - x - (view.field ? 26 * u : 0);
  const std::string name = name_of(*side.take);
  const double width = std::min(std::max(text_width(name, 16 * u, true), text_width(view.role, 13 * u)), room);
  const Rect box{x - 6 * u, r.y + 4 * u, width + (view.field ? 36 : 12) * u, r.height - 6 * u};
  if (view.field) {
    canvas.box({"field", "own"}, box, 8 * u, theme.raised, theme.edge, 1.1 * u);
    canvas.add(draw_sign(Sign::down, {box.right() - 15 * u, box.centre().y}, 7 * u, theme.quiet));
  }
  canvas.fitted({"name", {}}, {x, r.y + 22 * u}, name, {16 * u, theme.ink, true}, width);
  if (view.brief) {
    draw_key_line(canvas, theme, {x, r.y + 33.5 * u}, 24 * u, u, view.target);
    canvas.fitted({"ghost-key", {}}, {x + 30 * u, r.y + 38 * u}, view.target ? "your own" : "the target\u2019s", {13 * u, theme.quiet}, room - 30 * u);
  } else
    canvas.fitted({"role", {}}, {x, r.y + 38 * u}, view.role, {13 * u, theme.quiet}, width);
  canvas.text({"sound-now", ipa}, {r.right() - 16 * u, r.y + 37 * u}, ipa, {34 * u, theme.ink, true, Anchor::end});
  return box;
}

} // namespace

CompareStagePicture compose_compare_stage(const Comparing& c, Tracer& tracer, double target_s, const CompareStageView& view) {
  const Theme& theme = view.theme ? *view.theme : light_theme();
  const double u = view.u;
  const SideNow side = side_now(c, target_s, view.target), beside = side_now(c, target_s, !view.target);
  const Outline other = tracer.trace(pose_at(beside.take->motion, beside.t));
  const Rect body{view.rect.x, view.rect.y + head_u * u, view.rect.width, view.rect.height - head_u * u};
  StageView s;
  s.theme = &theme, s.u = u, s.line_scale = 1.1;
  s.rect = {body.x - 3 * u, body.y - 3 * u, body.width + 6 * u, body.height + 5 * u}; // up to the panel's edge, which clips it
  s.box = box_for(tracer.anatomy(), body);
  s.mirrored = view.mirrored, s.shadows = view.shadows;
  s.labels = view.labels ? Labelling::few : Labelling::none;
  s.spotlight = view.spotlight, s.spotlight_strength = view.spotlight_strength;
  s.sound_now = s.shelf = s.peephole = false, s.lips_corner = true, s.arrows = false;
  s.other = &other, s.other_kind = view.target ? Ghost::Kind::own : Ghost::Kind::next;
  s.air->drift_mm = view.drift_mm, s.air->arrows = false; // the ghost is what to look at
  Canvas canvas;
  CompareStagePicture out;
  if (view.mouth) {
    const StagePicture stage = compose_stage(*side.take, tracer, side.t, s);
    Canvas inside;
    inside.add(stage.group);
    const auto column = column_at(c.columns, target_s);
    if (view.target && column && !c.columns[*column].same) {
      const Outline& here = tracer.trace(pose_at(side.take->motion, side.t));
      draw_difference(inside, stage.mouth.frame, theme, u, is_other_type(c, *column) ? between_lines(here.dorsum, other.dorsum) : along_surfaces(here.dorsum, other.dorsum));
    }
    if (!view.brief) draw_key(inside, theme, {body.x + 14 * u, body.bottom() - 112 * u}, 90 * u, u, view.target); // over the lips
    Group clipped{{"compare-stage", view.target ? "target" : "own"}};
    clipped.clip = rounded_rectangle({view.rect.x + 1.1 * u, view.rect.y + 1.1 * u}, {view.rect.width - 2.2 * u, view.rect.height - 2.2 * u}, 9 * u);
    clipped.marks = std::move(inside.marks);
    canvas.add(std::move(clipped));
  }
  out.name = draw_head(canvas, side, view, theme);
  out.group.mark = {"compare-side", view.target ? "target" : "own"};
  out.group.marks = std::move(canvas.marks);
  return out;
}

std::vector<Mark> draw_compare_legend(const Comparing& c, const Theme& theme, Vec2 right, double u, double width) {
  Canvas canvas;
  double x = right.x;
  const double each = width / 2 - 24 * u;
  for (const auto& [take, look] : {std::pair{c.target.get(), ChartSet::Look::own}, std::pair{c.own.get(), ChartSet::Look::second}}) {
    std::string name = name_of(*take);
    if (text_width(name, 0.9 * 13.5 * u) > each) name = take->accent ? take->accent->id : take->request.accent;
    const double size = fitting_size(name, 13.5 * u, false, each, 0.9), w = text_width(name, size);
    canvas.text({"legend", {}}, {x - w, middle_baseline(right.y, size)}, name, {size, theme.ink});
    canvas.add(draw_side_mark(theme, look, {x - w - 12 * u, right.y}, 5.5 * u));
    x -= w + 34 * u;
  }
  return std::move(canvas.marks);
}

Group compose_compare_chart(const Comparing& c, double target_s, const Theme& theme, Rect rect, double u) {
  ChartView view;
  view.theme = &theme, view.u = u, view.rect = rect, view.sets = c.sets, view.join_pairs = true, view.foot = 18;
  for (const bool target : {true, false}) {
    const SideNow side = side_now(c, target_s, target);
    const auto sound = sound_at(*side.take, side.t);
    if (!sound || !is_vowel(side.take->track.segments[*sound].sound)) continue;
    (target ? view.now : view.now_second) = tongue_place(*side.take->targets, pose_at(side.take->motion, side.t));
  }
  return compose_vowel_chart(view).group;
}

} // namespace mw
