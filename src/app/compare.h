#pragma once

#include "app/session.h"
#include "app/ui.h"
#include "scene/compare_view.h"

namespace mw::app {

/// What the Compare view keeps between pictures.
struct CompareDesk {
  std::shared_ptr<const Comparing> comparing; // of the last two takes that fit
  std::optional<std::size_t> change;          // in hand: looped and lit
  bool all = false;                           // the list stands in place of the chart
  std::size_t first = 0;                      // of the list
  bool chart = false;                         // on a small screen: the chart, else the list
  std::optional<std::size_t> page, paged_at;  // turned by hand, until the sound now changes
};

/// Compare: two stages, both charts, what changes, two rows of sounds.
void show_compare_screen(Ui& ui, Session& session, const Layout& layout);
/// The same from the back row: both mouths, both rows of sounds, what changes now; no buttons.
void show_compare_presenter(Ui& ui, Session& session, const Layout& layout);
/// The pair of takes that fits what is asked for, the last pair until then; none before the first is made.
std::shared_ptr<const Comparing> comparing_now(Session& session);
/// The list of accents for the learner, under a rectangle of the window.
void open_learners(Session& session, Rect under);

/// The accent on the own side: the request's learner; without one, what an accent of one's own is based on, else an accent
/// other than the target's.
std::string own_accent(const Session& session);
/// The request of the own side: the take's in that accent.
Request own_request(const Session& session);
void choose_learner(Session& session, const std::string& accent);
/// The learner's accent becomes the target and the other way round.
void swap_accents(Session& session);

/// To the moment that shows a column, paused.
void go_to_column(Session& session, std::size_t column);
/// To the next (1) or the last (-1) place that differs, round the ends, paused.
void go_to_difference(Session& session, int direction);
/// Loops the places of a change at an eighth of true speed or slower.
void loop_change(Session& session, std::size_t change);

} // namespace mw::app
