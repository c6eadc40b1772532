#include "app/compare.h"
#include "app/panels.h"

#include "text/shaper.h"

#include <cmath>

namespace mw::app {
namespace {

// Sizes are shares of the height (visual design, sections 3 and 6): h is a 768th of it, so that a 30th is 25.6 h. Compare's
// own smallest letters are 13 u: twice as large they pass.
constexpr double unit_h = 2.0;

/// Where it all stands: rows above, both mouths, the words beside them or, on a 4:3 screen, below.
struct Wall {
  double h;
  Rect rows, own, target, words;
  bool beside;
};
Wall wall_of(const Layout& layout) {
  const double w = layout.whole.width, height = layout.whole.height, h = height / 768, top = std::round(192 * h);
  Wall wall{h, {0, 0, w, top}, {}, {}, {}, w > 1.5 * height};
  const double side = std::round(wall.beside ? 0.27 * w : 0), foot = std::round(wall.beside ? 0 : 150 * h), stage = std::round((w - side) / 2);
  wall.own = {0, top, stage, height - top - foot};
  wall.target = {stage, top, stage, height - top - foot};
  wall.words = wall.beside ? Rect{2 * stage, top, w - 2 * stage, height - top} : Rect{0, height - foot, w, foot};
  return wall;
}

Rect at_origin(Rect r) { return {0, 0, r.width, r.height}; }

void show_rows(Ui& ui, Session& session, const Comparing& c, const Wall& wall, std::optional<std::size_t> now) {
  ui.begin_sheet("line", wall.rows, ui.theme->ground);
  CompareRowsView view;
  view.theme = ui.theme, view.u = 1.75 * wall.h, view.rect = {12 * wall.h, 0, wall.rows.width - 20 * wall.h, wall.rows.height};
  view.now = now, view.brief = true;
  const auto rows = compose_compare_rows(c, view);
  ui.canvas.add(rows.group);
  for (const auto& [column, cell] : rows.cells)
    if (ui.spot("column-" + std::to_string(column), cell, {}, false)) go_to_column(session, column);
  ui.end_sheet();
}

void show_side(Ui& ui, Session& session, const Comparing& c, const Wall& wall, bool target) {
  const Rect rect = target ? wall.target : wall.own;
  ui.begin_sheet(target ? "compare-target" : "compare-own", rect, ui.theme->panel);
  CompareStageView view;
  view.theme = ui.theme, view.u = unit_h * wall.h, view.rect = at_origin(rect), view.target = target;
  view.role = target ? "the target" : session.request.learner.empty() ? "beside it" : "the learner\u2019s own";
  view.brief = true;
  view.mirrored = session.view.mirrored;
  view.spotlight = session.fades.part, view.spotlight_strength = session.fades.spotlight;
  view.drift_mm = session.drift_mm;
  view.mouth = !session.view.covered;
  const auto stage = compose_compare_stage(c, tracer_of(session), session.view.time_s, view);
  ui.canvas.add(stage.group);
  if (session.view.covered && !target) ui.canvas.text_middle({"cover", ""}, {rect.width / 2, rect.height * 0.6}, "covered: say it, then look", {28 * wall.h, ui.theme->quiet, false, Anchor::middle});
  if (!target && session.wants_learner) session.wants_learner = false, open_learners(session, {rect.x + stage.name.x, rect.y + stage.name.y, stage.name.width, stage.name.height});
  if (target) ui.canvas.line({}, {0, 0}, {0, rect.height}, ui.theme->rule, 2 * wall.h);
  ui.end_sheet();
}

// The change of the sound now, or else the weightiest; never more than three.
void show_change(Ui& ui, const Comparing& c, const Wall& wall, std::optional<std::size_t> now) {
  ui.begin_sheet("words", wall.words, wall.beside ? ui.theme->panel : ui.theme->ground);
  ChangesView view;
  view.theme = ui.theme, view.u = unit_h * wall.h, view.lines = wall.beside ? 7 : 2, view.title_lines = wall.beside ? 3 : 1;
  view.rect = {0, 14 * wall.h, wall.words.width - 6 * wall.h, wall.words.height - 16 * wall.h};
  const auto here = now ? change_at(c, *now) : std::nullopt;
  const bool differs = here && (!c.columns[*now].same || c.changes[*here].kind == Change::Kind::way);
  if (differs) view.first = *here, view.most = 1, view.lit = here;
  else view.most = wall.beside ? 3 : 1;
  ui.canvas.add(compose_changes(c, view).group);
  ui.end_sheet();
}

} // namespace

void show_compare_presenter(Ui& ui, Session& session, const Layout& layout) {
  const Wall wall = wall_of(layout);
  const auto comparing = comparing_now(session);
  if (!comparing) {
    for (const auto& [name, rect] : {std::pair{"line", wall.rows}, std::pair{"compare-own", wall.own}, std::pair{"compare-target", wall.target}, std::pair{"words", wall.words}}) ui.begin_sheet(name, rect, ui.theme->panel), ui.end_sheet();
    return;
  }
  const auto now = column_at(comparing->columns, session.view.time_s);
  show_rows(ui, session, *comparing, wall, now);
  show_side(ui, session, *comparing, wall, false);
  show_side(ui, session, *comparing, wall, true);
  show_change(ui, *comparing, wall, now);
}

} // namespace mw::app
