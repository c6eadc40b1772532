#include "app/actions.h"
#include "app/panels.h"

#include <array>

namespace mw::app {
namespace {

struct Line { std::string_view text, about; };
constexpr std::array lines{FirstLine{"Clean cloth, clear glass", "two moves want the back of the tongue in two places", ClashKind::tug},
                           FirstLine{"Pack the cap, cap the pack", "the same two moves, in exchanged order", ClashKind::swap},
                           FirstLine{"Which thin tin lid fits this dish", "neighbours that differ in very little", ClashKind::near_twins}};

void take_line(Session& session, std::size_t i) {
  session.request.phrase = std::string(lines[i].text);
  session.asks_again = true;
}

void draw_lines(Ui& ui, Session& session, double x, double y, double width) {
  const Theme& theme = *ui.theme;
  const double u = ui.u;
  for (std::size_t i = 0; i < lines.size(); ++i, y += 74 * u) {
    const std::string id = "line-" + std::to_string(i);
    const Rect card{x, y, width, 62 * u};
    if (ui.spot(id, card, {}, true, 10)) take_line(session, i);
    const bool enter_takes_it = i == 0 && session.field_active && session.request.phrase.empty();
    if (enter_takes_it) ui.canvas.box({}, inset(card, -5.3 * u), 14 * u, clear, theme.focus, 2.6 * u);
    const bool lifted = ui.is_hovered(id) || i == 0;
    ui.canvas.box({"line", id}, card, 10 * u, ui.is_hovered(id) ? theme.select : theme.raised, lifted ? theme.action : theme.edge, (lifted ? 1.8 : 1.2) * u);
    ui.canvas.add(draw_sign(Sign::play, {x + 32 * u, y + 31 * u}, 9 * u, theme.action));
    ui.canvas.fitted({}, {x + 56 * u, y + 27 * u}, lines[i].text, {19 * u, theme.ink, true}, width - 70 * u);
    ui.canvas.fitted({}, {x + 56 * u, y + 49 * u}, lines[i].about, {14.5 * u, theme.quiet}, width - 70 * u);
  }
}

void draw_keys(Ui& ui, double x, double y) {
  const Theme& theme = *ui.theme;
  const double u = ui.u;
  constexpr std::array<Line, 4> keys{Line{"space", "plays it slowly; space again stops"}, Line{"← →", "step one sound at a time"},
                                     Line{"N", "next clash; shift N the one before"}, Line{"P", "show it on the projector"}};
  ui.canvas.text({}, {x, y + 14 * u}, "Then", {17 * u, theme.ink, true});
  for (std::size_t i = 0; i < keys.size(); ++i) {
    const double row = y + (34 + 34 * static_cast<double>(i)) * u;
    const Rect cap{x, row, 74 * u, 26 * u};
    ui.canvas.box({}, cap, 6 * u, theme.raised, theme.edge, 1.2 * u);
    ui.canvas.text_middle({}, cap.centre(), keys[i].text, {14.5 * u, theme.ink, true, Anchor::middle});
    ui.canvas.text_middle({}, {x + 94 * u, cap.centre().y}, keys[i].about, {16 * u, theme.ink});
  }
}

} // namespace

std::span<const FirstLine> first_lines() { return lines; }

void take_first_line(Session& session) { take_line(session, 0); }

void show_first_minute(Ui& ui, Session& session, const Layout& layout) {
  const Theme& theme = *ui.theme;
  const double u = layout.u, gap = layout.stage.x;
  const double y = layout.stage.y, height = layout.transport.y - gap - y, w = layout.whole.width;
  const double left = layout.fold == Fold::full ? 0.57 * w : 0.5 * w;
  show_quiet_mouth(ui, session, layout, {gap, y, left - gap, height});

  // the question, three lines, four keys, the honest line
  const Rect card{left + gap, y, w - left - 2 * gap, height};
  ui.begin_sheet("first", card, theme.ground);
  ui.panel({0, 0, card.width, card.height});
  const double x = 24 * u, width = card.width - 48 * u;
  ui.canvas.fitted({}, {x, 50 * u}, "Which line shall we watch?", {26 * u, theme.ink, true}, width);
  ui.canvas.fitted({}, {x, 80 * u}, "Type one in the field above, or start with one of these.", {16 * u, theme.ink}, width);
  if (session.problem) draw_problem(ui, *session.problem, {x, 104 * u}, width);
  else draw_lines(ui, session, x, 104 * u, width);
  if (card.height > 560 * u) {
    ui.canvas.line({}, {x, 342 * u}, {x + width, 342 * u}, theme.rule, 1.2 * u);
    draw_keys(ui, x, 356 * u);
  }
  ui.canvas.text({}, {x, card.height - 22 * u}, "The movement is computed: a model, not a medical picture.", {14 * u, theme.quiet});
  ui.end_sheet();
}

} // namespace mw::app
