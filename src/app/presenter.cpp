#include "app/panels.h"

#include "scene/score_panel.h"
#include "scene/stage.h"
#include "scene/take_text.h"
#include "text/shaper.h"

#include <algorithm>

namespace mw::app {
namespace {

// Sizes are shares of the height (visual design, sections 3 and 6): h is a 768th of it.
struct Wall {
  double h, top, foot, stage;
  Rect whole;
};
Wall wall_of(const Layout& layout) {
  const double h = layout.whole.height / 768;
  return {h, 132 * h, 128 * h, std::min(658 * h, layout.whole.width * 0.64), layout.whole};
}

// The page of a long phrase that holds the sound now.
Page page_now(const Take& take, std::optional<std::size_t> sound) {
  for (const Page& page : pages_of(take))
    if (sound && *sound >= page.first && *sound <= page.last) return page;
  return {0, take.track.segments.empty() ? 0 : take.track.segments.size() - 1};
}

void show_line(Ui& ui, Session& session, const Wall& s) {
  const Theme& theme = *ui.theme;
  const Rect rect{0, 0, s.whole.width, s.top};
  ui.begin_sheet("line", rect, theme.ground);
  PhraseRowView view;
  view.theme = &theme, view.time = session.view.time_s;
  view.rect = {20 * s.h, 8 * s.h, rect.width - 40 * s.h, rect.height - 12 * s.h};
  view.word = 37 * s.h, view.sound = 38 * s.h, view.bar = 8 * s.h, view.quiet_bar = 3 * s.h;
  if (session.glow.clash && session.glow.level > 0) view.lit = session.glow.clash, view.lit_opacity = session.glow.level;
  const Page page = page_now(*session.take, sound_at(*session.take, session.view.time_s));
  view.first = page.first, view.last = page.last;
  const auto picture = compose_phrase_row(*session.take, view);
  ui.canvas.add(picture.group);
  for (const auto& [index, place] : picture.sounds)
    if (ui.spot("sound-" + std::to_string(index), place, {}, false)) session.view.time_s = moment_of(*session.take, index), session.view.playing = false;
  ui.end_sheet();
}

void show_large_stage(Ui& ui, Session& session, const Wall& s) {
  const Theme& theme = *ui.theme;
  const Rect rect{0, s.top, s.stage, s.whole.height - s.top - s.foot};
  ui.begin_sheet("stage", rect, theme.panel);
  StageView view;
  view.theme = &theme, view.u = s.h, view.line_scale = 1.9;
  view.framing = Framing::presenter;
  view.rect = {8 * s.h, 4 * s.h, rect.width - 38 * s.h, rect.height + 36 * s.h};
  view.mirrored = session.view.mirrored;
  view.sound_now = view.shelf = view.peephole = false;
  view.band_depth_mm = 11, view.tag_size = 29, view.arrow_u = 1.55 * s.h;
  view.labels = session.view.labels ? Labelling::three : Labelling::none;
  view.label_size = 27.5; // its terms 1/30 of the height
  view.spotlight = session.fades.part, view.spotlight_strength = session.fades.spotlight;
  if (session.slip_glow.clash && session.slip_glow.level > 0) view.slip = Lit{*session.slip_glow.clash, session.slip_glow.level};
  if (session.glow.clash && session.glow.level > 0) {
    view.lit = Lit{*session.glow.clash, session.glow.level};
    // what pulls stands out, the rest is veiled
    const auto& parts = session.take->clashes[*session.glow.clash].articulators;
    if (!view.spotlight && parts.size() == 1) view.spotlight = parts.front(), view.spotlight_strength = session.glow.level;
  }
  if (session.view.spotlight || !session.glow.clash) view.air->drift_mm = session.drift_mm;
  else view.air.reset();
  if (session.view.covered) ui.canvas.text_middle({"cover", ""}, {rect.width / 2, rect.height / 2}, "covered: say it, then look", {28 * s.h, theme.quiet, false, Anchor::middle});
  else {
    Group clipped;
    clipped.clip = rounded_rectangle({0, 0}, {rect.width, rect.height}, 0);
    clipped.marks.emplace_back(compose_stage(*session.take, tracer_of(session), session.view.time_s, view).group);
    ui.canvas.add(std::move(clipped));
  }
  ui.end_sheet();
}

// Flag and kind, the sounds that pull, what happens, what to feel; nothing smaller than a 30th of the height.
void write_clash(Ui& ui, const Take& take, const Clash& clash, const Wall& s, double x, double width, double bottom) {
  const Theme& theme = *ui.theme;
  const double h = s.h;
  double y = 22 * h;
  ui.canvas.add(draw_flag(theme, clash.kind, clash.level, true, {x + 38 * h, y + 36 * h}, 36 * h));
  ui.canvas.fitted({"kind", ""}, {x + 90 * h, y + 50 * h}, learner_name(clash.kind), {46 * h, theme.ink, true}, width - 90 * h, 0.6);
  y += 96 * h;
  double tag = x;
  for (const std::size_t i : clash.segments) {
    if (i >= take.track.segments.size() || tag + 52 * h > x + width) break;
    ui.canvas.box({"tag", ""}, {tag, y, 52 * h, 52 * h}, 11 * h, theme.raised, clash_edge(theme), 2.6 * h);
    const std::string ipa = ipa_of(take, i);
    ui.canvas.text_middle({}, {tag + 26 * h, y + 26 * h}, ipa, {fitting_size(ipa, 36 * h, true, 46 * h, 0.5), theme.ink, true, Anchor::middle});
    tag += 64 * h;
  }
  // Feel it is never cut: what happens gives way, first in size, then in lines; 1/30 of the height at least
  y += 57 * h;
  const std::string feel = sentence(clash.feel);
  const auto lines_of = [&](const std::string& text, double size) { return static_cast<double>(wrap_text(text, size, false, width).size()); };
  const auto spare = [&](double size) { return (bottom - y - 44 * h - 1.4 * size * lines_of(feel, size)) / (1.4 * size); };
  const double size = std::min(5.0, lines_of(clash.text, 27 * h)) <= spare(27 * h) ? 27 * h : 25.6 * h;
  y = ui.canvas.paragraph({"what", ""}, {x, y}, clash.text, {size, theme.ink}, width, static_cast<int>(std::clamp(spare(size), 2.0, 5.0)));
  y += 8 * h;
  ui.canvas.line({}, {x, y}, {x + width, y}, theme.rule, 2 * h);
  ui.canvas.text({}, {x, y + 32 * h}, "Feel it", {27 * h, theme.action, true});
  ui.canvas.paragraph({"feel", ""}, {x, y + 40 * h}, feel, {size, theme.ink}, width);
}

void show_words(Ui& ui, Session& session, const Wall& s) {
  const Theme& theme = *ui.theme;
  const Take& take = *session.take;
  const Rect rect{s.stage, s.top, s.whole.width - s.stage, s.whole.height - s.top - s.foot};
  ui.begin_sheet("words", rect, theme.panel);
  const double x = 0, width = rect.width - 24 * s.h;
  const auto sound = sound_at(take, session.view.time_s);
  if (session.glow.clash && session.glow.level > 0.5) write_clash(ui, take, take.clashes[*session.glow.clash], s, x, width, rect.height);
  else if (sound) {
    const std::string ipa = ipa_of(take, *sound);
    ui.canvas.text({"sound", ""}, {x, 190 * s.h}, ipa, {fitting_size(ipa, 153 * s.h, true, width, 0.4), theme.ink, true});
    ui.canvas.paragraph({"sound-name", ""}, {x, 236 * s.h}, sound_name(take.track.segments[*sound].sound), {28 * s.h, theme.ink}, width, 4);
  }
  ui.end_sheet();
}

// Only the lanes of the clash; without one, those that move most are not guessed at: tip and back.
void show_lanes(Ui& ui, Session& session, const Wall& s) {
  const Theme& theme = *ui.theme;
  const Take& take = *session.take;
  const Rect rect{0, s.whole.height - s.foot, s.whole.width, s.foot};
  ui.begin_sheet("lanes", rect, theme.ground);
  ScoreView view;
  view.theme = &theme, view.u = 1.86 * s.h; // lane names at 1/30 of the height
  view.rect = {20 * s.h, 4 * s.h, rect.width - 30 * s.h, rect.height - 14 * s.h};
  view.gutter = 70, view.load = 0, view.sound = 1, view.words = view.flags = view.time_pill = false;
  view.time = session.view.time_s;
  view.lanes.clear();
  const auto clash = session.glow.clash ? session.glow.clash : shown_clash(session);
  if (clash) {
    view.lit = session.glow.clash;
    for (const Articulator lane : take.clashes[*clash].articulators)
      if (lane != Articulator::larynx) view.lanes.push_back(lane); // no lane of its own
  }
  if (view.lanes.size() > 3) view.lanes.resize(3);
  for (const auto lane : {Articulator::tip, Articulator::body})
    if (view.lanes.size() < 2 && !std::count(view.lanes.begin(), view.lanes.end(), lane)) view.lanes.push_back(lane);
  // the sounds stand above already: only the lanes of the panel are kept
  const auto picture = compose_score_panel(take, view);
  const double up = picture.lanes_top - 14 * s.h;
  view.rect.y -= up, view.rect.height += up;
  Group lanes;
  lanes.clip = rounded_rectangle({0, 11 * s.h}, {rect.width, rect.height - 11 * s.h}, 0);
  lanes.marks.emplace_back(compose_score_panel(take, view).group);
  std::erase_if(std::get<Group>(lanes.marks.back()).marks, [](const Mark& mark) {
    const auto* text = std::get_if<Text>(&mark);
    return text && text->text == "sounds"; // the name of the row that is left out
  });
  ui.canvas.add(std::move(lanes));
  ui.end_sheet();
}

} // namespace

void show_presenter(Ui& ui, Session& session, const Layout& layout) {
  const Wall s = wall_of(layout);
  show_line(ui, session, s);
  show_large_stage(ui, session, s);
  show_words(ui, session, s);
  show_lanes(ui, session, s);
}

void show_blank(Ui& ui, const Session& session, const Layout& layout) {
  if (session.fades.blank > 0)
    ui.above.fill({"blank", ""}, rounded_rectangle({0, 0}, {layout.whole.width, layout.whole.height}, 0), with_alpha(ui.theme->ground, session.fades.blank));
}

} // namespace mw::app
