#include "app/actions.h"
#include "app/correcting.h"
#include "app/panels.h"
#include "app/playback.h"

#include "base/text.h"
#include "scene/score_panel.h"
#include "text/shaper.h"

#include <algorithm>
#include <cmath>

namespace mw::app {
namespace {

// The panel without its scrubber, kept while only the time within one sound goes on.
struct Kept {
  std::shared_ptr<const Take> take; // held, so that no other can stand at its address
  ScoreView view;
  std::optional<std::size_t> sound;
  ScorePicture picture;
};

bool is_same(const Kept& kept, const std::shared_ptr<const Take>& take, const ScoreView& view, std::optional<std::size_t> sound) {
  return kept.take == take && kept.view.theme == view.theme && kept.view.rect == view.rect && kept.view.u == view.u &&
         kept.view.lit == view.lit && kept.view.most_clashes == view.most_clashes && kept.view.lanes == view.lanes && kept.sound == sound;
}

bool is_scrubber(const Mark& mark) {
  const auto role = std::visit([](const auto& m) { return m.mark.role; }, mark);
  return role == "scrubber" || role == "time";
}

const ScorePicture& picture_of(const std::shared_ptr<const Take>& take, const ScoreView& view) {
  static Kept kept; // one panel, one window
  const auto sound = sound_at(*take, *view.time);
  if (is_same(kept, take, view, sound)) return kept.picture;
  kept = {take, view, sound, compose_score_panel(*take, view)};
  std::erase_if(kept.picture.group.marks, is_scrubber);
  return kept.picture;
}

// On top of the panel: it moves while the panel stands still.
void draw_scrubber(Ui& ui, const Layout& layout, const ScorePicture& picture, double time_s, double panel_bottom) {
  const Theme& theme = *ui.theme;
  const double u = ui.u, x = layout.score.x + picture.x_of(time_s), top = layout.score.y + picture.lanes_top - 2 * u, bottom = layout.score.y + panel_bottom;
  ui.above.line({"scrubber", ""}, {x, top}, {x, bottom}, theme.panel, 4.6 * u);
  ui.above.line({"scrubber", ""}, {x, top}, {x, bottom}, theme.action, 2.2 * u);
  const Rect pill{x - 29 * u, bottom + u, 58 * u, 20 * u};
  ui.above.box({"time", ""}, pill, 10 * u, theme.action);
  // from the first sound on, as it is counted on the page
  const int hundredths = std::max(0, static_cast<int>(std::lround((time_s - lead_s) * 100)));
  const std::string cents = to_text(hundredths % 100);
  const std::string text = to_text(hundredths / 100) + "." + (cents.size() < 2 ? "0" : "") + cents + " s";
  ui.above.text_middle({"time", ""}, pill.centre(), text, {13 * u, theme.on_action, true, Anchor::middle});
}

// Lanes: all seven, or on a small screen those of the clash in hand.
std::vector<Articulator> lanes_of(const Session& session, const Layout& layout) {
  if (layout.fold != Fold::small || session.view.all_lanes) return ScoreView{}.lanes;
  std::vector<Articulator> out;
  const auto clash = shown_clash(session);
  for (const Articulator lane : ScoreView{}.lanes) {
    const auto& in_it = session.take->clashes;
    if (clash && std::count(in_it[*clash].articulators.begin(), in_it[*clash].articulators.end(), lane)) out.push_back(lane);
  }
  for (const Articulator lane : {Articulator::body, Articulator::tip, Articulator::lips})
    if (out.size() < 2 && !std::count(out.begin(), out.end(), lane)) out.insert(out.begin(), lane);
  return out;
}

ScoreView view_of(const Ui& ui, const Session& session, const Layout& layout) {
  const double u = layout.u, w = layout.score.width, h = layout.score.height;
  ScoreView view;
  view.theme = ui.theme, view.u = u;
  view.time = session.view.time_s;
  view.lit = session.glow.level > 0.5 ? session.glow.clash : std::nullopt;
  view.lanes = lanes_of(session, layout);
  view.most_clashes = clashes_in_view(session);
  if (layout.fold == Fold::full) view.rect = {4 * u, 35 * u, w - 10 * u, h - 60 * u};
  else if (layout.fold == Fold::middle) view.rect = {4 * u, 36 * u, w - 8 * u, h - 60 * u}, view.gutter = 108, view.load = 18, view.sound = 22;
  else view.rect = {4 * u, 4 * u, w - 10 * u, h - 30 * u}, view.gutter = view.lanes.size() > 2 ? 108 : 84, view.load = 0, view.sound = 22, view.word = 17;
  return view;
}

void draw_title(Ui& ui, Session& session, const Layout& layout) {
  const Theme& theme = *ui.theme;
  const double u = layout.u, w = layout.score.width;
  if (layout.fold == Fold::small) {
    // a word of the menu in the gutter
    if (ui.spot("face-Pattern", {8 * u, 8 * u, 76 * u, 28 * u}, {"Moves, or pattern", "Who moves when; or who moves in each place of the syllable", "V"})) act(session, Action::face);
    ui.canvas.text({}, {16 * u, 26 * u}, "Moves", {15 * u, ui.is_hovered("face-Pattern") ? theme.action : theme.ink, true});
    ui.canvas.add(draw_sign(Sign::down, {74 * u, 22 * u}, 7 * u, theme.quiet));
    const Rect more{12 * u, layout.score.height - 27 * u, 70 * u, 22 * u};
    if (ui.spot("all-lanes", more, {"Lanes", session.view.all_lanes ? "Only those of the clash" : "All seven", "A"})) act(session, Action::all_lanes);
    ui.canvas.text_middle({}, {more.x + 4 * u, more.centre().y}, session.view.all_lanes ? "fewer" : "all lanes", {12.5 * u, theme.action});
    return;
  }
  show_face_tabs(ui, session, u);
  ui.canvas.text({}, {w - 14 * u, 22 * u}, "who moves when", {13 * u, theme.quiet, false, Anchor::end});
  ui.canvas.line({}, {1, 33 * u}, {w - 1, 33 * u}, theme.rule, u);
}

// A word that was guessed, has several readings, or was corrected says so under it (visual design, section 10).
void mark_words(Ui& ui, Session& session, const Layout& layout, const ScorePicture& picture, double word_size) {
  const Theme& theme = *ui.theme;
  const double u = ui.u;
  for (const auto& [index, rect] : picture.words) {
    if (index >= session.take->pronunciation.words.size()) continue;
    const Word& word = session.take->pronunciation.words[index];
    const double y = rect.y + (1.12 * word_size + 3.5) * u; // between the letters and the stress bars
    const std::string id = "word-" + to_text(static_cast<int>(index));
    Tip tip;
    if (word.source == WordSource::guess) {
      ui.canvas.line({"guess", word.text}, {rect.x, y}, {rect.right(), y}, theme.second, 2 * u, {2 * u, 3.4 * u});
      ui.canvas.text({}, {rect.right() + 2 * u, rect.y + 7 * u}, "?", {11 * u, theme.second, true});
      tip = {"Guessed from its spelling", "Not in any word list I know: " + to_ipa(word) + ". Click to correct it.", std::string(key_of(Action::correct))};
    } else if (word.source == WordSource::correction) {
      ui.canvas.line({"correction", word.text}, {rect.x, y}, {rect.right(), y}, theme.action, 3 * u);
      tip = {"Your own reading", to_ipa(word), ""};
    } else if (!word.choices.empty()) {
      for (const double d : {-1.3, 1.3}) ui.canvas.line({"choice", word.text}, {rect.x, y + d * u}, {rect.right(), y + d * u}, theme.action, 1.3 * u);
      tip = {"It can be said in more than one way", "Said now: " + to_ipa(word) + ". Click to choose.", ""};
    } else tip = {word.text, "Click to say it another way.", std::string(key_of(Action::correct))};
    const bool marked = word.source == WordSource::guess || word.source == WordSource::correction || !word.choices.empty();
    if (ui.spot(id, rect, tip, marked, 4)) open_correcting(session, index, Rect{rect.x + layout.score.x, rect.y + layout.score.y, rect.width, rect.height});
    if (!marked && ui.is_hovered(id)) ui.canvas.line({}, {rect.x, y}, {rect.right(), y}, theme.edge, 1.2 * u);
  }
}

// Before the flags: all of them, or the three that matter.
void show_how_many(Ui& ui, Session& session, const ScorePicture& picture, const ScoreView& view) {
  const std::size_t all = session.take->clashes.size();
  if (picture.flags.empty() || view.gutter < 100 || all <= 3) return;
  const double u = ui.u, size = 12.5 * u, x = view.rect.x + 10 * u, y = picture.flags.front().second.centre().y;
  const std::string text = session.view.all_clashes ? "top 3" : "all " + to_text(static_cast<int>(all));
  const Tip tip{"Clashes", session.view.all_clashes ? "Only the three that matter most" : "All of them, not only the three that matter most", "shift A"};
  if (ui.spot("all-clashes", {x - 4 * u, y - 11 * u, text_width(text, size) + 8 * u, 22 * u}, tip, true, 5)) act(session, Action::all_clashes);
  ui.canvas.text_middle({"all-clashes", ""}, {x, y}, text, {size, ui.is_hovered("all-clashes") ? ui.theme->ink : ui.theme->action});
}

void answer_pointing(Ui& ui, Session& session, const ScorePicture& picture, const ScoreView& view) {
  const Take& take = *session.take;
  const double u = ui.u;
  // lanes: press and draw
  const Rect lanes{picture.left - 6 * u, picture.lanes_top, picture.width + 12 * u, view.rect.bottom() + 20 * u - picture.lanes_top};
  ui.spot("scrub", lanes, {}, false);
  if (ui.is_held("scrub") && ui.input.down) {
    session.view.playing = false;
    session.view = go_to(session.view, take, picture.time_of(ui.input.mouse.x - ui.find("scrub")->rect.x + lanes.x));
    session.view.clash = clash_at(take, session.view.time_s);
  }
  for (const auto& [index, rect] : picture.sounds)
    if (ui.spot("sound-" + to_text(static_cast<int>(index)), rect, {ipa_of(take, index), sound_name(take.track.segments[index].sound), ""}, false, 5)) {
      session.view.playing = false;
      session.view = go_to(session.view, take, moment_of(take, index));
    }
  for (const auto& [index, rect] : picture.flags) {
    const Clash& clash = take.clashes[index];
    if (ui.spot("flag-" + to_text(static_cast<int>(index)), rect, {clash.title, clash.text, "N, shift N"}, true, 5)) {
      session.view = loop_clash(take_in_hand(session.view, take, index), take);
    }
  }
}

} // namespace

void show_score(Ui& ui, Session& session, const Layout& layout) {
  ui.begin_sheet("score", layout.score, ui.theme->ground);
  ui.panel({0, 0, layout.score.width, layout.score.height});
  const ScoreView view = view_of(ui, session, layout);
  const ScorePicture& picture = picture_of(session.take, view);
  ui.canvas.add(picture.group);
  mark_words(ui, session, layout, picture, view.word);
  answer_pointing(ui, session, picture, view);
  show_how_many(ui, session, picture, view);
  draw_scrubber(ui, layout, picture, session.view.time_s, view.rect.bottom());
  draw_title(ui, session, layout);
  ui.end_sheet();
}

} // namespace mw::app
