#include "app/my_accent.h"

#include "text/shaper.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace mw::app {
namespace {

constexpr std::array<std::string_view, 5> filter_words{"all", "short", "long", "glides", "in this phrase"};

void draw_key(Ui& ui, Rect rect) {
  const Theme& theme = *ui.theme;
  const double u = ui.u, y = rect.centre().y;
  double x = rect.x + 6 * u;
  const auto word = [&](std::string_view text, double gap) {
    ui.canvas.text_middle({}, {x, y}, text, {13.5 * u, theme.ink});
    x += text_width(text, 13.5 * u) + gap * u;
  };
  ui.canvas.circle({}, {x, y}, 5.5 * u, theme.action);
  x += 11 * u;
  word("yours", 20);
  const double s = 5.5 * u;
  Path diamond = line_path({Vec2{x, y - s}, Vec2{x + s, y}, Vec2{x, y + s}, Vec2{x - s, y}}, true);
  ui.canvas.fill({}, diamond, theme.panel);
  ui.canvas.stroke({}, diamond, theme.edge, 2 * u);
  x += 12 * u;
  word("where it started", 24);
  if (rect.right() - x > 150 * u) {
    ui.canvas.add(draw_lip_sign({x, y}, 8 * u, 0, theme.ink, theme.panel, 1.7 * u));
    x += 14 * u;
    word("lips spread", 22);
    ui.canvas.add(draw_lip_sign({x, y}, 8 * u, 1, theme.ink, theme.panel, 1.7 * u));
    x += 14 * u;
    word("lips rounded", 20);
  }
  const std::string hint = "arrows move it, R: lips, ctrl Z";
  if (rect.right() - x > text_width(hint, 13 * u)) ui.canvas.text_middle({}, {rect.right(), y}, hint, {13 * u, theme.quiet, false, Anchor::end});
}

void draw_chips(Ui& ui, MyAccent& mine, Rect rect) {
  const double u = ui.u;
  double x = rect.x;
  for (std::size_t i = 0; i < filter_words.size(); ++i) {
    const bool on = static_cast<std::size_t>(mine.filter) == i;
    const double width = text_width(filter_words[i], 14 * u, on) + 24 * u;
    if (x + width > rect.right()) break;
    const Rect chip{x, rect.y, width, rect.height};
    const std::string id = "chip-" + std::string(filter_words[i]);
    if (ui.spot(id, chip, {std::string(filter_words[i]), "Which vowels stand on the chart", ""}, true, 13)) mine.filter = static_cast<ChartFilter>(i);
    ui.canvas.box({"chip", id}, chip, rect.height / 2, on || ui.is_hovered(id) ? ui.theme->select : ui.theme->raised, on ? ui.theme->action : ui.theme->edge, (on ? 1.8 : 1.1) * u);
    ui.canvas.text_middle({}, chip.centre(), filter_words[i], {14 * u, ui.theme->ink, on, Anchor::middle});
    x += width + 8 * u;
  }
}

} // namespace

void draw_accent_head(Ui& ui, Session& session, const Layout& layout, Rect rect) {
  MyAccent& mine = my_accent(session);
  const Theme& theme = *ui.theme;
  const double u = ui.u;
  // the menu at the right end, the pill before it
  const Rect menu{rect.right() - 34 * u, rect.y, 34 * u, 28 * u};
  if (ui.button("my-accent-menu", menu, Sign::down, "", {"This accent", "Another name, a copy, undo, the trash", ""})) open_accent_menu(session, {menu.x + layout.stage.x, menu.y + layout.stage.y, menu.width, menu.height});
  const std::string pill = mine.problem ? "not saved" : !mine.saved.empty() ? "saved " + mine.saved : mine.own ? "yours" : "as shipped";
  const double width = text_width(pill, 13 * u) + 24 * u;
  const Rect box{menu.x - width - 8 * u, rect.y + 2 * u, width, 24 * u};
  ui.canvas.box({"pill", ""}, box, 12 * u, mine.problem ? theme.changed : theme.select);
  ui.canvas.text_middle({}, box.centre(), pill, {13 * u, theme.ink, false, Anchor::middle});
  // name and where it comes from
  const double room = box.x - rect.x - 10 * u, size = 15.5 * u;
  const double name_width = std::min(text_width(mine.accent.name, size, true), room * 0.62);
  const Rect field{rect.x - 8 * u, rect.y, name_width + 16 * u, 28 * u};
  if (session.naming) session.naming->rect = {field.x + 8 * u + layout.stage.x, field.y + layout.stage.y, std::max(name_width, 240 * u), field.height};
  if (session.naming) ui.canvas.box({}, {field.x, field.y, std::max(name_width, 240 * u) + 16 * u, field.height}, 7 * u, theme.raised, theme.action, 1.8 * u);
  else {
    if (ui.spot("my-accent-name", field, {"Its name", "Click to write another one", ""}, true, 7)) session.naming = Writing{mine.accent.name};
    if (ui.is_hovered("my-accent-name")) ui.canvas.box({}, field, 7 * u, theme.raised, theme.action, 1.2 * u);
    ui.canvas.fitted({"accent-name", ""}, {rect.x, middle_baseline(field.centre().y, size, true)}, mine.accent.name, {size, theme.ink, true}, name_width + u);
  }
  if (session.naming) return;
  const std::string from = !mine.own ? "change anything: a copy of your own is made" : "based on " + mine.start.name.substr(0, mine.start.name.find(" ("));
  if (const double left = room - name_width - 16 * u; left > 60 * u) ui.canvas.fitted({}, {field.right() + 6 * u, middle_baseline(field.centre().y, 13.5 * u)}, from, {13.5 * u, theme.quiet}, left);
}

namespace {

/// Widths of the columns and what is folded, by the room there is.
struct Columns { double left, gap; bool tabs, tall_tabs; };
Columns columns_of(const Layout& layout) {
  const double w = layout.whole.width, u = layout.u;
  if (layout.fold == Fold::full) return {690 * w / 1280, 10 * u, false, false};
  if (layout.fold == Fold::middle) return {std::round(w * 0.555), 9 * u, true, false};
  return {std::round(w * 0.53), 8 * u, true, true};
}

void draw_left(Ui& ui, Session& session, const Layout& layout, Rect r) {
  const double u = ui.u;
  ui.panel(r);
  draw_accent_head(ui, session, layout, {r.x + 14 * u, r.y + 9 * u, r.width - 26 * u, 28 * u});
  draw_chips(ui, my_accent(session), {r.x + 14 * u, r.y + 42 * u, r.width - 28 * u, 26 * u});
  draw_key(ui, {r.x + 14 * u, r.bottom() - 30 * u, r.width - 28 * u, 22 * u});
  draw_accent_chart(ui, session, {layout.stage.x, layout.stage.y}, {r.x + 10 * u, r.y + 74 * u, r.width - 16 * u, r.height - 108 * u});
}

// Set above, rules and posture below; behind tabs where it is narrow.
void draw_right(Ui& ui, Session& session, const Layout& layout, Vec2 sheet, Rect r, const Columns& columns) {
  MyAccent& mine = my_accent(session);
  const double u = ui.u, gap = columns.gap;
  if (!columns.tabs) {
    if (mine.all_rules) return draw_rules(ui, session, layout, sheet, r);
    const double card = std::round(r.height * 0.47), rules = std::round(r.width * 0.53);
    draw_set_card(ui, session, sheet, {r.x, r.y, r.width, card});
    const double y = r.y + card + gap, height = r.height - card - gap;
    draw_rules(ui, session, layout, sheet, {r.x, y, rules, height});
    draw_posture(ui, session, {r.x + rules + gap, y, r.width - rules - gap, height});
    return;
  }
  const double card = columns.tall_tabs ? 0 : std::round(r.height * 0.5);
  if (!columns.tall_tabs) draw_set_card(ui, session, sheet, {r.x, r.y, r.width, card - gap});
  const Rect low{r.x, r.y + card, r.width, r.height - card};
  constexpr std::array<std::string_view, 3> words{"Vowel", "Rules", "Posture"};
  const std::size_t from = columns.tall_tabs ? 0 : 1;
  mine.face = std::max(mine.face, static_cast<int>(from));
  if (mine.face == 0) draw_set_card(ui, session, sheet, {low.x, low.y + 36 * u, low.width, low.height - 36 * u});
  else if (mine.face == 1) draw_rules(ui, session, layout, sheet, {low.x, low.y + 36 * u, low.width, low.height - 36 * u});
  else draw_posture(ui, session, {low.x, low.y + 36 * u, low.width, low.height - 36 * u});
  if (const auto chosen = ui.tabs("my-accent-face", {low.x + 16 * u, low.y + 22 * u}, std::span(words).subspan(from), mine.face - static_cast<int>(from), 15.5 * u, 26 * u)) mine.face = *chosen + static_cast<int>(from);
}

} // namespace

void show_my_accent(Ui& ui, Session& session, const Layout& layout) {
  const double u = layout.u, foot = (layout.fold == Fold::small ? 78 : 88) * u;
  const Columns columns = columns_of(layout);
  const Rect& whole = layout.whole;
  // one sheet between the top bar and the foot of the window
  const Rect sheet{0, layout.top.bottom(), whole.width, whole.height - layout.top.bottom()};
  Layout here = layout;
  here.stage = sheet; // where menus and fields find this sheet
  ui.begin_sheet("my-accent", sheet, ui.theme->ground);
  const double gap = columns.gap, height = sheet.height - foot - 3 * gap;
  const Rect left{gap, gap, columns.left - gap * (layout.fold == Fold::full ? 0 : 1), height};
  draw_left(ui, session, here, left);
  draw_right(ui, session, here, {sheet.x, sheet.y}, {left.right() + gap, gap, sheet.width - left.right() - 2 * gap, height}, columns);
  draw_before_and_after(ui, session, {gap, gap + height + gap, sheet.width - 2 * gap, foot});
  ui.end_sheet();
}

} // namespace mw::app
