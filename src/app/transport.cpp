#include "app/actions.h"
#include "app/panels.h"

#include <array>

namespace mw::app {
namespace {

void open_menu(Session& session, std::string id, Rect under, std::vector<Menu::Row> rows, int chosen) {
  session.menu = Menu{std::move(id), under, std::move(rows), chosen, std::max(chosen, 0), 0};
}

Rect in_window(const Layout& layout, Rect r) { return {r.x + layout.transport.x, r.y + layout.transport.y, r.width, r.height}; }

void show_slow(Ui& ui, Session& session, const Layout& layout, double& x, double y, double height) {
  const double u = layout.u;
  View& view = session.view;
  if (layout.fold == Fold::small) {
    const Rect field{x, y + 2 * u, 104 * u, height - 4 * u};
    if (ui.drop_field("slow", field, slow_words[static_cast<std::size_t>(view.slow)], {"Slow", "Part of true speed", "S"}, true, 15 * u, Sign::slow)) {
      std::vector<Menu::Row> rows;
      for (const auto word : slow_words) rows.push_back({std::string(word), ""});
      open_menu(session, "slow", in_window(layout, field), std::move(rows), view.slow);
    }
    x = field.right() + 12 * u;
    return;
  }
  ui.canvas.add(draw_sign(Sign::slow, {x + 8 * u, y + height / 2}, 9 * u, ui.theme->quiet));
  x += 26 * u;
  const double cell = (layout.fold == Fold::full ? 42 : 40) * u;
  std::array<double, 6> widths{};
  widths.fill(cell);
  const Rect rect{x, y + 3 * u, cell * 6, height - 6 * u};
  if (const auto chosen = ui.segments("slow", rect, slow_words, widths, view.slow, {{"Slow", "Part of true speed", "S"}})) view.slow = *chosen;
  x = rect.right() + 20 * u;
}

void show_step_by(Ui& ui, Session& session, const Layout& layout, double& x, double y, double height) {
  const double u = layout.u;
  View& view = session.view;
  if (layout.fold != Fold::full) {
    const Rect field{x, y + 2 * u, 150 * u, height - 4 * u};
    const std::string text = "step by " + std::string(step_words[static_cast<std::size_t>(view.step_by)]);
    if (ui.drop_field("step", field, text, {"Step by", "What the arrow keys go by", "G"}, false, 14 * u)) {
      std::vector<Menu::Row> rows;
      for (const auto word : step_words) rows.push_back({std::string(word), ""});
      open_menu(session, "step", in_window(layout, field), std::move(rows), static_cast<int>(view.step_by));
    }
    return;
  }
  ui.canvas.text_middle({}, {x, y + height / 2}, "step by", {14 * u, ui.theme->quiet});
  x += 54 * u;
  const std::array<double, 3> widths{60 * u, 62 * u, 58 * u};
  const std::vector<Tip> tips{{"By frame", "1/96 of a second of speech", "G"}, {"By sound", "From the middle of one sound to the next", "G"},
                              {"By move", "To where each move starts, arrives, lets go and ends", "G"}};
  const Rect rect{x, y + 3 * u, 180 * u, height - 6 * u};
  if (const auto chosen = ui.segments("step", rect, step_words, widths, static_cast<int>(view.step_by), tips)) view.step_by = static_cast<StepBy>(*chosen);
}

void open_spotlight(Session& session, Rect under) {
  std::vector<Menu::Row> rows{{"no spotlight", "0"}};
  constexpr std::array names{"lips", "tip of the tongue", "back of the tongue", "root of the tongue", "soft palate", "jaw", "voice box"};
  for (std::size_t i = 0; i < names.size(); ++i) rows.push_back({names[i], std::to_string(i + 1)});
  constexpr std::array order{Articulator::lips, Articulator::tip, Articulator::body, Articulator::root, Articulator::velum, Articulator::jaw, Articulator::glottis};
  int chosen = 0;
  for (std::size_t i = 0; i < order.size(); ++i)
    if (session.view.spotlight == order[i]) chosen = static_cast<int>(i) + 1;
  open_menu(session, "spotlight", under, std::move(rows), chosen);
}

constexpr double speaker_width = 92; // u

} // namespace

void show_speaker(Ui& ui, Session& session, Vec2 sheet, Rect rect) {
  if (!ui.drop_field("speaker", rect, speaker_word(session.request.anatomy), {"Whose mouth", "A man\u2019s, a woman\u2019s or a child\u2019s; every closure and every gap is kept", std::string(key_of(Action::speaker))}, false, 14 * ui.u)) return;
  std::vector<Menu::Row> rows;
  int chosen = -1;
  for (const std::string& id : anatomy_ids()) {
    if (id == session.request.anatomy) chosen = static_cast<int>(rows.size());
    rows.push_back({speaker_word(id), ""});
  }
  open_menu(session, "speaker", {rect.x + sheet.x, rect.y + sheet.y, rect.width, rect.height}, std::move(rows), chosen);
}

void show_transport(Ui& ui, Session& session, const Layout& layout) {
  const Theme& theme = *ui.theme;
  const double u = layout.u, w = layout.transport.width, h = layout.transport.height;
  View& view = session.view;
  ui.begin_sheet("transport", layout.transport, theme.panel);
  ui.canvas.line({}, {0, 0.6 * u}, {w, 0.6 * u}, theme.rule, 1.2 * u);
  const double height = (layout.fold == Fold::small ? 36 : 38) * u, y = (h - height) / 2, small = (layout.fold == Fold::small ? 40 : 42) * u;
  double x = 14 * u;

  // back, play, step, loop
  const auto sign_button = [&](std::string id, Sign sign, double width, Tip tip, Action action, bool on, bool primary) {
    if (ui.button(id, {x, y, width, height}, sign, "", std::move(tip), on, primary)) act(session, action);
    x += width + 6 * u;
  };
  const std::string by(step_words[static_cast<std::size_t>(view.step_by)]);
  sign_button("back", Sign::back, small, {"Back", "One " + by + " back", "←"}, Action::step_back, false, false);
  sign_button("play", view.playing ? Sign::pause : Sign::play, 56 * u, {view.playing ? "Pause" : "Play", "Slowed as set beside", "space"}, Action::play, false, true);
  sign_button("step", Sign::step, small, {"Step", "One " + by + " on", "→"}, Action::step_on, false, false);
  x += 2 * u;
  sign_button("loop", Sign::loop, small, {"Loop", view.loop_span ? "Over and over: this clash" : "Over and over", "O"}, Action::loop, view.loop, false);
  x += 10 * u;
  show_slow(ui, session, layout, x, y, height);
  show_step_by(ui, session, layout, x, y, height);

  // picture: cover, mirror, labels, spotlight
  x = w - 14 * u;
  const auto from_right = [&](std::string id, Sign sign, Tip tip, Action action, bool on) {
    x -= 40 * u;
    if (ui.button(id, {x, y, 40 * u, height}, sign, "", std::move(tip), on)) act(session, action);
    x -= (layout.fold == Fold::small ? 4 : 8) * u;
  };
  from_right("cover", Sign::cover, {"Cover", "Hides the picture: say it, then look", "H"}, Action::cover, view.covered);
  from_right("mirror", Sign::mirror, {"Mirror", "The head faces the other way", "M"}, Action::mirror, view.mirrored);
  from_right("labels", Sign::labels, {"Labels", "Names of the parts", "L"}, Action::labels, view.labels);
  x -= 40 * u;
  const Rect lamp{x, y, 40 * u, height};
  if (ui.button("spotlight", lamp, Sign::spotlight, "", {"Spotlight", "One part bright, the rest veiled", "1 to 7"}, view.spotlight.has_value()))
    open_spotlight(session, in_window(layout, lamp));
  // nothing to play yet
  if (!has_phrase(session)) ui.canvas.box({"veil", ""}, {0, 1.2 * u, w, h}, 0, with_alpha(theme.panel, 0.45));
  const double field = speaker_width * u;
  show_speaker(ui, session, {layout.transport.x, layout.transport.y}, {x - field - (layout.fold == Fold::small ? 6 : 12) * u, y + 2 * u, field, height - 4 * u});
  ui.end_sheet();
}

} // namespace mw::app
