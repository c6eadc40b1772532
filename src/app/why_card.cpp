#include "app/actions.h"
#include "app/panels.h"
#include "app/playback.h"

#include "base/text.h"
#include "scene/score_panel.h"
#include "text/shaper.h"

#include <algorithm>
#include <array>

namespace mw::app {
namespace {

// "ɫ into z, in ‘kettles’": the sounds and the words of a clash.
std::string where_of(const Take& take, const Clash& clash) {
  std::vector<std::string> sounds, words;
  for (const auto i : clash.segments) {
    if (i >= take.track.segments.size()) continue;
    const Segment& segment = take.track.segments[i];
    sounds.push_back(to_ipa(segment.sound));
    if (segment.word < 0 || static_cast<std::size_t>(segment.word) >= take.pronunciation.words.size()) continue;
    const std::string word = "‘" + take.pronunciation.words[static_cast<std::size_t>(segment.word)].text + "’";
    if (words.empty() || words.back() != word) words.push_back(word);
  }
  if (sounds.size() > 4) sounds.resize(4), sounds.push_back("…");
  std::string out = join(sounds, clash.kind == ClashKind::tug && sounds.size() == 2 ? " into " : " ");
  if (!words.empty()) out += ", in " + join(words, " ");
  return out;
}

void draw_clash(Ui& ui, Session& session, const Layout& layout, Rect rect) {
  const Theme& theme = *ui.theme;
  const double u = layout.u;
  const auto index = shown_clash(session);
  const bool small = layout.fold == Fold::small;
  if (!index) {
    ui.canvas.text({}, {rect.x + 15 * u, rect.y + 30 * u}, "Nothing pulls against anything here", {17 * u, theme.ink, true});
    ui.canvas.paragraph({}, {rect.x + 15 * u, rect.y + 42 * u}, "Every move has time and room. Try it faster, or in another accent.", {14.5 * u, theme.ink}, rect.width - 30 * u, 3);
    return;
  }
  const Clash& clash = session.take->clashes[*index];
  ui.canvas.add(draw_flag(theme, clash.kind, clash.level, true, {rect.x + 31 * u, rect.y + 31 * u}, (small ? 15 : 17) * u));
  const double button_width = small ? 42 * u : 92 * u;
  const double room = rect.width - 58 * u - button_width - 28 * u;
  ui.canvas.fitted({}, {rect.x + 58 * u, rect.y + 28 * u}, clash.title, {17 * u, theme.ink, true}, room);
  ui.canvas.fitted({}, {rect.x + 58 * u, rect.y + 47 * u}, where_of(*session.take, clash), {13.5 * u, theme.quiet}, room);
  const Rect loop{rect.right() - button_width - 14 * u, rect.y + 14 * u, button_width, 34 * u};
  if (ui.button("loop-it", loop, Sign::loop, small ? "" : "Loop it", {"Loop it", "This clash over and over", "shift O"}, session.view.loop_span.has_value()))
    act(session, Action::loop_clash);
  // what happens, and what to feel; the cue is never cut
  double y = ui.canvas.paragraph({}, {rect.x + 15 * u, rect.y + 60 * u}, clash.text, {14.5 * u, theme.ink}, rect.width - 28 * u, 3);
  y += 6 * u;
  const double lead = text_width("Feel it: ", 14.5 * u, true);
  ui.canvas.text({}, {rect.x + 15 * u, y + 14.5 * u}, "Feel it:", {14.5 * u, theme.action, true});
  const auto lines = wrap_text(clash.feel, 14.5 * u, false, rect.width - 28 * u - lead);
  if (lines.empty()) return;
  ui.canvas.text({}, {rect.x + 15 * u + lead, y + 14.5 * u}, lines.front(), {14.5 * u, theme.ink});
  if (lines.size() > 1) {
    const std::string rest = join(std::vector<std::string>(lines.begin() + 1, lines.end()), " ");
    ui.canvas.paragraph({}, {rect.x + 15 * u, y + 20.3 * u}, rest, {14.5 * u, theme.ink}, rect.width - 28 * u);
  }
}

void draw_why(Ui& ui, Session& session, const Layout& layout, Rect rect) {
  const double u = layout.u;
  if (session.problem) {
    draw_problem(ui, *session.problem, {rect.x + 15 * u, rect.y + 14 * u}, rect.width - 30 * u);
    return;
  }
  if (!session.take) return;
  draw_clash(ui, session, layout, rect);
  const double gap = 21.5 * u, bars = 4 * gap;
  const bool honest = rect.height > 225 * u;
  const double y = rect.bottom() - bars - (honest ? 24 : 8) * u;
  if (rect.height > 210 * u) ui.canvas.add(compose_bars(session.take->difficulty, *ui.theme, {rect.x + 15 * u, y, rect.width - 22 * u, bars}, u));
  if (honest) ui.canvas.text({}, {rect.x + 15 * u, rect.bottom() - 11 * u}, "Computed from the phrase; no one was measured.", {12.5 * u, ui.theme->quiet});
}

} // namespace

double draw_problem(Ui& ui, const Problem& problem, Vec2 at, double width) {
  const Theme& theme = *ui.theme;
  const double u = ui.u;
  double y = ui.canvas.paragraph({"problem", ""}, at, problem.what, {17 * u, theme.ink, true}, width);
  if (!problem.where.empty()) y = ui.canvas.paragraph({}, {at.x, y + 4 * u}, problem.where, {14.5 * u, theme.quiet}, width);
  if (!problem.remedy.empty()) y = ui.canvas.paragraph({}, {at.x, y + 4 * u}, problem.remedy, {14.5 * u, theme.ink}, width);
  return ui.canvas.paragraph({}, {at.x, y + 8 * u}, "The last good picture stays; nothing you typed is lost.", {13.5 * u, theme.quiet}, width);
}

void show_why(Ui& ui, Session& session, const Layout& layout) {
  const Theme& theme = *ui.theme;
  const double u = layout.u;
  ui.begin_sheet("why", layout.why, theme.ground);
  const Rect whole{0, 0, layout.why.width, layout.why.height};
  ui.panel(whole);
  Rect body = whole;
  if (layout.fold != Fold::full) {
    constexpr std::array<std::string_view, 3> words{"Why", "Vowels", "Sides"};
    const std::size_t count = layout.fold == Fold::small ? 3 : 2;
    if (static_cast<std::size_t>(session.view.card) >= count) session.view.card = Card::why;
    if (const auto chosen = ui.tabs("card", {16 * u, 26 * u}, std::span(words).first(count), static_cast<int>(session.view.card), 15.5 * u, 26 * u))
      session.view.card = static_cast<Card>(*chosen);
    ui.canvas.line({}, {1, 37 * u}, {whole.width - 1, 37 * u}, theme.rule, u);
    body = {0, 37 * u, whole.width, whole.height - 37 * u};
  }
  if (layout.fold == Fold::full || session.view.card == Card::why) draw_why(ui, session, layout, body);
  else draw_side_card(ui, session, layout, body);
  ui.end_sheet();
}

} // namespace mw::app
