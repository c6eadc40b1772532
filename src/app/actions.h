#pragma once

#include "app/input.h"
#include "app/session.h"

#include <span>
#include <string_view>

namespace mw::app {

/// What keys and buttons can do.
enum class Action {
  none, play, step_on, step_back, start, end, next_clash, last_clash, loop, loop_clash, slower, faster, step_by, mirror, dark, labels, cover, present,
  blank, key_sheet, phrase, leave, spot_none, spot_lips, spot_tip, spot_body, spot_root, spot_velum, spot_jaw, spot_glottis, all_lanes, face, lane_up, lane_down, slips, all_clashes, speaker, calm, full_screen, correct, undo, swap, learner, quit
};

/// Where a key means something: everywhere, or in one view only. The last ones are told in the table and read by the view.
enum class KeyPlace { anywhere, compare, my_accent };
std::string_view to_title(KeyPlace place); // of its part of the F1 table

/// One row per key: everything about it. `label` is what is printed on it.
struct KeyRow {
  int code;
  bool shift, control;
  Action action;
  std::string_view label, does;
  bool listed = true; // in the F1 table
  KeyPlace place = KeyPlace::anywhere;
};
std::span<const KeyRow> key_rows();
/// The key of an action as tips print it; empty when it has none.
std::string_view key_of(Action action);
/// The row a key press means while a view is shown; none.
const KeyRow* find_key(const KeyPress& key, Screen screen = Screen::mouth);

/// Does it. Actions that need a take do nothing without one.
void act(Session& session, Action action);

} // namespace mw::app
