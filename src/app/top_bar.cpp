#include "app/actions.h"
#include "app/panels.h"
#include "app/screens.h"

#include "text/shaper.h"

namespace mw::app {
namespace {

constexpr std::string_view hint = "Type a line to say";

void open_accents(Session& session, Rect under) {
  Menu menu{"accent", under, {}, -1, 0, 0};
  for (const auto& accent : session.accents) {
    if (accent.id == session.request.accent) menu.chosen = menu.at = static_cast<int>(menu.rows.size());
    menu.rows.push_back({accent.name, accent.status == "yours" ? "yours" : accent.id});
  }
  session.menu = std::move(menu);
}

// The phrase as it rests in its field: its start and an ellipsis; two-storey a, as everywhere.
void draw_phrase(Ui& ui, const Session& session, Rect inside, double size) {
  const bool empty = session.request.phrase.empty();
  const std::string shown = empty ? std::string(hint) : cut_text(session.request.phrase, size, false, inside.width);
  ui.canvas.text({"phrase", ""}, {inside.x + (session.field_active ? 5 * ui.u : 0), middle_baseline(inside.centre().y, size)}, shown, {size, empty ? ui.theme->quiet : ui.theme->ink});
}

constexpr double view_field_width = 118, word_size = 15, word_gap = 26; // u

double words_of_screens(double u) {
  double width = 0;
  for (const ScreenRow& row : screens()) width += text_width(row.word, word_size * u, true) + word_gap * u;
  return width;
}

// The views as words, the chosen one bold over a bar; as a menu where the bar is narrow.
void show_screens(Ui& ui, Session& session, const Layout& layout, Rect rect, bool as_words) {
  const ScreenRow& chosen = row_of(session.view.screen);
  if (!as_words) {
    const Rect field{rect.x - 14 * ui.u, rect.y, rect.width - 10 * ui.u, rect.height};
    if (!ui.drop_field("screen", field, chosen.word, {"View", std::string(chosen.does), ""}, true, 15 * ui.u)) return;
    Menu menu{"screen", {field.x + layout.top.x, field.y + layout.top.y, field.width, field.height}, {}, -1, 0, 0};
    for (const ScreenRow& row : screens()) {
      if (row.screen == chosen.screen) menu.chosen = menu.at = static_cast<int>(menu.rows.size());
      menu.rows.push_back({std::string(row.word), ""});
    }
    session.menu = std::move(menu);
    return;
  }
  double x = rect.x;
  for (const ScreenRow& row : screens()) {
    const bool on = row.screen == chosen.screen;
    const std::string id = "screen-" + std::string(row.word);
    const double width = text_width(row.word, word_size * ui.u, on), whole = text_width(row.word, word_size * ui.u, true);
    if (ui.spot(id, {x - 8 * ui.u, rect.y, whole + 16 * ui.u, rect.height}, {std::string(row.word), std::string(row.does), ""}) && !on) session.view.screen = row.screen;
    ui.canvas.text({}, {x + (whole - width) / 2, middle_baseline(rect.centre().y, word_size * ui.u)}, row.word, {word_size * ui.u, on || ui.is_hovered(id) ? ui.theme->ink : ui.theme->quiet, on});
    if (on) ui.canvas.box({}, {x - 2 * ui.u, layout.top.height - 5 * ui.u, whole + 4 * ui.u, 5 * ui.u}, 2 * ui.u, ui.theme->action);
    x += whole + word_gap * ui.u;
  }
}

} // namespace

Rect show_top_bar(Ui& ui, Session& session, const Layout& layout) {
  const Theme& theme = *ui.theme;
  const double u = layout.u, w = layout.top.width, h = layout.top.height;
  const bool full = layout.fold == Fold::full;
  ui.begin_sheet("top", layout.top, theme.panel);
  ui.canvas.line({}, {0, h - 0.6 * u}, {w, h - 0.6 * u}, theme.rule, 1.2 * u);
  ui.canvas.add(draw_logo(theme, {(full ? 28 : 24) * u, h / 2}, (full ? 12 : 10) * u));

  // phrase
  const bool views = screens().size() > 1;
  const double y = (full ? 9 : 7) * u, height = h - 2 * y, size = (full ? 19 : 17) * u;
  const double present_width = (full ? 106 : 42) * u, accent_width = (full ? (views ? 222 : 262) : 86) * u;
  const double views_width = !views ? 0 : full ? words_of_screens(u) + 30 * u : view_field_width * u;
  double x = (full ? 52 : 44) * u;
  const double room = w - x - accent_width - views_width - present_width - 46 * u;
  const Rect field{x, y, std::min(room, full ? 620 * u : room), height};
  const bool active = session.field_active && !session.naming && !session.correcting;
  ui.canvas.box({"field", "phrase"}, field, 8 * u, theme.raised, active ? theme.action : theme.edge, (active ? 1.8 : 1.1) * u);
  const Rect inside{field.x + 12 * u, field.y + 1, field.width - 24 * u, field.height - 2};
  if (!active || session.request.phrase.empty()) draw_phrase(ui, session, inside, size);
  if (ui.spot("phrase", field, {"The line", "Any English line; sounds between slashes, /hɒt/, are taken as they stand.", std::string(key_of(Action::phrase))}))
    session.wants_field = true;

  // accent
  x = field.right() + 10 * u;
  const Rect accent{x, y, accent_width, height};
  std::string label = accent_label(session, !full);
  if (text_width(label, 0.85 * 15 * u) > accent.width - 44 * u) label = accent_label(session, true); // the id rather than half a name
  if (ui.drop_field("accent", accent, label, {"Accent", "What the line is said in", ""}, false, 15 * u))
    open_accents(session, {accent.x + layout.top.x, accent.y + layout.top.y, accent.width, accent.height});

  if (views) show_screens(ui, session, layout, {accent.right() + 24 * u, y, views_width, height}, full);

  // present
  const Rect present{w - present_width - 12 * u, y, present_width, height};
  if (ui.button("present", present, Sign::present, full ? "Present" : "", {"Present", "The mouth on the projector, readable from the back row", "P"}))
    act(session, Action::present);
  if (!has_phrase(session)) ui.canvas.box({"veil", ""}, inset(present, -1), 8 * u, with_alpha(theme.panel, 0.45)); // nothing to present yet
  ui.end_sheet();
  return {inside.x + layout.top.x, inside.y + layout.top.y, inside.width, inside.height};
}

} // namespace mw::app
