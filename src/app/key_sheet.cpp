#include "app/actions.h"
#include "app/panels.h"

#include "text/shaper.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace mw::app {
namespace {

/// A line of the table: a key, or the title of a part.
struct Line { const KeyRow* row = nullptr; std::string_view title{}; };

std::vector<Line> lines_of_table() {
  std::vector<Line> out;
  for (const KeyPlace place : {KeyPlace::anywhere, KeyPlace::compare, KeyPlace::my_accent}) {
    if (place != KeyPlace::anywhere) out.push_back({nullptr, to_title(place)});
    for (const KeyRow& row : key_rows())
      if (row.listed && row.place == place) out.push_back({&row, {}});
  }
  return out;
}

/// Where the columns are parted: a title never stands alone at a foot.
std::size_t per_column(const std::vector<Line>& lines, std::size_t columns) {
  std::size_t rows = (lines.size() + columns - 1) / columns;
  for (std::size_t i = 0; i < columns; ++i)
    if (const std::size_t last = (i + 1) * rows - 1; last + 1 < lines.size() && !lines[last].row) return rows + 1;
  return rows;
}

void draw_key(Ui& ui, Session& session, const KeyRow& row, std::size_t index, Rect line) {
  const Theme& theme = *ui.theme;
  const double u = ui.u, size = std::min(14.5 * u, 0.66 * line.height);
  const Rect cap{line.x, line.y + 1.5 * u, 74 * u, line.height - 3 * u};
  const std::string id = "key-" + std::to_string(index);
  const bool acts = row.action != Action::none && row.action != Action::key_sheet;
  if (acts && ui.spot(id, line, {}, false)) session.view.key_sheet = false, act(session, row.action);
  if (acts && ui.is_hovered(id)) ui.canvas.box({}, inset(line, -1 * u), 6 * u, theme.select);
  ui.canvas.box({}, cap, 6 * u, theme.raised, theme.edge, 1.1 * u);
  ui.canvas.text_middle({}, cap.centre(), row.label, {std::min(13.5 * u, size), theme.ink, true, Anchor::middle});
  ui.canvas.fitted({}, {line.x + 84 * u, middle_baseline(cap.centre().y, size)}, row.does, {size, theme.ink}, line.width - 92 * u);
}

} // namespace

void show_key_sheet(Ui& ui, Session& session, const Layout& layout) {
  if (!session.view.key_sheet) return;
  const Theme& theme = *ui.theme;
  const double u = layout.u, w = layout.whole.width, h = layout.whole.height;
  const auto lines = lines_of_table();
  const std::size_t columns = w >= 1150 * u ? 3 : 2, rows = per_column(lines, columns);
  const double line = std::min(27 * u, (h - 74 * u) / static_cast<double>(rows)), column = std::min(380 * u, (w - 56 * u) / static_cast<double>(columns));
  const double width = static_cast<double>(columns) * column + 24 * u, height = 58 * u + static_cast<double>(rows) * line;
  const Rect card{std::round((w - width) / 2), std::round((h - height) / 2), width, height};
  ui.canvas.fill({"veil", ""}, rounded_rectangle({0, 0}, {w, h}, 0), with_alpha(theme.ground, 0.6));
  ui.canvas.box({"keys", ""}, card, 10 * u, theme.panel, theme.edge, 1.4 * u);
  ui.canvas.text({}, {card.x + 20 * u, card.y + 31 * u}, to_title(KeyPlace::anywhere), {17 * u, theme.ink, true});
  ui.canvas.text({}, {card.right() - 20 * u, card.y + 31 * u}, "click one, or press it; F1 or Esc closes", {13 * u, theme.quiet, false, Anchor::end});
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const Rect at{card.x + 18 * u + static_cast<double>(i / rows) * column, card.y + 46 * u + static_cast<double>(i % rows) * line, column - 12 * u, line};
    if (lines[i].row) draw_key(ui, session, *lines[i].row, i, at);
    else ui.canvas.text_middle({"keys", std::string(lines[i].title)}, {at.x, at.centre().y + 2 * u}, lines[i].title, {std::min(15.5 * u, 0.7 * line), theme.action, true});
  }
  const Vec2 m = ui.input.mouse;
  const bool outside = m.x < card.x || m.x > card.right() || m.y < card.y || m.y > card.bottom();
  if (ui.input.pressed && outside) session.view.key_sheet = false;
}

} // namespace mw::app
