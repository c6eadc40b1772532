#include "app/actions.h"
#include "app/panels.h"
#include "app/pattern_play.h"
#include "app/playback.h"

#include "base/text.h"
#include "scene/pattern_chart.h"
#include "scene/shelf.h"
#include "scene/stage.h"
#include "text/shaper.h"

#include <algorithm>
#include <array>

namespace mw::app {
namespace {

/// Small stage and card left, the grid right; on a small screen the grid over the card (visual design of the practice
/// views, section 5).
Layout rearranged(Layout out) {
  const double u = out.u, gap = out.stage.x, y = out.stage.y, foot = out.transport.y - gap;
  if (out.fold == Fold::small) {
    const double card = 64 * u;
    out.stage = {};
    out.why = {gap, foot - card, out.whole.width - 2 * gap, card};
    out.score = {gap, y, out.why.width, out.why.y - gap - y};
    return out;
  }
  const double side = std::round((out.fold == Fold::full ? 330 : 290) * u), x = 2 * gap + side;
  out.stage = {gap, y, side, side};
  out.why = {gap, y + side + gap, side, foot - y - side - gap};
  out.score = {x, y, out.whole.width - x - gap, foot - y};
  return out;
}

/// The sound now and its word, the lips from the front: the corner that the chin leaves free.
void draw_corner(Canvas& canvas, const Session& session, const Theme& theme, double u, Rect panel) {
  const Take& take = *session.take;
  const auto sound = sound_at(take, session.view.time_s);
  if (!sound) return;
  const bool right = session.view.mirrored;
  const Anchor anchor = right ? Anchor::end : Anchor::start;
  const double x = right ? panel.width - 16 * u : 16 * u;
  const std::string ipa = ipa_of(take, *sound);
  canvas.text({"sound-now", ipa}, {x, panel.height - 92 * u}, ipa, {44 * u, theme.ink, true, anchor, 4 * u, theme.halo});
  const Rect lips{right ? panel.width - 88 * u : 12 * u, panel.height - 84 * u, 76 * u, 50 * u};
  canvas.add(draw_lips(theme, lips_front(*take.anatomy, pose_at(take.motion, session.view.time_s)), lips, u));
  const auto words = shown_words(take);
  const auto word = std::find_if(words.begin(), words.end(), [&](const ShownWord& w) { return *sound >= w.first && *sound <= w.last; });
  std::string caption = ipa;
  if (word != words.end()) {
    std::string bare = word->text;
    while (!bare.empty() && std::string_view(".,;:!?").find(bare.back()) != std::string_view::npos) bare.pop_back();
    caption += " in ‘" + bare + "’";
  }
  canvas.fitted({"sound-name", {}}, {x, panel.height - 16 * u}, caption, {13.5 * u, theme.quiet, false, anchor, 3 * u, theme.halo}, panel.width * 0.5);
}

void show_small_stage(Ui& ui, Session& session, const Layout& layout) {
  const Theme& theme = *ui.theme;
  const double u = layout.u;
  const Rect panel{0, 0, layout.stage.width, layout.stage.height}, cloth{16 * u, 18 * u, panel.width - 32 * u, panel.height - 36 * u};
  ui.begin_sheet("stage", layout.stage, theme.ground);
  ui.panel(panel);
  if (session.fades.cover < 1) {
    StageView view;
    view.theme = &theme, view.u = u, view.rect = inset(panel, -4 * u), view.line_scale = 1.1, view.tag_size = 16; // the stage keeps a rim of 4 u
    view.framing = Framing::close;
    view.sound_now = view.shelf = view.peephole = false;
    view.mirrored = session.view.mirrored, view.spotlight = session.fades.part, view.spotlight_strength = session.fades.spotlight;
    if (session.glow.clash && session.glow.level > 0) view.lit = Lit{*session.glow.clash, session.glow.level};
    if (session.slip_glow.clash && session.slip_glow.level > 0) view.slip = Lit{*session.slip_glow.clash, session.slip_glow.level};
    view.air->drift_mm = session.drift_mm;
    Canvas inside;
    inside.add(compose_stage(*session.take, tracer_of(session), session.view.time_s, view).group);
    draw_corner(inside, session, theme, u, panel);
    Group clipped;
    const Rect clip = inset(panel, 1.1 * u);
    clipped.clip = rounded_rectangle({clip.x, clip.y}, {clip.width, clip.height}, 9 * u);
    clipped.marks = std::move(inside.marks);
    ui.canvas.add(std::move(clipped));
  }
  if (session.fades.cover > 0) draw_curtain(ui, cloth, session.fades.cover);
  if (session.problem) ui.canvas.box({"veil", ""}, inset(panel, 1.1 * u), 9 * u, with_alpha(theme.panel, 0.2));
  ui.end_sheet();
}

/// The finding in hand, or the strongest, in words.
void draw_card(Ui& ui, Session& session, const Layout& layout, Rect rect) {
  const Theme& theme = *ui.theme;
  const double u = layout.u, left = rect.x + 15 * u, width = rect.width - 28 * u;
  const auto index = shown_finding(session);
  if (!index) {
    const double y = ui.canvas.paragraph({"card", ""}, {left, rect.y + 14 * u}, "Nothing repeats here within six syllables", {17 * u, theme.ink, true}, width);
    ui.canvas.paragraph({"card", ""}, {left, y + 4 * u}, "The cards show who moves in each place of the syllable.", {14.5 * u, theme.ink}, width);
    return;
  }
  const auto& findings = pattern_of(session.take).findings;
  const Clash& told = findings[*index].told;
  const std::string kind(learner_name(told.kind)), where = told.title.starts_with(kind + ": ") ? told.title.substr(kind.size() + 2) : told.where;
  ui.canvas.add(draw_flag(theme, told.kind, told.level, true, {rect.x + 32 * u, rect.y + 32 * u}, 17 * u));
  ui.canvas.fitted({"card", "kind"}, {rect.x + 60 * u, rect.y + 28 * u}, kind, {17 * u, theme.ink, true}, width - 48 * u);
  ui.canvas.fitted({"card", "where"}, {rect.x + 60 * u, rect.y + 47 * u}, where, {13.5 * u, theme.quiet}, width - 48 * u);
  const double foot = rect.bottom() - 44 * u;
  double size = 14.5 * u;
  const double lead = text_width("Feel it: ", 14.5 * u, true);
  for (; size > 12.5 * u; size *= 0.97) // the words shrink before they would meet the button
    if (1.4 * size * static_cast<double>(wrap_text(told.text, size, false, width).size() + wrap_text(told.feel, size, false, width - lead).size()) + 66 * u < foot - rect.y) break;
  const double y = ui.canvas.paragraph({"card", "text"}, {left, rect.y + 58 * u}, told.text, {size, theme.ink}, width) + 4 * u;
  ui.canvas.text({"card", "feel"}, {left, y + size}, "Feel it:", {size, theme.action, true});
  ui.canvas.paragraph({"card", "feel"}, {left + lead, y}, told.feel, {size, theme.ink}, width - lead);
  const Rect loop{left, foot, 92 * u, 34 * u};
  if (ui.button("loop-it", loop, Sign::loop, "Loop it", {"Loop it", "This stretch over and over, slowly", "shift O"}, session.view.loop_span.has_value())) loop_finding(session);
  const std::string count = to_text(static_cast<int>(*index) + 1) + " of " + to_text(static_cast<int>(findings.size()));
  if (ui.button("next-finding", {loop.right() + 8 * u, foot, 92 * u, 34 * u}, std::nullopt, count, {"Next pattern", "The one before: shift N", "N"})) go_to_finding(session, 1);
}

/// Two lines: kind and where, what to feel.
void draw_low_card(Ui& ui, Session& session, const Layout& layout, Rect rect) {
  const auto index = shown_finding(session);
  const Theme& theme = *ui.theme;
  const double u = layout.u, middle = rect.centre().y;
  if (!index) return ui.canvas.text_middle({"card", ""}, {rect.x + 16 * u, middle}, "Nothing repeats here within six syllables.", {15 * u, theme.ink});
  const Clash& told = pattern_of(session.take).findings[*index].told;
  ui.canvas.add(draw_flag(theme, told.kind, told.level, true, {rect.x + 32 * u, middle}, 17 * u));
  const Rect loop{rect.right() - 56 * u, middle - 17 * u, 44 * u, 34 * u};
  const double x = rect.x + 62 * u, width = loop.x - x - 10 * u, kind = text_width(told.title, 16 * u, true), lead = text_width("Feel it: ", 14.5 * u, true);
  ui.canvas.fitted({"card", "kind"}, {x, middle - 7 * u}, told.title, {16 * u, theme.ink, true}, width);
  if (width - kind > 100 * u) ui.canvas.fitted({"card", "where"}, {x + kind + 10 * u, middle - 7 * u}, told.where, {13.5 * u, theme.quiet}, width - kind - 10 * u);
  ui.canvas.text({"card", "feel"}, {x, middle + 17 * u}, "Feel it:", {14.5 * u, theme.action, true});
  ui.canvas.fitted({"card", "feel"}, {x + lead, middle + 17 * u}, told.feel, {14.5 * u, theme.ink}, width - lead, 0.862); // 12.5 u at least
  if (ui.button("loop-it", loop, Sign::loop, "", {"Loop it", "This stretch over and over, slowly", "shift O"}, session.view.loop_span.has_value())) loop_finding(session);
}

void show_card(Ui& ui, Session& session, const Layout& layout) {
  ui.begin_sheet("why", layout.why, ui.theme->ground);
  const Rect whole{0, 0, layout.why.width, layout.why.height};
  ui.panel(whole);
  if (session.problem) draw_problem(ui, *session.problem, {15 * layout.u, 10 * layout.u}, whole.width - 30 * layout.u);
  else if (layout.fold == Fold::small) draw_low_card(ui, session, layout, whole);
  else draw_card(ui, session, layout, whole);
  ui.end_sheet();
}

/// Tabs, and what they show or which page.
void draw_head(Ui& ui, Session& session, const Layout& layout, std::size_t page, const std::vector<PatternPage>& pages) {
  const Theme& theme = *ui.theme;
  const double u = layout.u, w = layout.score.width;
  show_face_tabs(ui, session, u);
  ui.canvas.line({}, {1, 35 * u}, {w - 1, 35 * u}, theme.rule, u);
  if (pages.size() < 2) return ui.canvas.text({}, {w - 14 * u, 24 * u}, "who moves, in each place of the syllable", {13 * u, theme.quiet, false, Anchor::end});
  const auto turn = [&](const char* id, double x, Sign sign, const char* name, std::size_t to) {
    if (!ui.button(id, {x, 5 * u, 30 * u, 26 * u}, sign, "", {name, "", ""})) return;
    session.view.playing = false;
    session.view = go_to(session.view, *session.take, pattern_of(session.take).pattern.syllables[pages[to].first].start_s + 1e-4);
  };
  turn("page-on", w - 44 * u, Sign::right, "Next page", std::min(page + 1, pages.size() - 1));
  turn("page-back", w - 80 * u, Sign::left, "Page before", page > 0 ? page - 1 : 0);
  ui.canvas.text({}, {w - 90 * u, 23 * u}, "page " + to_text(static_cast<int>(page) + 1) + " of " + to_text(static_cast<int>(pages.size())), {13 * u, theme.quiet, false, Anchor::end});
}

std::string id_of(const PatternHit& hit) {
  constexpr std::array names{"card-", "finding-", "finding-", "syllable-"};
  return names[static_cast<std::size_t>(hit.part)] + to_text(static_cast<int>(hit.index));
}

void answer_pointing(Ui& ui, Session& session, const PatternPicture& picture) {
  const Take& take = *session.take;
  const ShownPattern& p = pattern_of(session.take);
  const auto to = [&](std::size_t sound) { session.view.playing = false, session.view = go_to(session.view, take, moment_of(take, sound)); };
  for (const PatternHit& hit : picture.hits) {
    const std::string id = id_of(hit);
    if (hit.part == PatternPart::card) {
      if (ui.spot(id, hit.rect, {ipa_of(take, hit.index), sound_name(take.track.segments[hit.index].sound), ""}, false, 3)) to(hit.index);
    } else if (hit.part == PatternPart::syllable) {
      const auto& s = p.pattern.syllables[hit.index];
      if (ui.spot(id, hit.rect, {}, false, 6) && !s.nucleus.empty()) to(s.onset.empty() ? s.nucleus.front().segment : s.onset.front().segment);
    } else if (const Clash& told = p.findings[hit.index].told; ui.spot(id, hit.rect, {told.title, told.text, "N, shift N"}, true, 5)) {
      session.view.finding = hit.index;
      loop_finding(session);
    }
  }
}

std::optional<std::size_t> pointed_at(const Ui& ui, const ShownPattern& p) {
  for (std::size_t i = 0; i < p.findings.size(); ++i)
    if (ui.is_hovered("finding-" + to_text(static_cast<int>(i)))) return i;
  return {};
}

// The chart is kept while nothing of what it shows changes: a sound is many pictures long.
struct Kept {
  std::shared_ptr<const Take> take;
  PatternView view;
  std::optional<std::size_t> sound;
  PatternPicture picture;
};
bool is_same(const PatternView& a, const PatternView& b) {
  return a.theme == b.theme && a.rect == b.rect && a.u == b.u && a.chosen == b.chosen && a.pointed == b.pointed && a.only == b.only && a.lane == b.lane && a.page == b.page &&
         a.nearer_to == b.nearer_to && a.strengths == b.strengths;
}
const PatternPicture& picture_of(const std::shared_ptr<const Take>& take, const PatternView& view) {
  static Kept kept; // one panel, one window
  const auto sound = sound_at(*take, *view.time);
  if (kept.take == take && kept.sound == sound && is_same(kept.view, view)) return kept.picture;
  kept = {take, view, sound, compose_pattern(*take, view)};
  return kept.picture;
}

void show_grid(Ui& ui, Session& session, const Layout& layout) {
  const double u = layout.u;
  ui.begin_sheet("score", layout.score, ui.theme->ground);
  ui.panel({0, 0, layout.score.width, layout.score.height});
  const ShownPattern& p = pattern_of(session.take);
  PatternView view;
  view.theme = ui.theme, view.u = u, view.pattern = &p;
  view.rect = {2 * u, 36 * u, layout.score.width - 4 * u, layout.score.height - 40 * u};
  view.time = session.view.time_s, view.nearer_to = session.pattern.nearer_to_s;
  view.chosen = session.view.finding, view.pointed = pointed_at(ui, p);
  view.only = session.view.spotlight, view.lane = session.view.pattern_lane;
  view.strengths = session.pattern.strengths;
  const auto pages = pattern_pages(*session.take, p.pattern, pattern_columns(view.rect.width, u));
  const std::size_t page = page_with(pages, column_at(*session.take, p.pattern, session.view.time_s).value_or(0));
  view.page = page;
  const PatternPicture& picture = picture_of(session.take, view);
  session.pattern.shown = picture.choice.shown;
  ui.canvas.add(picture.group);
  answer_pointing(ui, session, picture);
  draw_head(ui, session, layout, page, pages);
  ui.end_sheet();
}

} // namespace

void show_face_tabs(Ui& ui, Session& session, double u) {
  constexpr std::array<std::string_view, 2> words{"Moves", "Pattern"};
  if (const auto chosen = ui.tabs("face", {16 * u, 23 * u}, words, static_cast<int>(session.view.face), 15.5 * u, 24 * u)) session.view.face = static_cast<Face>(*chosen);
}

void show_pattern_screen(Ui& ui, Session& session, const Layout& usual) {
  const Layout layout = rearranged(usual);
  if (layout.fold != Fold::small) show_small_stage(ui, session, layout);
  show_grid(ui, session, layout);
  show_card(ui, session, layout);
}

} // namespace mw::app
