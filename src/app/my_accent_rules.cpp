#include "app/my_accent.h"

#include "accent/channels.h"
#include "accent/edit.h"
#include "accent/rules.h"
#include "base/text.h"
#include "scene/signs.h"
#include "text/shaper.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace mw::app {
namespace {

/// The rules asked for first, in the words of a rehearsal; the rest follow in their own order and words.
struct Word { std::string_view rule, text; };
constexpr std::array first_rules{
    Word{"rhotic", "r said in \u2018fire\u2019"},   Word{"r_realisation", "r is"},                  Word{"l_quality", "l is"},
    Word{"FOOT_STRUT_split", "tell FOOT from STRUT"}, Word{"TRAP_BATH_split", "tell TRAP from BATH"}, Word{"t_flapping", "t tapped in \u2018kettle\u2019"},
    Word{"t_glottalling", "catch in the throat for t"}, Word{"h_dropping", "h dropped"},            Word{"linking_r", "linking r"},
    Word{"th_fronting", "th as f and v"},         Word{"COT_CAUGHT_merger", "LOT and THOUGHT as one"}, Word{"g_dropping", "-ing with n"}};

/// Every rule that a coach can choose, then those that are only told.
std::vector<Word> all_rules() {
  std::vector<Word> out(first_rules.begin(), first_rules.end());
  const auto first = [&](std::string_view rule) { return std::any_of(first_rules.begin(), first_rules.end(), [&](const Word& w) { return w.rule == rule; }); };
  for (const bool choosable : {true, false})
    for (const RuleName& rule : rule_names())
      if (!first(rule.name) && choices_of(rule.name).empty() != choosable) out.push_back({rule.name, rule.meaning});
  return out;
}

bool is_switch(const std::vector<std::string>& choices, std::string_view value) {
  return std::find(choices.begin(), choices.end(), "yes") != choices.end() && (value.empty() || value == "yes" || value == "no" || value == "variable");
}

void draw_switch(Ui& ui, Rect box, std::string_view value, bool lifted) {
  const Theme& theme = *ui.theme;
  const double u = ui.u, r = box.height / 2;
  const bool on = value == "yes", half = value == "variable";
  ui.canvas.box({"switch", ""}, box, r, on ? theme.action : theme.raised, on || lifted ? theme.action : theme.edge, (lifted ? 2.2 : 1.4) * u);
  const double x = on ? box.right() - r : half ? box.centre().x : box.x + r;
  ui.canvas.circle({}, {x, box.centre().y}, 7.5 * u, on ? theme.on_action : half ? theme.action : theme.edge);
  if (on) ui.canvas.add(draw_sign(Sign::tick, {box.x + 13 * u, box.centre().y}, 6 * u, theme.on_action));
  if (half) ui.canvas.text_middle({}, {box.right() - 7 * u, box.centre().y}, "~", {13 * u, theme.ink, true, Anchor::middle});
}

/// One row: a switch, or a field with the value; a small arrow where there are more than two answers.
void draw_rule(Ui& ui, Session& session, const Word& word, Vec2 sheet, Rect row) {
  MyAccent& mine = my_accent(session);
  const Theme& theme = *ui.theme;
  const double u = ui.u, y = row.centre().y;
  const RuleName& rule = *find_rule(word.rule);
  const auto choices = choices_of(word.rule);
  const std::string value(mine.accent.rule(word.rule)), id = "rule-" + std::string(word.rule);
  const bool changed = mine.start.rule(word.rule) != value;
  const auto stands = mine.accent.rules.find(word.rule);
  const std::string source = stands == mine.accent.rules.end() ? "" : " " + told_source(stands->second.source, stands->second.status, stands->second.note);
  const Tip tip{std::string(word.text), std::string(rule.meaning) + (value == "variable" ? "; follows careful to casual." : ".") + source, ""};
  const bool switches = is_switch(choices, value), many = choices.size() > 2 && !choices.empty();
  double right = row.right();
  const auto open_menu = [&](Rect under) {
    Menu menu{"rule", {under.x + sheet.x, under.y + sheet.y, under.width, under.height}, {}, -1, 0, 0, std::string(word.rule)};
    for (const std::string& choice : choices) {
      if (choice == value) menu.chosen = menu.at = static_cast<int>(menu.rows.size());
      menu.rows.push_back({choice, choice == mine.start.rule(word.rule) ? "at the start" : ""});
    }
    session.menu = std::move(menu);
  };
  if (many && switches) {
    const Rect arrow{right - 26 * u, y - 13 * u, 26 * u, 26 * u};
    if (ui.spot(id + "-more", arrow, {tip.name, "Yes, no, or variable: as casual as the speech", ""}, true, 7)) open_menu(arrow);
    ui.canvas.add(draw_sign(Sign::down, arrow.centre(), 7 * u, ui.is_hovered(id + "-more") ? theme.ink : theme.quiet));
    right = arrow.x;
  }
  if (switches) {
    const Rect box{row.x, y - 10.5 * u, 38 * u, 21 * u};
    const Rect hit{row.x - 2 * u, row.y, right - row.x, row.height};
    if (ui.spot(id, box, tip, true, 10) || (ui.spot(id + "-words", {box.right(), hit.y, hit.right() - box.right(), hit.height}, tip, false)))
      commit(session, with_rule(mine.accent, word.rule, value == "yes" ? "no" : "yes", mine.start));
    draw_switch(ui, box, value, ui.is_hovered(id) || ui.is_hovered(id + "-words"));
    ui.canvas.fitted({"rule", std::string(word.rule)}, {row.x + 48 * u, middle_baseline(y, 14.5 * u)}, word.text, {14.5 * u, changed ? theme.second : theme.ink, changed}, right - row.x - 52 * u);
    return;
  }
  if (choices.empty()) { // told only
    const std::string text = std::string(word.text) + (value.empty() ? "" : ": " + value);
    ui.spot(id, row, {tip.name, "Told only: it stands in the vowels, or nothing here acts on it", ""}, false);
    ui.canvas.fitted({"rule", std::string(word.rule)}, {row.x + 48 * u, middle_baseline(y, 14 * u)}, text, {14 * u, theme.quiet}, right - row.x - 52 * u);
    return;
  }
  const double name = std::min(text_width(word.text, 14.5 * u, changed) + 12 * u, (row.width) * 0.5);
  ui.canvas.fitted({"rule", std::string(word.rule)}, {row.x + 4 * u, middle_baseline(y, 14.5 * u)}, word.text, {14.5 * u, changed ? theme.second : theme.ink, changed}, name);
  const double width = std::min(row.width - name - 6 * u, 220 * u);
  const Rect field{row.right() - width, y - 14 * u, width, 28 * u};
  if (ui.drop_field(id, field, value.empty() ? "not said" : value, tip, false, 14 * u)) open_menu(field);
}

// Wheel, and Tab to a row that is out of sight.
void scroll_rules(Ui& ui, MyAccent& mine, const std::vector<Word>& rules, Rect rect, Vec2 sheet, int shown) {
  const Vec2 mouse = ui.input.mouse - sheet;
  const bool over = mouse.x >= rect.x && mouse.x < rect.right() && mouse.y >= rect.y && mouse.y < rect.bottom();
  if (over) mine.first_rule -= static_cast<int>(std::lround(ui.input.wheel * 2));
  for (int i = 0; i < static_cast<int>(rules.size()); ++i) {
    if (ui.focused() != "rule-" + std::string(rules[static_cast<std::size_t>(i)].rule) || !ui.shows_focus()) continue;
    if (i < mine.first_rule) mine.first_rule = i;
    if (i >= mine.first_rule + shown) mine.first_rule = i - shown + 1;
  }
  mine.first_rule = std::clamp(mine.first_rule, 0, std::max(0, static_cast<int>(rules.size()) - shown));
}

} // namespace

void draw_rules(Ui& ui, Session& session, const Layout& layout, Vec2 sheet, Rect r) {
  MyAccent& mine = my_accent(session);
  const Theme& theme = *ui.theme;
  const double u = ui.u;
  const bool folded = layout.fold != Fold::full; // under its tab: no title, and always the whole list
  const bool whole = folded || mine.all_rules;
  const double step = (whole ? 32 : 29.5) * u;
  ui.panel(r);
  if (!folded) ui.canvas.text({}, {r.x + 15 * u, r.y + 25 * u}, mine.all_rules ? "All rules" : "Rules", {15.5 * u, theme.ink, true});
  const double top = r.y + (folded ? 8 : 36) * u, foot = (folded ? 8 : 34) * u;
  const auto rules = all_rules();
  const int fits = std::max(1, static_cast<int>((r.bottom() - foot - top) / step));
  if (whole) scroll_rules(ui, mine, rules, r, sheet, fits);
  else mine.first_rule = 0;
  const int shown = std::min(fits, static_cast<int>(rules.size()));
  for (int i = 0; i < static_cast<int>(rules.size()); ++i) {
    const int at = i - mine.first_rule;
    const Word& word = rules[static_cast<std::size_t>(i)];
    if (at >= 0 && at < shown) draw_rule(ui, session, word, sheet, {r.x + 15 * u, top + at * step, r.width - (whole ? 40 : 26) * u, step});
    else if (whole) ui.spot("rule-" + std::string(word.rule), {-1e4, -1e4, 1, 1}, {}); // Tab brings it in
  }
  if (whole && shown < static_cast<int>(rules.size())) { // how far
    const double all = r.bottom() - foot - top, n = static_cast<double>(rules.size());
    ui.canvas.box({"scroll", ""}, {r.right() - 12 * u, top + all * mine.first_rule / n, 5 * u, all * shown / n}, 2.5 * u, theme.edge);
  }
  if (folded) return;
  const std::string label = mine.all_rules ? "Back to the vowel" : "All " + to_text(static_cast<int>(rules.size())) + " rules…";
  const Rect link{r.x + 9 * u, r.bottom() - 32 * u, text_width(label, 14 * u, true) + 12 * u, 26 * u};
  if (ui.spot("all-rules", link, {label, "", ""}, true, 6)) mine.all_rules = !mine.all_rules;
  ui.canvas.text_middle({}, {link.x + 6 * u, link.centre().y}, label, {14 * u, theme.action, true});
}

namespace {

struct Slider { std::string_view channel, name, low, high; Articulator articulator; };
// one channel for each part: the one that phoneticians name when they speak of a setting (Laver 1980)
constexpr std::array sliders{
    Slider{"jaw_opening_mm", "jaw", "close", "open", Articulator::jaw},
    Slider{"lip_rounding", "lips", "spread", "round", Articulator::lips},
    Slider{"tip_height_mm", "tip", "low", "high", Articulator::tip},
    Slider{"body_backness_mm", "tongue", "front", "back", Articulator::body},
    Slider{"velum_opening", "soft palate", "shut", "open", Articulator::velum},
    Slider{"larynx_height_mm", "voice box", "low", "high", Articulator::glottis}};

double shift_of(const Accent& accent, std::string_view channel) {
  const auto at = accent.posture.find(std::string(channel));
  return at == accent.posture.end() ? 0 : parse_number(at->second.value).value_or(0);
}

std::string source_of(const Accent& accent, std::string_view channel) {
  const auto at = accent.posture.find(std::string(channel));
  return at == accent.posture.end() ? "" : " " + told_source(at->second.source, at->second.status, at->second.note);
}

void draw_slider(Ui& ui, Session& session, const Slider& row, Rect r) {
  MyAccent& mine = my_accent(session);
  const Theme& theme = *ui.theme;
  const double u = ui.u, most = find_posture_channel(row.channel)->most;
  const std::string id = "posture-" + std::string(row.channel);
  const double now = shift_of(mine.accent, row.channel), before = shift_of(mine.start, row.channel);
  ui.canvas.add(draw_articulator(row.articulator, {r.x + 6 * u, r.y + 10 * u}, 6.5 * u, theme.of(row.articulator)));
  ui.canvas.text({}, {r.x + 22 * u, r.y + 15 * u}, row.name, {14.5 * u, now == before ? theme.ink : theme.second, now != before});
  ui.canvas.text({}, {r.right(), r.y + 15 * u}, std::string(row.low) + " – " + std::string(row.high), {13 * u, theme.quiet, false, Anchor::end});
  const double y = r.y + 27 * u, half = r.width / 2, middle = r.x + half;
  const auto at = [&](double shift) { return middle + half * shift / most; };
  ui.canvas.line({}, {r.x, y}, {r.right(), y}, theme.edge, 3 * u);
  ui.canvas.line({"rest", ""}, {middle, y - 6 * u}, {middle, y + 6 * u}, theme.edge, 1.6 * u);
  if (now != before) { // where it was
    const double s = 5 * u, x = at(before);
    ui.canvas.fill({}, line_path({Vec2{x, y - s}, Vec2{x + s, y}, Vec2{x, y + s}, Vec2{x - s, y}}, true), theme.panel);
    ui.canvas.stroke({}, line_path({Vec2{x, y - s}, Vec2{x + s, y}, Vec2{x, y + s}, Vec2{x - s, y}}, true), theme.edge, 1.8 * u);
  }
  const std::string unit = row.channel.ends_with("_mm") ? " mm" : "";
  ui.spot(id, {r.x - 9 * u, r.y + 17 * u, r.width + 18 * u, 20 * u}, {std::string(row.name), "Now " + to_text(now, 2) + unit + " from rest; arrows move it." + source_of(mine.accent, row.channel), ""}, true, 9);
  ui.canvas.circle({"slider", std::string(row.channel)}, {at(now), y}, 7.5 * u, now == before ? theme.action : theme.second, theme.panel, 2 * u);
  if (!ui.is_held(id)) return;
  if (ui.input.down) {
    const Spot* spot = ui.find(id);
    const double middle_x = spot->rect.centre().x, x = (ui.input.mouse.x - middle_x) / half * most;
    // near the tick it is at rest; else in fortieths of the way
    const double wanted = std::abs(x) < most * 0.03 ? 0 : std::round(x / most * 40) / 40 * most;
    if (ui.input.pressed || wanted != now) commit(session, with_posture(mine.accent, row.channel, wanted), "drag-" + id);
    ui.focus(id, false);
  }
  if (ui.input.released) my_accent(session).gesture.clear();
}

} // namespace

void draw_posture(Ui& ui, Session& session, Rect r) {
  const double u = ui.u;
  ui.panel(r);
  ui.canvas.text({}, {r.x + 15 * u, r.y + 25 * u}, "Posture", {15.5 * u, ui.theme->ink, true});
  ui.canvas.fitted({}, {r.x + 82 * u, r.y + 25 * u}, "where every move starts", {12.5 * u, ui.theme->quiet}, r.width - 96 * u);
  const double top = r.y + 34 * u, step = std::min(46 * u, (r.bottom() - top - 4 * u) / static_cast<double>(sliders.size()));
  for (std::size_t i = 0; i < sliders.size(); ++i) draw_slider(ui, session, sliders[i], {r.x + 16 * u, top + static_cast<double>(i) * step, r.width - 32 * u, step});
}

} // namespace mw::app
