#pragma once

#include "app/view.h"
#include "take/take.h"

#include <vector>

namespace mw::app {

/// The stretch that is played and gone through: the sounds with a little room; not the silence before and after.
double start_of(const Take& take);
double end_of(const Take& take);

/// The view after so much wall time: playing, gliding steps, the rest at a loop's seam. Without loop, playing ends at the
/// end of the take.
View advance(View view, const Take& take, double wall_s);
/// Whether `advance` would change the view by itself.
bool is_moving(const View& view);
/// Reduced motion: playing goes by steps, one a second of wall time (visual design, section 9).
bool is_stepping(const View& view);

/// Play or pause; playing again from the very end starts over. With reduced motion the first press steps once a second, a
/// second one within half a second plays.
View toggle_play(View view, const Take& take);
/// To the next (1) or the last (-1) frame, sound or move; stops playing. Glides there.
View step(View view, const Take& take, int direction);
/// At once to a time within the take.
View go_to(View view, const Take& take, double time_s);
/// To the next (1) or the one before (-1) clash in order of time, round the ends; its text comes up. Of the strongest
/// `most` only.
View go_to_clash(View view, const Take& take, int direction, std::size_t most = static_cast<std::size_t>(-1));
/// This clash in hand, the time in its middle.
View take_in_hand(View view, const Take& take, std::size_t clash);
/// Loops a stretch with a little before and after, and plays, at 1/8 or slower.
View loop_stretch(View view, const Take& take, double start_s, double end_s);
/// Loops the clash in hand with a little before and after, and plays.
View loop_clash(View view, const Take& take);

/// The clash whose stretch holds the time; the strongest of several.
std::optional<std::size_t> clash_at(const Take& take, double time_s);
/// Times that "step by" stops at, ascending.
std::vector<double> stops(const Take& take, StepBy by);

} // namespace mw::app
