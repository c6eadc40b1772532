#pragma once

#include "take/take.h"

#include <optional>
#include <utility>
#include <vector>

namespace mw {

/// The stretches of time that a clash speaks of, in order: all of it where two moves meet, the sounds alone (with all that
/// stands in their place of the syllable) where they lie apart. Seconds of the take.
std::vector<std::pair<double, double>> clash_spans(const Take& take, const Clash& clash);

/// What a clash lights on the mouth: clashes of one part may not make it go off and on. 8 when it has no part.
int lit_part(const Clash& clash);

/// A clash that is lit, seconds of wall time from the start of the take; fading in from `on_s`, fading out from `off_s`.
struct LitSpan {
  std::size_t clash = 0;
  double on_s = 0, off_s = 0;
  bool goes_on = false; // the next one takes over the same part: no fade between
  bool came_on = false;
};
inline constexpr double lit_fade_on_s = 0.15, lit_hold_s = 0.35, lit_fade_off_s = 0.25, lit_calm_s = 1.0; // visual design, section 9

/// Who is lit when, in order of time, one at a time: strongest first (`first` before all), what concerns the order of the
/// whole phrase last. Each on its own sounds where playing is slow enough (wall time = take time x slow), else steadily over
/// them; never shorter than its fade and 350 ms; no part goes off and on within a second. What has no room stays unlit.
std::vector<LitSpan> lighting(const Take& take, double slow, std::optional<std::size_t> first = {});

/// The clash that is lit at a time of the take, with its fade.
struct Lit {
  std::size_t clash = 0;
  double opacity = 1;
};
std::optional<Lit> lit_at(const std::vector<LitSpan>& spans, double wall_s);
/// The same for pictures: lighting and lit_at.
std::optional<Lit> lit_clash(const Take& take, double t, double slow = 1);
/// For a picture that stands by itself: the first of `lighting`'s order that speaks of this moment, in full; nothing fades.
std::optional<Lit> lit_still(const Take& take, double t);

} // namespace mw
