#include "app/actions.h"
#include "app/compare.h"
#include "app/my_accent.h"
#include "app/panels.h"
#include "app/screens.h"

#include "text/shaper.h"

#include <SDL_keycode.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace mw::app {
namespace {

void choose(Session& session, const Menu& menu, int row) {
  View& view = session.view;
  if (menu.id == "accent") {
    session.request.accent = session.accents[static_cast<std::size_t>(row)].id;
    session.asks_again = true;
  } else if (menu.id == "my-accent") choose_of_accent(session, menu.rows[static_cast<std::size_t>(row)].text);
  else if (menu.id == "my-accent-from") start_accent_from(session, std::string(session.accents[static_cast<std::size_t>(row)].id)); // the list is made anew meanwhile
  else if (menu.id == "rule") choose_of_rule(session, menu.about, menu.rows[static_cast<std::size_t>(row)].text);
  else if (menu.id == "speaker") choose_speaker(session, anatomy_ids()[static_cast<std::size_t>(row)]);
  else if (menu.id == "learner") choose_learner(session, session.accents[static_cast<std::size_t>(row)].id);
  else if (menu.id == "screen") view.screen = screens()[static_cast<std::size_t>(row)].screen;
  else if (menu.id == "slow") view.slow = row;
  else if (menu.id == "step") view.step_by = static_cast<StepBy>(row);
  else if (menu.id == "spotlight") {
    view.spotlight.reset();
    if (row > 0) act(session, static_cast<Action>(static_cast<int>(Action::spot_none) + row));
  }
}

// Arrow keys, Enter, Esc, first letters. True when it is over.
bool keys_of_menu(Session& session, Ui& ui) {
  Menu& menu = *session.menu;
  const int n = static_cast<int>(menu.rows.size());
  for (const KeyPress& key : ui.input.keys) {
    if (key.code == SDLK_DOWN) menu.at = std::min(menu.at + 1, n - 1);
    else if (key.code == SDLK_UP) menu.at = std::max(menu.at - 1, 0);
    else if (key.code == SDLK_HOME) menu.at = 0;
    else if (key.code == SDLK_END) menu.at = n - 1;
    else if (key.code == SDLK_ESCAPE || key.code == SDLK_TAB) return true;
    else if (key.code == SDLK_RETURN || key.code == SDLK_SPACE) {
      choose(session, menu, menu.at);
      return true;
    } else if (key.code >= 'a' && key.code <= 'z') {
      for (int i = 1; i <= n; ++i) {
        const int row = (menu.at + i) % n;
        const auto& text = menu.rows[static_cast<std::size_t>(row)].text;
        if (!text.empty() && (text[0] | 0x20) == key.code) {
          menu.at = row;
          break;
        }
      }
    }
  }
  return false;
}

} // namespace

void show_menu(Ui& ui, Session& session, const Layout& layout) {
  if (!session.menu) return;
  const Theme& theme = *ui.theme;
  const double u = layout.u, row = 32 * u;
  bool over = keys_of_menu(session, ui);
  ui.input.keys.clear();
  Menu& menu = *session.menu;
  // as wide as the longest row, above or below its field, inside the window
  double width = menu.under.width;
  for (const auto& r : menu.rows) width = std::max(width, text_width(r.text, 15 * u, true) + text_width(r.note, 13 * u) + 52 * u);
  width = std::min(width, layout.whole.width - 20 * u);
  const double below = layout.whole.height - menu.under.bottom() - 12 * u, above = menu.under.y - 12 * u;
  const bool down = below >= above;
  const int n = static_cast<int>(menu.rows.size()), fits = std::max(1, static_cast<int>(((down ? below : above) - 12 * u) / row));
  const int shown = std::min(n, fits);
  const double height = shown * row + 12 * u;
  const double x = std::min(menu.under.x, layout.whole.width - width - 10 * u);
  const Rect box{x, down ? menu.under.bottom() + 5 * u : menu.under.y - height - 5 * u, width, height};
  // the row in hand stays in view
  menu.scroll = std::clamp(menu.scroll - ui.input.wheel, 0.0, static_cast<double>(n - shown));
  if (!ui.input.moved && ui.input.wheel == 0) menu.scroll = std::clamp(menu.scroll, static_cast<double>(menu.at - shown + 1), static_cast<double>(menu.at));
  const int first = static_cast<int>(std::lround(menu.scroll));
  ui.canvas.box({"menu", menu.id}, box, 9 * u, theme.raised, theme.edge, 1.4 * u);
  int picked = -1;
  for (int i = first; i < first + shown; ++i) {
    const Rect line{box.x + 6 * u, box.y + 6 * u + (i - first) * row, box.width - 12 * u, row};
    if (ui.spot("menu-" + std::to_string(i), line, {}, false)) picked = i;
    const bool over_row = ui.input.mouse.y >= line.y && ui.input.mouse.y < line.bottom() && ui.input.mouse.x >= line.x && ui.input.mouse.x < line.right();
    if (over_row && ui.input.moved) menu.at = i;
    const bool on = i == menu.chosen;
    if (i == menu.at) ui.canvas.box({}, line, 6 * u, theme.select);
    const auto& text = menu.rows[static_cast<std::size_t>(i)];
    if (on) ui.canvas.add(draw_sign(Sign::tick, {line.x + 12 * u, line.centre().y}, 6 * u, theme.action));
    ui.canvas.text_middle({}, {line.x + 26 * u, line.centre().y}, text.text, {15 * u, theme.ink, on});
    ui.canvas.text_middle({}, {line.right() - 8 * u, line.centre().y}, text.note, {13 * u, theme.quiet, false, Anchor::end});
  }
  if (first + shown < n) ui.canvas.add(draw_sign(Sign::down, {box.centre().x, box.bottom() - 5 * u}, 6 * u, theme.quiet));
  if (picked >= 0) choose(session, menu, picked), over = true;
  const bool outside = ui.input.mouse.x < box.x || ui.input.mouse.x > box.right() || ui.input.mouse.y < box.y || ui.input.mouse.y > box.bottom();
  if (ui.input.pressed && outside) over = true;
  if (over) session.menu = std::exchange(session.opens, std::nullopt);
}

void show_tip(Ui& ui, const Layout& layout, double hovered_for_s) {
  if (hovered_for_s < 0.6) return; // visual design, section 10
  const auto& spots = ui.spots();
  const auto spot = std::find_if(spots.rbegin(), spots.rend(), [&](const Spot& s) { return ui.is_hovered(s.id); });
  if (spot == spots.rend() || spot->tip.name.empty() || spot->tip.does.empty()) return;
  const Theme& theme = *ui.theme;
  const double u = layout.u, most = 280 * u;
  const auto lines = wrap_text(spot->tip.does, 13.5 * u, false, most);
  double width = text_width(spot->tip.name, 14.5 * u, true);
  for (const auto& line : lines) width = std::max(width, text_width(line, 13.5 * u));
  const std::string key = spot->tip.key.empty() ? "" : "Key " + spot->tip.key;
  width = std::max(width, text_width(key, 12.5 * u)) + 32 * u;
  const double height = 40 * u + static_cast<double>(lines.size()) * 18.9 * u + (key.empty() ? 0 : 20 * u);
  const double x = std::clamp(spot->rect.centre().x - width / 2, 8 * u, layout.whole.width - width - 8 * u);
  const bool below = spot->rect.bottom() + height + 14 * u < layout.whole.height;
  const Rect card{x, below ? spot->rect.bottom() + 8 * u : spot->rect.y - height - 8 * u, width, height};
  ui.canvas.box({"tip", spot->id}, card, 10 * u, theme.ink);
  ui.canvas.text({}, {card.x + 16 * u, card.y + 24 * u}, spot->tip.name, {14.5 * u, theme.panel, true});
  const double y = ui.canvas.paragraph({}, {card.x + 16 * u, card.y + 30 * u}, spot->tip.does, {13.5 * u, theme.panel}, most);
  if (!key.empty()) ui.canvas.text({}, {card.x + 16 * u, y + 14 * u}, key, {12.5 * u, theme.panel});
}

void show_focus(Ui& ui) {
  if (!ui.shows_focus()) return;
  const Spot* spot = ui.find(ui.focused());
  if (!spot) return;
  const double u = ui.u;
  ui.canvas.box({"focus", spot->id}, inset(spot->rect, -5.3 * u), spot->radius + 4 * u, clear, ui.theme->focus, 2.6 * u);
}

} // namespace mw::app
