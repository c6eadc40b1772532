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
  view.glide.reset();
  view.seam_s = 0;
  view.playing = true;
  desk.change = index;
}

} // namespace mw::app
