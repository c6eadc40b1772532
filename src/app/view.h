#pragma once

#include "anatomy/pose.h"
#include "segments/track.h"

#include <array>
#include <optional>
#include <string>
#include <utility>

namespace mw::app {

enum class StepBy { frame, sound, move };
inline constexpr std::array<std::string_view, 3> step_words{"frame", "sound", "move"};

/// The views of the top bar; which there are stands in `screens()`.
enum class Screen { mouth, compare, my_accent };

/// The two faces of the score panel.
enum class Face { moves, pattern };

/// Which card of the lower band is in front where there is room for one.
enum class Card { why, vowels, sides };

/// Speeds of playing, as parts of true speed.
inline constexpr std::array<int, 6> slow_divisors{1, 2, 4, 8, 16, 32};
inline constexpr std::array<std::string_view, 6> slow_words{"1", "1/2", "1/4", "1/8", "1/16", "1/32"};

/// A step on its way through the poses between.
struct Glide { double from = 0, to = 0, done_s = 0; bool operator==(const Glide&) const = default; };

/// What is shown and how; plain data, changed by keys and buttons, never by the take.
struct View {
  double time_s = 0; // in the take
  bool playing = false;
  int slow = 3;      // index into slow_divisors
  StepBy step_by = StepBy::sound;
  bool loop = true;
  std::optional<std::pair<double, double>> loop_span; // the stretch that loops; none: the whole phrase
  double seam_s = 0;                                  // wall time left to rest at a loop's end
  std::optional<Glide> glide;
  bool calm = false;                                  // reduced motion: no fades, no glides, playing is a step a second
  bool calm_plays = false;                            // play was pressed twice: it plays all the same
  double until_step_s = 0, since_play_s = 1e9;        // wall time, of calm playing
  std::optional<std::size_t> clash; // in hand: its text stands in the card
  Screen screen = Screen::mouth;
  Face face = Face::moves;
  std::optional<std::size_t> finding; // of the pattern, in hand
  bool slips = false;                 // likely slips are drawn as a second outline
  bool all_clashes = false;           // not only the three that matter
  Slot pattern_lane = Slot::onset;    // where the arrow keys are in the pattern
  std::string theme = "light";
  bool mirrored = false, labels = false, covered = false, presenting = false, blank = false, all_lanes = false;
  std::optional<Articulator> spotlight;
  bool full_screen = false; // asked for by hand; presenting has the whole screen as well
  Card card = Card::why;
  bool key_sheet = false;
  bool operator==(const View&) const = default;
};

} // namespace mw::app
