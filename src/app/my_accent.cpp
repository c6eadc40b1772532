#include "app/my_accent.h"

#include "accent/edit.h"
#include "accent/own.h"
#include "base/text.h"

#include <algorithm>
#include <ctime>

namespace mw::app {
namespace {

constexpr std::size_t most_steps = 500; // of undo: an evening's work

std::string clock_now() {
  const std::time_t now = std::time(nullptr);
  std::tm local{};
  localtime_r(&now, &local);
  const auto two = [](int n) { return (n < 10 ? "0" : "") + to_text(n); };
  return two(local.tm_hour) + ":" + two(local.tm_min);
}

/// "Southern British (SSBE)" -> "Southern British".
std::string plain_name(const std::string& name) { return name.substr(0, name.find(" (")); }

void look_anew(MyAccent& mine) {
  mine.past.clear(), mine.future.clear(), mine.gesture.clear(), mine.saved.clear(), mine.place.reset();
}

/// Reads what the request names; what stands in hand stays when it cannot be read.
void open_accent(MyAccent& mine, const std::string& id) {
  mine.asked = id;
  auto read = read_accent(id);
  mine.problem = read ? std::nullopt : std::optional(read.error());
  if (!read && !mine.id.empty()) return;
  if (!read) read = read_accent("GA"); // nothing in hand yet: something to begin from
  if (!read) return;
  mine.accent = std::move(*read), mine.id = mine.problem ? mine.accent.id : id;
  mine.own = !mine.problem && own_accent_file(id).has_value();
  const auto start = mine.accent.based_on.empty() ? Result<Accent>(mine.accent) : read_accent(mine.accent.based_on);
  mine.start = start ? *start : mine.accent;
  look_anew(mine);
}

/// Saves what is in hand; a problem is shown and the value stays in hand.
void save(Session& session, MyAccent& mine) {
  const auto saved = save_own_accent(mine.accent);
  mine.problem = saved ? std::nullopt : std::optional(saved.error());
  if (!saved) return;
  mine.saved = clock_now();
  mine.id = mine.asked = mine.accent.id;
  session.request.accent = mine.id;
  session.asks_again = session.asks_anew = true;
  const auto listed = [&](const AccentName& row) { return row.id == mine.id && row.name == mine.accent.name; };
  if (std::none_of(session.accents.begin(), session.accents.end(), listed)) session.accents = known_accents();
}

/// A shipped accent, or a file named by its path, is copied before it is changed.
void make_own(MyAccent& mine, Accent& next) {
  const std::string name = "Your " + plain_name(mine.accent.name);
  const Accent copy = copy_of(mine.accent, free_accent_id(name), name);
  mine.start = mine.accent;
  mine.accent = copy;
  next.id = copy.id, next.status = copy.status, next.based_on = copy.based_on;
  if (next.name == mine.start.name) next.name = name;
  mine.own = true;
}

} // namespace

MyAccent& my_accent(Session& session) {
  if (!session.my_accent) session.my_accent = std::make_shared<MyAccent>();
  MyAccent& mine = *session.my_accent;
  if (mine.asked != session.request.accent) open_accent(mine, session.request.accent);
  return mine;
}

std::vector<AccentName> known_accents() {
  std::vector<AccentName> out;
  if (auto shipped = list_accents()) out = std::move(*shipped);
  for (const OwnAccent& own : list_own_accents()) out.push_back(own.name);
  return out;
}

void commit(Session& session, Accent next, const std::string& gesture) {
  MyAccent& mine = my_accent(session);
  if (next == mine.accent) return;
  if (!mine.own) make_own(mine, next);
  if (gesture.empty() || gesture != mine.gesture) mine.past.push_back(mine.accent);
  if (mine.past.size() > most_steps) mine.past.erase(mine.past.begin());
  mine.gesture = gesture;
  mine.future.clear();
  mine.accent = std::move(next);
  save(session, mine);
}

void commit(Session& session, Result<Accent> next, const std::string& gesture) {
  if (next) commit(session, std::move(next).value(), gesture);
  else my_accent(session).problem = next.error();
}

namespace {
void step_in_time(Session& session, std::vector<Accent> MyAccent::*from, std::vector<Accent> MyAccent::*to) {
  MyAccent& mine = my_accent(session);
  if ((mine.*from).empty()) return;
  (mine.*to).push_back(mine.accent);
  mine.accent = std::move((mine.*from).back());
  (mine.*from).pop_back();
  mine.gesture.clear(), mine.place.reset();
  save(session, mine);
}
} // namespace

void undo(Session& session) { step_in_time(session, &MyAccent::past, &MyAccent::future); }
void redo(Session& session) { step_in_time(session, &MyAccent::future, &MyAccent::past); }

void open_accent_menu(Session& session, Rect under) {
  MyAccent& mine = my_accent(session);
  mine.menu_under = under;
  Menu menu{"my-accent", under, {}, -1, 0, 0};
  menu.rows.push_back({"a new one from\u2026", ""});
  menu.rows.push_back({"another name", ""});
  menu.rows.push_back({"go on in a copy", ""});
  if (!mine.past.empty()) menu.rows.push_back({"undo", "ctrl Z"});
  if (!mine.future.empty()) menu.rows.push_back({"redo", "ctrl Y"});
  if (mine.problem && last_good_accent(session.request.accent)) menu.rows.push_back({"take the last good state", ""});
  if (mine.own || own_accent_file(session.request.accent)) menu.rows.push_back({"move to the trash", ""});
  session.menu = std::move(menu);
}

namespace {
// The list of accents to begin from, where the menu stood.
void open_starts(Session& session) {
  Menu menu{"my-accent-from", session.my_accent->menu_under, {}, -1, 0, 0};
  for (const auto& accent : session.accents) {
    if (accent.id == session.request.accent) menu.at = static_cast<int>(menu.rows.size());
    menu.rows.push_back({accent.name, accent.status == "yours" ? "yours" : accent.id});
  }
  session.opens = std::move(menu);
}
} // namespace

void start_accent_from(Session& session, const std::string& id) {
  MyAccent& mine = my_accent(session);
  auto start = read_accent(id);
  if (!start) {
    mine.problem = start.error();
    return;
  }
  const std::string name = "Your " + plain_name(start->name);
  mine.start = *start;
  mine.accent = copy_of(*start, free_accent_id(name), name);
  mine.own = true, mine.problem.reset();
  look_anew(mine);
  save(session, mine);
  session.accents = known_accents();
  session.naming = Writing{mine.accent.name}; // its name at once
}

void choose_of_accent(Session& session, const std::string& row) {
  MyAccent& mine = my_accent(session);
  if (row == "undo") return undo(session);
  if (row == "redo") return redo(session);
  if (row == "a new one from\u2026") return open_starts(session);
  if (row == "another name") {
    session.naming = Writing{mine.accent.name};
    return;
  }
  if (row == "go on in a copy") {
    const std::string name = mine.own ? mine.accent.name + " 2" : "Your " + plain_name(mine.accent.name);
    const std::string based_on = mine.own ? mine.accent.based_on : mine.accent.id;
    mine.accent = copy_of(mine.accent, free_accent_id(name), name);
    if (!based_on.empty()) mine.accent.based_on = based_on; // the diamonds stay where they were
    mine.own = true;
    look_anew(mine);
    save(session, mine);
  } else if (row == "take the last good state") {
    if (auto good = last_good_accent(session.request.accent)) {
      mine.accent = std::move(*good), mine.own = true;
      look_anew(mine);
      save(session, mine);
      mine.asked.clear(); // read it as any other
    }
  } else if (row == "move to the trash") {
    const auto gone = discard_own_accent(session.request.accent);
    if (!gone) {
      mine.problem = gone.error();
      return;
    }
    session.request.accent = mine.own && !mine.accent.based_on.empty() ? mine.accent.based_on : "GA";
    session.asks_again = session.asks_anew = true;
  }
  session.accents = known_accents();
}

void choose_of_rule(Session& session, const std::string& rule, const std::string& value) {
  const MyAccent& mine = my_accent(session);
  commit(session, with_rule(mine.accent, rule, value, mine.start));
}

std::vector<LexicalSet> sets_said(const Session& session) {
  std::vector<LexicalSet> out;
  if (!session.take) return out;
  for (const Word& word : session.take->pronunciation.words)
    for (const Syllable& syllable : word.syllables)
      if (syllable.set && std::find(out.begin(), out.end(), *syllable.set) == out.end()) out.push_back(*syllable.set);
  return out;
}

void move_in_hand(Session& session, VowelPlace to, const std::string& gesture) {
  MyAccent& mine = my_accent(session);
  to.x = std::clamp(to.x, 0.0, 1.0), to.y = std::clamp(to.y, 0.0, 1.0);
  const Sound moved = moved_vowel(vowel_of(mine.accent, mine.set, mine.row), with_lips(to, lips_of(to)), mine.end);
  to = with_lips(to, lips_of(to));
  const auto& rows = mine.accent.contexts[static_cast<std::size_t>(mine.set)];
  commit(session, mine.row ? with_context_vowel(mine.accent, mine.set, rows[*mine.row].context, moved) : with_vowel(mine.accent, mine.set, moved), gesture);
  mine.place = to;
}

void let_go(Session& session) {
  MyAccent& mine = my_accent(session);
  // dropped on another set: they become one
  constexpr double reach = 0.03; // of the chart: nearer than the eye parts two points
  if (mine.dragging && !mine.row)
    if (const auto onto = set_under(mine.accent, mine.set, mine.accent.of(mine.set).vowel, reach))
      if (same_vowel(mine.accent.of(*onto).vowel, mine.accent.of(mine.set).vowel)) commit(session, with_merged(mine.accent, mine.set, *onto), mine.gesture);
  mine.gesture.clear(), mine.place.reset(), mine.dragging = mine.pressed = false;
}

} // namespace mw::app
