#include "app/panels.h"

#include "motion/motion.h"
#include "scene/shelf.h"
#include "scene/stage.h"
#include "scene/take_text.h"

#include <algorithm>
#include <cmath>

namespace mw::app {

// It stands still once down.
void draw_curtain(Ui& ui, Rect rect, double opacity) {
  const Theme& theme = *ui.theme;
  const double u = ui.u;
  Canvas canvas;
  constexpr int folds = 9;
  // high contrast has black rules: cloth in black and white stripes would dazzle
  const Colour shade = theme.name == "high" ? theme.deep : theme.dark ? theme.panel : theme.rule, light = theme.dark ? theme.raised : theme.ground;
  const double width = rect.width / folds, hem = rect.y + rect.height * 0.9;
  for (int i = 0; i < folds; ++i) {
    const double x = rect.x + i * width;
    Path cloth{{Path::Move{{x, rect.y}}, Path::Line{{x + width, rect.y}}, Path::Line{{x + width, hem}},
                Path::Cubic{{x + width * 0.85, hem + width * 0.42}, {x + width * 0.15, hem + width * 0.42}, {x, hem}}, Path::Close{}}};
    canvas.fill({"cover", ""}, cloth, LinearBlend{{x, 0}, {x + width, 0}, {{0, shade}, {0.45, light}, {1, shade}}});
    canvas.stroke({}, cloth, theme.edge, 1.1 * u);
  }
  canvas.box({}, {rect.x - 2 * u, rect.y - 5 * u, rect.width + 4 * u, 9 * u}, 4 * u, theme.edge);
  Group group;
  group.mark = {"cover", ""}, group.opacity = opacity, group.marks = std::move(canvas.marks);
  ui.canvas.add(std::move(group));
}

namespace {

void clip_to(Ui& ui, Rect rect, double radius, Canvas inside) {
  Group group;
  group.clip = rounded_rectangle({rect.x, rect.y}, {rect.width, rect.height}, radius);
  group.marks = std::move(inside.marks);
  ui.canvas.add(std::move(group));
}

Group shelf_below(Session& session, const Theme& theme, double u, Rect rect) {
  ShelfView shelf;
  shelf.theme = &theme, shelf.u = u, shelf.rect = rect;
  if (const auto sound = sound_at(*session.take, session.view.time_s)) shelf.section_mm = section_place(session.take->track.segments[*sound].sound);
  return compose_shelf(*session.take->anatomy, outline_now(session), pose_at(session.take->motion, session.view.time_s), shelf);
}

// Lips together, teeth a little apart, tongue near the palate, soft palate down, folds apart (visual design, section 10).
Pose quiet_pose(const Anatomy& anatomy) {
  Pose pose = anatomy.rest;
  pose.velum = 0.85, pose.glottis = 0.7;
  pose.lip_opening = -0.3, pose.jaw_opening = 1.5;
  pose.body_x = anatomy.rest.body_x - 1, pose.body_y = anatomy.rest.body_y + 6 * anatomy.tongue_scale;
  pose.tip_x = anatomy.rest.tip_x - 1.3, pose.tip_y = anatomy.rest.tip_y + 10 * anatomy.tongue_scale, pose.tip_curl = 0;
  return pose;
}

} // namespace

void show_stage(Ui& ui, Session& session, const Layout& layout) {
  const Theme& theme = *ui.theme;
  const double u = layout.u;
  const Rect panel{0, 0, layout.stage.width, layout.stage.height};
  ui.begin_sheet("stage", layout.stage, theme.ground);
  ui.panel(panel);
  if (session.fades.cover == 1) {
    draw_curtain(ui, {16 * u, 18 * u, panel.width - 32 * u, panel.height - 36 * u}, 1);
    ui.end_sheet();
    return;
  }
  StageView view;
  view.theme = &theme, view.u = u, view.rect = panel;
  view.mirrored = session.view.mirrored, view.spotlight = session.fades.part, view.spotlight_strength = session.fades.spotlight;
  view.labels = session.view.labels ? (layout.fold == Fold::full ? Labelling::all : Labelling::few) : Labelling::none;
  if (session.glow.clash && session.glow.level > 0) view.lit = Lit{*session.glow.clash, session.glow.level};
  if (session.slip_glow.clash && session.slip_glow.level > 0) view.slip = Lit{*session.slip_glow.clash, session.slip_glow.level};
  view.air->drift_mm = session.drift_mm;
  if (layout.fold == Fold::middle) view.rect.height = panel.height - 128 * u, view.shelf = false, view.line_scale = 1.1;
  if (layout.fold == Fold::small) view.framing = Framing::close, view.shelf = view.peephole = false, view.lips_corner = true, view.tag_size = 16, view.line_scale = 1.1;
  Canvas inside;
  inside.add(compose_stage(*session.take, tracer_of(session), session.view.time_s, view).group);
  if (layout.fold == Fold::middle) inside.add(shelf_below(session, theme, u, {30 * u, view.rect.bottom() + 4 * u, panel.width - 60 * u, 116 * u}));
  clip_to(ui, inset(panel, 1.1 * u), 9 * u, std::move(inside));
  if (session.fades.cover > 0) draw_curtain(ui, {16 * u, 18 * u, panel.width - 32 * u, panel.height - 36 * u}, session.fades.cover);
  // the last good picture stays behind a thin veil while the line cannot be shown
  if (session.problem) ui.canvas.box({"veil", ""}, inset(panel, 1.1 * u), 9 * u, with_alpha(theme.panel, 0.2));
  ui.end_sheet();
}

void show_quiet_mouth(Ui& ui, Session& session, const Layout& layout, Rect rect) {
  const Theme& theme = *ui.theme;
  const double u = layout.u;
  ui.begin_sheet("stage", rect, theme.ground);
  ui.panel({0, 0, rect.width, rect.height});
  Tracer tracer(session.anatomy);
  StageView view;
  view.theme = &theme, view.u = u, view.sound_now = view.shelf = false;
  view.mirrored = session.view.mirrored;
  view.labels = layout.fold == Fold::small ? Labelling::few : Labelling::all;
  const double foot = (layout.fold == Fold::full ? 62 : 82) * u; // two lines, or three where it is narrow
  view.rect = {0, 0, rect.width, rect.height - foot};
  ui.canvas.add(compose_pose_stage(tracer, quiet_pose(*session.anatomy), nullptr, view).group);
  ui.canvas.paragraph({"caption", ""}, {18 * u, rect.height - foot + 4 * u},
                      "Breathing quietly: lips together, teeth a little apart, the soft palate hangs down and air passes by the nose. A head cut down the middle, facing " +
                          std::string(session.view.mirrored ? "right." : "left."),
                      {14.5 * u, theme.quiet}, rect.width - 36 * u, layout.fold == Fold::full ? 2 : 3);
  ui.end_sheet();
}

} // namespace mw::app
