#include "app/my_accent.h"

#include "accent/edit.h"
#include "base/text.h"
#include "motion/motion.h"
#include "scene/take_text.h"

#include <SDL_keycode.h>

#include <algorithm>
#include <tuple>

namespace mw::app {
namespace {

constexpr double arrow_step = 1.0 / 40, fine_step = 1.0 / 200; // of the chart (visual design, section 6)

using Point = AccentChart::Point;

std::string id_of(const Point& p) {
  return "set-" + std::string(to_keyword(p.set)) + (p.row ? "-" + to_text(static_cast<int>(*p.row)) : "") + (p.end ? "-end" : "");
}

/// The point that a widget's id stands for; its place is not known.
std::optional<Point> point_of(const std::string& id) {
  const auto parts = split(id, '-');
  if (parts.size() < 2 || parts.front() != "set") return {};
  const auto set = parse_keyword(parts[1]);
  if (!set) return {};
  Point out{*set, parts.back() == "end", {}};
  if (parts.size() > 2)
    if (const auto row = parse_number(parts[2])) out.row = static_cast<std::size_t>(*row);
  return out;
}

Point in_hand(const MyAccent& mine) { return {mine.set, mine.end, {}, mine.row}; }
bool is_one(const Point& a, const Point& b) { return a.set == b.set && a.end == b.end && a.row == b.row; }

void take_in_hand(MyAccent& mine, const Point& point) {
  if (mine.started && is_one(in_hand(mine), point)) return;
  mine.set = point.set, mine.end = point.end, mine.row = point.row, mine.started = true;
  mine.place.reset(), mine.gesture.clear();
}

VowelPlace place_in_hand(const MyAccent& mine) {
  return mine.place.value_or(vowel_place(vowel_of(mine.accent, mine.set, mine.row), mine.end).value_or(VowelPlace{}));
}

/// The points that lie under the one that is held, in the order in which a click goes through them.
std::vector<AccentChart::Point> points_under(const Ui& ui, const Session& session, const AccentChart& chart) {
  const auto held = std::find_if(chart.points.begin(), chart.points.end(), [&](const auto& p) { return ui.is_held(id_of(p)); });
  std::vector<AccentChart::Point> out;
  if (held == chart.points.end()) return out;
  for (const auto& point : chart.points)
    if (glm::distance(point.at, held->at) < 10 * ui.u) out.push_back(point); // also those that stand side by side
  // starts before ends, what the phrase holds before the rest, glides before vowels that stay
  const auto said = sets_said(session);
  const auto rank = [&](const AccentChart::Point& p) { return std::tuple(p.row, p.end, std::find(said.begin(), said.end(), p.set) == said.end(), !is_glide(session.my_accent->accent.of(p.set).vowel), p.set); };
  std::sort(out.begin(), out.end(), [&](const auto& a, const auto& b) { return rank(a) < rank(b); });
  return out;
}

// A press takes the set in hand (of several at one point the one that was in hand already), a drag moves it, letting go
// ends the step; a click on what was in hand goes on to the next at that point.
void press(Ui& ui, const Session& session, MyAccent& mine, const AccentChart& chart, Vec2 at) {
  mine.grip = {};
  const auto name = std::find_if(chart.names.begin(), chart.names.end(), [&](const auto& n) { return ui.is_held("name-" + std::string(to_keyword(n.set))); });
  if (name != chart.names.end()) { // by its name: where points lie together this says which
    take_in_hand(mine, {name->set, false, {}});
    mine.pressed = true, mine.again = false;
    mine.grip = at - chart.frame.at(place_in_hand(mine));
    ui.focus(id_of(in_hand(mine)), false);
    return;
  }
  const auto under = points_under(ui, session, chart);
  if (under.empty()) return;
  auto chosen = std::find_if(under.begin(), under.end(), [&](const Point& p) { return is_one(p, in_hand(mine)); });
  mine.again = chosen != under.end();
  if (chosen == under.end()) chosen = std::find_if(under.begin(), under.end(), [&](const Point& p) { return p.set == mine.set; });
  if (chosen == under.end()) chosen = under.begin();
  take_in_hand(mine, *chosen);
  mine.pressed = true;
  ui.focus(id_of(in_hand(mine)), false);
}

void release(Ui& ui, Session& session, MyAccent& mine, const AccentChart& chart) {
  if (!mine.dragging && mine.again) {
    const auto under = points_under(ui, session, chart);
    const auto here = std::find_if(under.begin(), under.end(), [&](const Point& p) { return is_one(p, in_hand(mine)); });
    if (here != under.end() && under.size() > 1) {
      const auto next = here + 1 == under.end() ? under.begin() : here + 1;
      take_in_hand(mine, *next);
      ui.focus(id_of(in_hand(mine)), false);
    }
  }
  let_go(session);
}

void follow_pointer(Ui& ui, Session& session, const AccentChart& chart, Vec2 sheet) {
  MyAccent& mine = my_accent(session);
  if (ui.input.pressed) press(ui, session, mine, chart, ui.input.mouse - sheet);
  if (!mine.pressed) return;
  const Vec2 at = ui.input.mouse - sheet - mine.grip;
  const VowelPlace now = place_in_hand(mine);
  // a click is not a drag: the hand must go somewhere first
  if (ui.input.down && !ui.input.pressed && (mine.dragging || glm::distance(at, chart.frame.at(now)) > 7 * ui.u)) {
    const VowelPlace to = chart.frame.place(at);
    move_in_hand(session, with_lips(to, lips_of(now)), "drag-" + id_of(in_hand(mine)));
    mine.dragging = true;
  }
  if (ui.input.released || !ui.input.down) release(ui, session, mine, chart);
}

std::vector<LexicalSet> shown_sets(const Session& session, const MyAccent& mine) {
  std::vector<LexicalSet> out;
  const auto said = sets_said(session);
  for (int i = 0; i < lexical_set_count; ++i)
    if (const auto set = static_cast<LexicalSet>(i); shows(mine.filter, mine.accent, set, said)) out.push_back(set);
  return out;
}

} // namespace

void turn_lips(Session& session) {
  const VowelPlace now = place_in_hand(my_accent(session));
  move_in_hand(session, with_lips(now, next(lips_of(now))), {});
}

void set_lips(Session& session, Lips lips) { move_in_hand(session, with_lips(place_in_hand(my_accent(session)), lips), {}); }

bool take_accent_key(Ui& ui, Session& session, const KeyPress& key) {
  MyAccent& mine = my_accent(session);
  if (key.control && key.code == SDLK_z) return key.shift ? redo(session) : undo(session), true;
  if (key.control && key.code == SDLK_y) return redo(session), true;
  if (key.control || key.alt) return false;
  const Vec2 way{static_cast<double>((key.code == SDLK_RIGHT) - (key.code == SDLK_LEFT)), static_cast<double>((key.code == SDLK_DOWN) - (key.code == SDLK_UP))};
  if (ui.focused().starts_with("posture-") && way.x != 0) {
    const std::string channel = ui.focused().substr(8);
    const auto at = mine.accent.posture.find(channel);
    const double now = at == mine.accent.posture.end() ? 0 : parse_number(at->second.value).value_or(0);
    const double most = (*with_posture(mine.accent, channel, 1e9).transform([&](const Accent& a) { return parse_number(a.posture.at(channel).value).value_or(1); }));
    commit(session, with_posture(mine.accent, channel, now + way.x * 2 * most * (key.shift ? fine_step : arrow_step)));
    return true;
  }
  if (!point_of(ui.focused())) return false;
  if (key.code == SDLK_ESCAPE) return ui.focus("", false), true;
  if (key.code == SDLK_r) return turn_lips(session), true;
  if (way.x == 0 && way.y == 0) return false;
  VowelPlace to = place_in_hand(mine);
  const Lips lips = lips_of(to);
  const double step = key.shift ? fine_step : arrow_step;
  to.x = std::clamp(to.x + way.x * step, 0.0, 1.0), to.y = std::clamp(to.y + way.y * step, 0.0, 1.0);
  move_in_hand(session, with_lips(to, lips), {});
  return true;
}

void draw_accent_chart(Ui& ui, Session& session, Vec2 sheet, Rect rect) {
  MyAccent& mine = my_accent(session);
  const double u = ui.u;
  if (!mine.started) { // the phrase's own first
    const auto said = sets_said(session);
    mine.set = said.empty() ? LexicalSet::GOAT : said.front(), mine.started = true;
  }
  if (const auto focused = point_of(ui.focused()); focused && ui.shows_focus()) take_in_hand(mine, *focused);
  AccentChartView view;
  view.theme = ui.theme, view.u = u, view.rect = rect;
  view.accent = &mine.accent, view.start = &mine.start;
  view.shown = shown_sets(session, mine);
  if (std::find(view.shown.begin(), view.shown.end(), mine.set) == view.shown.end()) view.shown.push_back(mine.set);
  view.tells = mine.pressed || mine.place || point_of(ui.focused());
  if (mine.row && *mine.row >= mine.accent.contexts[static_cast<std::size_t>(mine.set)].size()) mine.row.reset();
  view.in_hand = mine.set, view.row_in_hand = mine.row, view.end_in_hand = mine.end && is_glide(vowel_of(mine.accent, mine.set, mine.row));
  mine.end = view.end_in_hand;
  if (session.take && session.view.playing) { // the tongue now
    const auto sound = sound_at(*session.take, session.view.time_s);
    if (sound && is_vowel(session.take->track.segments[*sound].sound)) view.now = tongue_place(*session.take->targets, pose_at(session.take->motion, session.view.time_s));
  }
  AccentChart chart = compose_accent_chart(view);
  if (mine.place) view.pull = chart.frame.at(*mine.place), chart = compose_accent_chart(view);
  for (const auto& point : chart.points) {
    const bool hand = is_one(point, in_hand(mine));
    const Vec2 at = hand && view.pull ? *view.pull : point.at;
    const auto& rows = mine.accent.contexts[static_cast<std::size_t>(point.set)];
    const std::string name = std::string(to_keyword(point.set)) + (point.row ? " " + rows[*point.row].context : ""), id = id_of(point);
    ui.spot(id, {at.x - 13 * u, at.y - 13 * u, 26 * u, 26 * u}, {name, std::string(point.end ? "Where its glide ends: drag it" : "Drag it, or the arrow keys"), "R"}, true, 13);
    if (ui.is_hovered(id) && !hand) ui.canvas.circle({"near", name}, at, 10 * u, clear, ui.theme->second, 2 * u);
  }
  for (const auto& name : chart.names) {
    const std::string word(to_keyword(name.set));
    ui.spot("name-" + word, name.rect, {word, "Click to take it in hand, or drag it", ""}, false);
    if (ui.is_hovered("name-" + word)) ui.canvas.line({"near", word}, {name.rect.x, name.rect.bottom()}, {name.rect.right(), name.rect.bottom()}, ui.theme->second, 1.6 * u);
  }
  ui.canvas.add(std::move(chart.marks));
  follow_pointer(ui, session, chart, sheet);
}

} // namespace mw::app
