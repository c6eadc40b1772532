#pragma once

#include "scene/canvas.h"
#include "scene/take_text.h"
#include "scene/theme.h"

#include <utility>

namespace mw {

struct ScoreView {
  const Theme* theme = nullptr;
  Rect rect{};
  double u = 1;
  std::optional<double> time{};        // draws the scrubber and marks the sound now; none on paper
  std::optional<std::size_t> lit{};    // index of the clash shown in full
  std::size_t most_clashes = static_cast<std::size_t>(-1); // the strongest, and the lit one
  std::vector<Articulator> lanes{Articulator::lips, Articulator::tip, Articulator::body, Articulator::root, Articulator::velum, Articulator::jaw, Articulator::glottis};
  double gutter = 112, word = 18, sound = 24, load = 16; // u; load 0 = no row
  bool words = true, flags = true, names = true, time_pill = true;
  std::optional<std::size_t> page{};   // of pages_of(take); none: the whole phrase
  std::size_t page_most = 24;
  std::vector<std::size_t> differing{}; // sounds on a `changed` fill (Compare)
};

/// Where things of the panel came to stand, for pointing.
struct ScorePicture {
  Group group;
  double from_s = 0, to_s = 0, left = 0, width = 0; // time axis
  std::vector<std::pair<std::size_t, Rect>> flags, sounds, words; // clash, segment, index of shown_words
  double lanes_top = 0, lane_height = 0;
  [[nodiscard]] double x_of(double t) const { return left + width * (t - from_s) / (to_s - from_s); }
  [[nodiscard]] double time_of(double x) const { return from_s + (to_s - from_s) * (x - left) / width; }
};
/// Words with stress bars, sounds, load, flags, lanes with intent (trapezoids) and outcome (lines), scrubber
/// (visual design, section 8).
ScorePicture compose_score_panel(const Take& take, const ScoreView& view);

/// Words, stress bars and sounds over a width: the phrase line of presenter, frames and sheets.
struct PhraseRowView {
  const Theme* theme = nullptr;
  Rect rect{};
  double word = 37, sound = 38, bar = 8, quiet_bar = 3; // sizes in scene units
  std::optional<double> time{};
  std::optional<std::size_t> lit{};
  double lit_opacity = 1;
  std::size_t first = 0, last = static_cast<std::size_t>(-1);
  double least_sound = 0.7; // sounds shrink to this share, then overlap is refused by cutting the page
};
ScorePicture compose_phrase_row(const Take& take, const PhraseRowView& view);

/// The whole phrase as stress bars with clash ticks, the page in view in a select box.
Group compose_overview(const Take& take, const Theme& theme, Rect rect, double u, std::optional<double> time, std::optional<std::size_t> page, std::size_t page_most = 24);

/// A carpenter's rule with three marks; its end frays because the value is a model's. `length` 0..1, see
/// Difficulty::bar_lengths.
std::vector<Mark> draw_bar(const Theme& theme, double length, Rect rect, double u);
/// The four bars with their names and words.
Group compose_bars(const Difficulty& difficulty, const Theme& theme, Rect rect, double u);

} // namespace mw
