#include "app/pattern_play.h"

#include "app/playback.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace mw::app {
namespace {

constexpr double calm_s = 1.0; // visual design, section 9

const ShownPattern& pattern_of(const Session& session) { return app::pattern_of(session.take); }

/// The clash of the take that tells of the same sounds; the finding may be merged with others of its kind there.
std::optional<std::size_t> clash_of(const Take& take, const Clash& told) {
  std::optional<std::size_t> best;
  std::size_t most = 0;
  for (std::size_t i = 0; i < take.clashes.size(); ++i) {
    const Clash& c = take.clashes[i];
    if (c.kind != told.kind) continue;
    const auto shared = static_cast<std::size_t>(std::count_if(told.segments.begin(), told.segments.end(), [&](std::size_t s) { return std::count(c.segments.begin(), c.segments.end(), s) > 0; }));
    if (shared > most) most = shared, best = i;
  }
  return best;
}

/// First sound of a slot, else of the vowel of its column.
std::size_t sound_in(const PatternSyllable& s, Slot slot) {
  const auto& cards = s.at(slot).empty() ? s.nucleus : s.at(slot);
  return cards.empty() ? 0 : cards.front().segment;
}

void go_to_card(Session& session, std::size_t column) {
  session.view.playing = false;
  session.view = go_to(session.view, *session.take, moment_of(*session.take, sound_in(pattern_of(session).pattern.syllables[column], session.view.pattern_lane)));
}

} // namespace

const ShownPattern& pattern_of(const std::shared_ptr<const Take>& take) {
  static std::shared_ptr<const Take> kept; // held, so that no other can stand at its address
  static ShownPattern pattern;
  if (kept != take) kept = take, pattern = mw::pattern_of(*take);
  return pattern;
}

bool shows_pattern(const Session& session) {
  return session.take && session.view.face == Face::pattern && session.view.screen == Screen::mouth && !session.view.presenting;
}

std::optional<std::size_t> shown_finding(const Session& session) {
  if (!session.take) return {};
  const std::size_t n = pattern_of(session).findings.size();
  if (n == 0) return {};
  return session.view.finding && *session.view.finding < n ? *session.view.finding : 0;
}

void take_finding(Session& session, std::size_t finding) {
  const ShownPattern& p = pattern_of(session);
  if (finding >= p.findings.size()) return;
  const Clash& told = p.findings[finding].told;
  View& view = session.view;
  view.playing = false;
  view.loop_span.reset();
  view = go_to(view, *session.take, moment_of(*session.take, told.segments.front()));
  view.finding = finding;
  view.clash = clash_of(*session.take, told);
}

void go_to_finding(Session& session, int direction) {
  const auto n = static_cast<int>(pattern_of(session).findings.size());
  if (n == 0) return;
  const int at = session.view.finding ? static_cast<int>(*session.view.finding) + direction : direction > 0 ? 0 : n - 1;
  take_finding(session, static_cast<std::size_t>((at + n) % n));
}

void loop_finding(Session& session) {
  const auto finding = shown_finding(session);
  if (!finding) return;
  take_finding(session, *finding);
  const Clash& told = pattern_of(session).findings[*finding].told;
  session.view = loop_stretch(session.view, *session.take, told.start_s, told.end_s);
}

void go_by_syllable(Session& session, int direction) {
  const auto& columns = pattern_of(session).pattern.syllables;
  if (columns.empty()) return;
  const auto here = column_at(*session.take, pattern_of(session).pattern, session.view.time_s).value_or(0);
  const auto last = static_cast<int>(columns.size()) - 1;
  go_to_card(session, static_cast<std::size_t>(std::clamp(static_cast<int>(here) + direction, 0, last)));
}

void go_by_lane(Session& session, int direction) {
  const int lane = static_cast<int>(session.view.pattern_lane) + direction;
  session.view.pattern_lane = static_cast<Slot>(std::clamp(lane, 0, 2));
  if (pattern_of(session).pattern.syllables.empty()) return;
  go_to_card(session, column_at(*session.take, pattern_of(session).pattern, session.view.time_s).value_or(0));
}

bool is_settling(const Session& session) {
  if (!shows_pattern(session)) return false;
  const PatternMemory& m = session.pattern;
  const bool fades = std::any_of(m.shown.begin(), m.shown.end(), [&](std::size_t i) { return i >= m.strengths.size() || m.strengths[i] < 1; });
  return fades || (!session.view.playing && m.nearer_to_s != session.view.time_s);
}

void follow_pattern(Session& session, double wall_s, bool at_once) {
  if (!shows_pattern(session)) return;
  PatternMemory& m = session.pattern;
  m.settled_s += wall_s;
  if (!session.view.playing && m.nearer_to_s != session.view.time_s && (m.settled_s >= calm_s || at_once)) m.nearer_to_s = session.view.time_s, m.settled_s = 0;
  std::vector<double> next(pattern_of(session).findings.size(), 0.0);
  for (const std::size_t i : m.shown)
    if (i < next.size()) next[i] = at_once ? 1 : std::min(1.0, (i < m.strengths.size() ? m.strengths[i] : 0.0) + wall_s / glow_in_s);
  m.strengths = std::move(next);
}

} // namespace mw::app
