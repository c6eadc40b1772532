#include "app/actions.h"
#include "app/compare.h"
#include "app/panels.h"

#include "base/text.h"
#include "text/shaper.h"

#include <algorithm>
#include <cmath>

namespace mw::app {
namespace {

Rect rounded(Rect r) {
  const double x = std::round(r.x), y = std::round(r.y);
  return {x, y, std::round(r.right()) - x, std::round(r.bottom()) - y};
}

CompareLayout lay_out(const Layout& layout) {
  const double gap = (layout.fold == Fold::full ? 10 : layout.fold == Fold::middle ? 9 : 8) * layout.u, top = layout.top.bottom() + gap;
  CompareLayout out = lay_out_compare({gap, top, layout.whole.width - 2 * gap, layout.transport.y - gap - top}, layout.u);
  for (Rect CompareLayout::*rect : {&CompareLayout::own, &CompareLayout::target, &CompareLayout::side, &CompareLayout::rows}) out.*rect = rounded(out.*rect);
  return out;
}

Rect at_origin(Rect r) { return {0, 0, r.width, r.height}; }
Rect in_window(Rect panel, Rect r) { return {panel.x + r.x, panel.y + r.y, r.width, r.height}; }

/// One picture of the view; what its widgets change is the session.
struct ComparePanels {
  Ui& ui;
  Session& session;
  const Layout& layout;
  CompareDesk& desk;
  const Comparing& c;
  double t;
  std::optional<std::size_t> now;

  [[nodiscard]] double u() const { return layout.u; }
  [[nodiscard]] const Theme& theme() const { return *ui.theme; }
  void begin(const char* name, Rect rect) {
    ui.begin_sheet(name, rect, theme().ground);
    ui.panel(at_origin(rect));
  }

  // ---- the two mouths
  void show_side(Rect rect, bool target) {
    begin(target ? "compare-target" : "compare-own", rect);
    CompareStageView view;
    view.theme = ui.theme, view.u = u(), view.rect = at_origin(rect), view.target = target;
    view.field = !target;
    view.role = target ? "the target" : session.request.learner.empty() ? "choose the learner\u2019s" : "the learner\u2019s own";
    view.mirrored = session.view.mirrored, view.labels = session.view.labels && layout.fold == Fold::full;
    view.spotlight = session.fades.part, view.spotlight_strength = session.fades.spotlight;
    view.drift_mm = session.drift_mm;
    view.mouth = session.fades.cover < 1;
    const auto stage = compose_compare_stage(c, tracer_of(session), t, view);
    ui.canvas.add(stage.group);
    if (!target && session.wants_learner) session.wants_learner = false, open_learners(session, in_window(rect, stage.name));
    if (!target && ui.spot("learner", stage.name, {"The learner\u2019s own accent", "What the learner speaks at home; the line is set beside it.", "Y"})) open_learners(session, in_window(rect, stage.name));
    if (session.fades.cover > 0)
      ui.canvas.box({"cover", ""}, {1.5 * u(), 46 * u(), rect.width - 3 * u(), rect.height - 47.5 * u()}, 9 * u(), with_alpha(theme().rule, session.fades.cover));
    if (session.problem) ui.canvas.box({"veil", ""}, inset(at_origin(rect), 1.1 * u()), 9 * u(), with_alpha(theme().panel, 0.2));
    ui.end_sheet();
  }

  // ---- chart and list
  void show_card(Rect rect) {
    begin("compare-side", rect);
    const CompareLayout l = lay_out(layout);
    if (session.problem) draw_problem(ui, *session.problem, {15 * u(), 14 * u()}, rect.width - 30 * u());
    else if (l.one_card) show_one_card(rect);
    else if (desk.all) show_list(rect, 0, true);
    else {
      const double chart = chart_height(rect);
      ui.canvas.text({}, {14 * u(), 23 * u()}, "Vowels of both", {15.5 * u(), theme().ink, true});
      ui.canvas.add(draw_compare_legend(c, theme(), {rect.width - 16 * u(), 18 * u()}, u(), rect.width - 150 * u()));
      draw_chart({16 * u(), 34 * u(), rect.width - 32 * u(), chart - 40 * u()});
      show_list(rect, chart, false);
    }
    ui.end_sheet();
  }
  void draw_chart(Rect rect) {
    if (c.sets.empty()) ui.canvas.text({}, {rect.x, rect.bottom() + 2 * u()}, "Every vowel of this line is the same in both.", {13 * u(), theme().quiet});
    ui.canvas.add(compose_compare_chart(c, t, theme(), rect, u()));
  }
  // What the three weightiest changes leave, but at least a third.
  [[nodiscard]] double chart_height(Rect rect) const {
    ChangesView list;
    list.u = u(), list.rect = {0, 0, rect.width, 1e6};
    return std::max(rect.height - compose_changes(c, list).bottom - 42 * u(), 0.42 * rect.height);
  }
  void show_one_card(Rect rect) {
    constexpr std::array<std::string_view, 2> words{"Changes", "Vowels"};
    if (const auto chosen = ui.tabs("compare-card", {16 * u(), 26 * u()}, words, desk.chart ? 1 : 0, 15.5 * u(), 22 * u())) desk.chart = *chosen == 1;
    ui.canvas.line({}, {1, 38 * u()}, {rect.width - 1, 38 * u()}, theme().rule, u());
    if (!desk.chart) return show_list(rect, 16 * u(), desk.all);
    ui.canvas.add(draw_compare_legend(c, theme(), {rect.width - 12 * u(), 56 * u()}, u(), rect.width - 20 * u()));
    const double height = std::min(rect.height - 80 * u(), 0.9 * rect.width);
    draw_chart({10 * u(), 66 * u(), rect.width - 20 * u(), height});
  }
  // From `top` on: a title, "all N", the changes.
  void show_list(Rect rect, double top, bool all) {
    const bool titled = !lay_out(layout).one_card;
    const double title = top + (all && titled ? 23 : 18) * u();
    if (titled) ui.canvas.text({}, {16 * u(), title}, "What changes in this line", {15.5 * u(), theme().ink, true});
    ChangesView view;
    view.theme = ui.theme, view.u = u(), view.lines = all ? 4 : 2;
    view.first = all ? std::min(desk.first, c.changes.empty() ? 0 : c.changes.size() - 1) : 0, view.most = all ? 99 : 3;
    view.lit = now ? change_at(c, *now) : std::nullopt;
    if (view.lit && c.columns[*now].same && c.changes[*view.lit].kind != Change::Kind::way) view.lit.reset();
    view.rect = {0, title + 10 * u(), rect.width, rect.height - title - (titled ? 14 : 34) * u()};
    const auto list = compose_changes(c, view);
    for (const auto& [index, row] : list.rows) {
      const std::string id = "change-" + to_text(static_cast<int>(index));
      const Change& change = c.changes[index];
      if (ui.spot(id, row, {change.title, change.detail + ". Loops slowly.", ""}, true, 6)) loop_change(session, index);
      if (ui.is_hovered(id) || desk.change == index) ui.canvas.box({}, inset(row, -1 * u()), 8 * u(), with_alpha(theme().select, desk.change == index ? 0.7 : 0.4));
    }
    ui.canvas.add(list.group);
    if (all) scroll(rect, list);
    show_more(rect, title, all, list.rows.size());
  }
  void scroll(Rect rect, const ChangesPicture& list) {
    const Rect panel{lay_out(layout).side};
    const Vec2 m = ui.input.mouse;
    const bool over = m.x >= panel.x && m.x < panel.right() && m.y >= panel.y && m.y < panel.bottom();
    const bool more = !list.rows.empty() && list.rows.back().first + 1 < c.changes.size();
    if (over && ui.input.wheel < 0 && more) ++desk.first;
    if (over && ui.input.wheel > 0 && desk.first > 0) --desk.first;
    if (more) ui.canvas.add(draw_sign(Sign::down, {rect.width / 2, rect.height - 8 * u()}, 6 * u(), theme().quiet));
  }
  void show_more(Rect rect, double title, bool all, std::size_t shown) {
    if (!all && shown >= c.changes.size()) return;
    const bool titled = !lay_out(layout).one_card;
    const std::string words = all ? "fewer" : "all " + to_text(static_cast<int>(c.changes.size()));
    const double width = text_width(words, 13.5 * u(), true), y = titled ? title - 5 * u() : rect.height - 16 * u();
    const Rect link{rect.width - width - 26 * u(), y - 13 * u(), width + 20 * u(), 26 * u()};
    if (ui.spot("all-changes", link, {all ? "Fewer" : "All of them", all ? "The chart and the three that matter most" : "Everything that changes in this line", ""}, true, 6)) desk.all = !desk.all, desk.first = 0;
    ui.canvas.text_middle({}, {link.right() - 10 * u(), link.centre().y}, words, {13.5 * u(), theme().action, true, Anchor::end});
  }

  // ---- rows
  void show_rows(Rect rect) {
    begin("compare-rows", rect);
    if (desk.page && desk.paged_at != now) desk.page.reset(); // the sound now leads again
    CompareRowsView view;
    view.theme = ui.theme, view.u = u(), view.rect = at_origin(rect), view.now = now, view.page = desk.page;
    const auto rows = compose_compare_rows(c, view);
    for (const auto& [column, cell] : rows.cells) {
      const std::string id = "column-" + to_text(static_cast<int>(column));
      if (ui.spot(id, cell, tip_of(column), false, 6)) go_to_column(session, column);
      if (ui.is_hovered(id) && now != column) ui.canvas.box({}, inset(cell, 1 * u()), 6 * u(), with_alpha(theme().select, 0.45));
    }
    ui.canvas.add(rows.group);
    if (ui.button("swap-accents", rows.swap, {}, "Swap", {"Swap", "The learner\u2019s accent becomes the target, and the other way round.", "X"})) swap_accents(session);
    if (rows.pages > 1) turn_pages(rows);
    ui.end_sheet();
  }
  [[nodiscard]] Tip tip_of(std::size_t column) const {
    const auto index = change_at(c, column);
    if (!index || c.columns[column].same) {
      const auto& at = c.columns[column];
      if (!at.target) return {};
      return {ipa_of(*c.target, *at.target), sound_name(c.target->track.segments[*at.target].sound), ""};
    }
    return {c.changes[*index].title, c.changes[*index].detail, ""};
  }
  void turn_pages(const CompareRowsPicture& rows) {
    const double y = rows.swap.centre().y, x = rows.swap.right() + 6 * u();
    const std::string text = to_text(static_cast<int>(rows.page + 1)) + " of " + to_text(static_cast<int>(rows.pages));
    const double width = text_width(text, 13 * u());
    const auto turn = [&](const char* id, Sign sign, double at, bool can, std::size_t to, const char* does) {
      const Rect spot{at, y - 11 * u(), 24 * u(), 24 * u()};
      if (ui.spot(id, spot, {does, "Steps and playing turn pages by themselves", ""}, true, 6) && can) desk.page = to, desk.paged_at = now;
      ui.canvas.add(draw_sign(sign, spot.centre(), 6 * u(), can ? theme().action : theme().rule));
    };
    turn("page-back", Sign::left, x, rows.page > 0, rows.page - (rows.page > 0 ? 1 : 0), "The page before");
    ui.canvas.text_middle({}, {x + 28 * u(), y + 1 * u()}, text, {13 * u(), theme().quiet});
    turn("page-on", Sign::right, x + 32 * u() + width, rows.page + 1 < rows.pages, rows.page + 1, "The next page");
  }
};

void show_waiting(Ui& ui, const Layout& layout) {
  const CompareLayout l = lay_out(layout);
  for (const auto& [name, rect] : {std::pair{"compare-own", l.own}, std::pair{"compare-target", l.target}, std::pair{"compare-side", l.side}, std::pair{"compare-rows", l.rows}}) {
    ui.begin_sheet(name, rect, ui.theme->ground);
    ui.panel(at_origin(rect));
    ui.end_sheet();
  }
}

} // namespace

void show_compare_screen(Ui& ui, Session& session, const Layout& layout) {
  const auto comparing = comparing_now(session); // held: an answer may replace it
  CompareDesk& desk = *session.compare;
  if (!comparing) return show_waiting(ui, layout);
  if (!session.view.loop_span) desk.change.reset();
  const CompareLayout l = lay_out(layout);
  ComparePanels screen{ui, session, layout, desk, *comparing, session.view.time_s, column_at(comparing->columns, session.view.time_s)};
  screen.show_side(l.own, false);
  screen.show_side(l.target, true);
  screen.show_card(l.side);
  screen.show_rows(l.rows);
}

} // namespace mw::app
