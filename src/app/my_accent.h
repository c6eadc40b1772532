#pragma once

#include "app/session.h"
#include "app/ui.h"
#include "scene/accent_chart.h"
#include "score/posture.h"

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace mw::app {

/// The accent under the coach's hands: the value, where it began, every step back. Saved after each step.
struct MyAccent {
  std::string asked, id; // the request's accent when last looked at; the one that could be read
  Accent accent, start;  // start: what it is based on, else as it was when it was opened
  bool own = false;      // a file of the coach's; the first edit of a shipped accent makes one
  std::vector<Accent> past, future;
  std::string gesture;   // a drag that goes on: its steps are one for undo
  Vec2 grip{};           // from the point to where the pointer holds it
  bool pressed = false, dragging = false, again = false; // a point of the chart: held, moved; it was in hand before
  std::optional<Problem> problem; // of reading or saving
  std::string saved;              // "14:02", empty before the first time

  // what is looked at
  ChartFilter filter = ChartFilter::all;
  LexicalSet set = LexicalSet::GOAT;
  bool end = false;                // its glide's end
  std::optional<std::size_t> row;  // its row for a special place ("before l")
  std::optional<VowelPlace> place; // where hands hold it; a letter stands near it
  int face = 0;                    // folded: set, rules, posture
  bool all_rules = false;
  int first_rule = 0;
  Rect menu_under{};    // where its menu was opened, window pixels
  bool started = false; // the set in hand was chosen
  bool sources = false; // where the value in hand comes from is told

  // pictures of the set in hand
  std::shared_ptr<Tracer> tracer;
  std::vector<Sound> traced;
  std::vector<PostureShift> shifts;
  std::vector<Pose> poses;
  std::vector<Outline> outlines;
};

/// The accent being edited; made on the first call, follows the request.
MyAccent& my_accent(Session& session);

/// The next value in hand: kept for undo, saved, asked for anew. Steps of one gesture are one step back.
void commit(Session& session, Accent next, const std::string& gesture = {});
void commit(Session& session, Result<Accent> next, const std::string& gesture = {});
void undo(Session& session);
void redo(Session& session);
/// What the menu of the accent offers: another name, a copy, the trash, the last good state of a broken file.
void open_accent_menu(Session& session, Rect under);
void choose_of_accent(Session& session, const std::string& row);
/// A new accent of one's own that begins as this one, and its name to be written.
void start_accent_from(Session& session, const std::string& id);
/// A value of the rule whose menu was open.
void choose_of_rule(Session& session, const std::string& rule, const std::string& value);
/// The shipped accents, then the coach's.
std::vector<AccentName> known_accents();

/// What the set in hand does on an arrow or R; false when the key is not for it.
bool take_accent_key(Ui& ui, Session& session, const KeyPress& key);
/// R for the set in hand: spread, a little rounded, rounded.
void turn_lips(Session& session);
void set_lips(Session& session, Lips lips);
/// The set in hand moved to a place of the chart.
void move_in_hand(Session& session, VowelPlace to, const std::string& gesture);
void let_go(Session& session);
/// The sets of the phrase, in order of first use.
std::vector<LexicalSet> sets_said(const Session& session);

// ---- the parts of the view, each in a rectangle of the sheet
void draw_accent_head(Ui& ui, Session& session, const Layout& layout, Rect rect);
void draw_accent_chart(Ui& ui, Session& session, Vec2 sheet, Rect rect);
void draw_set_card(Ui& ui, Session& session, Vec2 sheet, Rect rect);
/// Where a value comes from and how sure it is, in words.
std::string told_source(const std::string& source, const std::string& status, const std::string& note);
/// What is wrong with the file, and the way back.
void draw_problem_card(Ui& ui, Session& session, Rect rect);
void draw_rules(Ui& ui, Session& session, const Layout& layout, Vec2 sheet, Rect rect);
void draw_posture(Ui& ui, Session& session, Rect rect);
/// The phrase at the start and as it is now, sound under sound; what differs is marked.
void draw_before_and_after(Ui& ui, Session& session, Rect rect);
void show_my_accent(Ui& ui, Session& session, const Layout& layout);

/// The name while it is written; true while another picture is needed.
bool show_name_field(Session& session, const Theme& theme, const Input& input, double u, double wall_s, int width, int height);

} // namespace mw::app
