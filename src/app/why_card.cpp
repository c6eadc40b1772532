#include "app/actions.h"
#include "app/panels.h"
#include "app/playback.h"

#include "base/text.h"
#include "scene/mouth_slip.h"
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

// Head of the card: flag, kind and part, where; the button.
void draw_head(Ui& ui, Session& session, const Layout& layout, const Clash& clash, Rect rect) {
  const Theme& theme = *ui.theme;
  const double u = layout.u;
  const bool small = layout.fold == Fold::small;
  ui.canvas.add(draw_flag(theme, clash.kind, clash.level, true, {rect.x + 31 * u, rect.y + 31 * u}, (small ? 15 : 17) * u));
  const double button_width = small ? 42 * u : 92 * u, room = rect.width - 58 * u - button_width - 28 * u;
  ui.canvas.fitted({}, {rect.x + 58 * u, rect.y + 28 * u}, clash.title, {17 * u, theme.ink, true}, room);
  ui.canvas.fitted({}, {rect.x + 58 * u, rect.y + 47 * u}, where_of(*session.take, clash), {13.5 * u, theme.quiet}, room);
  const Rect loop{rect.right() - button_width - 14 * u, rect.y + 14 * u, button_width, 34 * u};
  if (ui.button("loop-it", loop, Sign::loop, small ? "" : "Loop it", {"Loop it", "This clash over and over", "shift O"}, session.view.loop_span.has_value()))
    act(session, Action::loop_clash);
}

// What happens, and what to feel; the cue is never cut. Gives the bottom.
double draw_words(Canvas& canvas, const Theme& theme, double u, const Clash& clash, Rect rect, double size) {
  const double width = rect.width - 28 * u;
  double y = canvas.paragraph({}, {rect.x + 15 * u, rect.y + 60 * u}, clash.text, {size, theme.ink}, width, 3) + 4 * u;
  const double lead = text_width("Feel it: ", size, true);
  canvas.text({}, {rect.x + 15 * u, y + size}, "Feel it:", {size, theme.action, true});
  const auto lines = wrap_text(clash.feel, size, false, width - lead);
  if (lines.empty()) return y;
  canvas.text({}, {rect.x + 15 * u + lead, y + size}, lines.front(), {size, theme.ink});
  y += 1.4 * size;
  if (lines.size() == 1) return y;
  const std::string rest = join(std::vector<std::string>(lines.begin() + 1, lines.end()), " ");
  return canvas.paragraph({}, {rect.x + 15 * u, y}, rest, {size, theme.ink}, width);
}

// Words at their full size, or at nine tenths when the bars would not fit below. Gives the bottom.
double draw_clash(Ui& ui, Session& session, const Layout& layout, Rect rect, double bars_need) {
  const Theme& theme = *ui.theme;
  const double u = layout.u;
  const auto index = shown_clash(session);
  if (!index) {
    ui.canvas.text({}, {rect.x + 15 * u, rect.y + 30 * u}, "Nothing pulls against anything here", {17 * u, theme.ink, true});
    return ui.canvas.paragraph({}, {rect.x + 15 * u, rect.y + 42 * u}, "Every move has time and room. Try it faster, or in another accent.", {14.5 * u, theme.ink}, rect.width - 30 * u, 3);
  }
  const Clash& clash = session.take->clashes[*index];
  draw_head(ui, session, layout, clash, rect);
  double bottom = 0;
  for (const double size : {14.5, 13.05}) {
    Canvas words;
    bottom = draw_words(words, theme, u, clash, rect, size * u);
    if (bottom + bars_need > rect.bottom() && size > 14) continue;
    ui.canvas.add(std::move(words.marks));
    break;
  }
  return bottom;
}

// The honest line, and the likely slip on demand. Gives the height it takes.
double draw_foot(Ui& ui, Session& session, Rect rect) {
  const double u = ui.u, size = 12.5 * u, right = rect.right() - 15 * u;
  const std::string honest = "Computed from the phrase; no one was measured.", slip = "likely slip";
  const bool on = session.view.slips;
  const double width = text_width(slip, size, true), needs = text_width(honest, size) + width + 42 * u;
  const bool two_rows = needs > rect.width;
  ui.canvas.text({"honest", ""}, {rect.x + 15 * u, rect.bottom() - 11 * u}, honest, {size, ui.theme->quiet});
  if (session.take->likely_slips.empty()) return 24 * u;
  const double y = rect.bottom() - (two_rows ? 35 : 15) * u;
  if (ui.spot("slips", {right - width - 4 * u, y - 11 * u, width + 8 * u, 22 * u}, {"Likely slip", "The wrong turn that is most probable, as a second outline", "W"}, true, 5)) act(session, Action::slips);
  ui.canvas.text_middle({"slips", ""}, {right, y}, slip, {size, ui.is_hovered("slips") ? ui.theme->ink : ui.theme->action, on, Anchor::end});
  return (two_rows ? 44 : 24) * u;
}

// "Likely slip: ..." while it is shown; gives the bottom.
double draw_slip_words(Ui& ui, const Session& session, Rect rect, double y) {
  const auto slip = session.view.slips && session.take ? nearest_slip(*session.take, session.view.time_s) : std::nullopt;
  if (!slip) return y;
  const double u = ui.u, size = 13.5 * u, lead = text_width("Likely slip: ", size, true), x = rect.x + 15 * u;
  ui.canvas.text({"slip", ""}, {x, y + 3 * u + size}, "Likely slip:", {size, ui.theme->action, true});
  return ui.canvas.paragraph({"slip", ""}, {x + lead, y + 3 * u}, session.take->likely_slips[*slip].text, {size, ui.theme->ink}, rect.width - 30 * u - lead, 3);
}

void draw_why(Ui& ui, Session& session, const Layout& layout, Rect rect) {
  const double u = layout.u;
  if (session.problem) {
    draw_problem(ui, *session.problem, {rect.x + 15 * u, rect.y + 14 * u}, rect.width - 30 * u);
    return;
  }
  if (!session.take) return;
  // the bars fold before the words do
  const double honest = draw_foot(ui, session, rect), least = 4 * 16.5 * u, usual = 4 * 21.5 * u;
  const double y = draw_slip_words(ui, session, rect, draw_clash(ui, session, layout, rect, least + honest));
  const double room = rect.bottom() - y - honest;
  if (room >= least) {
    const double height = std::min(room - 3 * u, usual);
    ui.canvas.add(compose_bars(session.take->difficulty, *ui.theme, {rect.x + 15 * u, rect.bottom() - honest - height, rect.width - 22 * u, height}, u));
  }
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
