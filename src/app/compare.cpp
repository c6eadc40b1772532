#include "app/compare.h"

#include "app/playback.h"

#include <algorithm>

namespace mw::app {
namespace {

constexpr double around_s = 0.09; // before and after a looped place: its neighbours' moves, about half a sound each
constexpr int slowest_loop = 3;   // index into slow_divisors: an eighth

} // namespace

std::string own_accent(const Session& session) {
  const auto& target = session.take ? session.take->request.accent : session.request.accent;
  if (!session.request.learner.empty()) return session.request.learner;
  // an accent of one's own is set beside the one that it began as
  const std::string from = session.take && session.take->accent ? session.take->accent->based_on : "";
  if (!from.empty() && from != target) return from;
  return target == "GA" ? "SSBE" : "GA";
}

Request own_request(const Session& session) {
  Request request = session.take->request;
  request.accent = own_accent(session);
  request.learner.clear();
  return request;
}

void choose_learner(Session& session, const std::string& accent) {
  session.request.learner = accent;
  session.asks_again = true;
}

void swap_accents(Session& session) {
  const std::string own = own_accent(session);
  session.request.learner = session.request.accent;
  session.request.accent = own;
  session.asks_again = true;
}

void go_to_column(Session& session, std::size_t column) {
  session.view.playing = false;
  session.view = go_to(session.view, *session.take, moment_of_column(*session.compare->comparing, column));
}

void go_to_difference(Session& session, int direction) {
  const auto comparing = session.compare ? session.compare->comparing : nullptr;
  if (!comparing || !session.take) return;
  std::vector<std::size_t> places;
  for (std::size_t i = 0; i < comparing->columns.size(); ++i)
    if (change_at(*comparing, i) && (!comparing->columns[i].same || comparing->changes[*change_at(*comparing, i)].kind == Change::Kind::way)) places.push_back(i);
  if (places.empty()) return;
  const std::size_t now = column_at(comparing->columns, session.view.time_s).value_or(0);
  const auto after = direction > 0 ? std::upper_bound(places.begin(), places.end(), now) : std::lower_bound(places.begin(), places.end(), now);
  if (direction > 0) go_to_column(session, after == places.end() ? places.front() : *after);
  else go_to_column(session, after == places.begin() ? places.back() : *std::prev(after));
}

std::shared_ptr<const Comparing> comparing_now(Session& session) {
  if (!session.compare) session.compare = std::make_shared<CompareDesk>();
  CompareDesk& desk = *session.compare;
  const Request wanted = own_request(session);
  session.aside = wanted;
  if (!session.aside_take || !(session.aside_take->request == wanted)) return desk.comparing;
  if (desk.comparing && desk.comparing->target == session.take && desk.comparing->own == session.aside_take) return desk.comparing;
  const bool other_phrase = !desk.comparing || desk.comparing->target->request.phrase != session.take->request.phrase;
  desk.comparing = std::make_shared<const Comparing>(compare_takes(session.aside_take, session.take));
  desk.change.reset(), desk.page.reset();
  if (other_phrase) desk.first = 0, desk.all = false;
  return desk.comparing;
}

void open_learners(Session& session, Rect under) {
  Menu menu{"learner", under, {}, -1, 0, 0};
  const std::string own = own_accent(session);
  for (const auto& accent : session.accents) {
    if (accent.id == own) menu.chosen = menu.at = static_cast<int>(menu.rows.size());
    menu.rows.push_back({accent.name, accent.status == "yours" ? "yours" : accent.id});
  }
  session.menu = std::move(menu);
}

void loop_change(Session& session, std::size_t index) {
  CompareDesk& desk = *session.compare;
  const Comparing& c = *desk.comparing;
  const auto& columns = c.changes[index].columns;
  // chosen again, it goes on to its next place, round the end
  const bool again = desk.change == index && session.view.loop_span;
  const double after = again ? session.view.loop_span->first + around_s + 1e-6 : -1;
  const auto next = std::find_if(columns.begin(), columns.end(), [&](std::size_t i) { return c.columns[i].target_from_s > after; });
  const CompareColumn& at = c.columns[next == columns.end() ? columns.front() : *next];
  View& view = session.view;
  view.loop = true;
  view.slow = std::max(view.slow, slowest_loop);
  view.loop_span = std::pair{std::max(start_of(*session.take), at.target_from_s - around_s), std::min(end_of(*session.take), at.target_to_s + around_s)};
  view.time_s = view.loop_span->first;
  view.playing = false;
  view = toggle_play(view, *session.take);
  desk.change = index;
}

} // namespace mw::app
