#pragma once

#include "scene/vowel_chart.h"

#include <string>

namespace mw {

// A coach's accent on the chart. A vowel is written with a letter of the IPA and its marks, so it stands at one of many
// places and not between them: `vowel_at` finds the nearest, `vowel_place` tells where it is.

/// The vowel of a set, or of one of its rows for special places.
const Sound& vowel_of(const Accent& accent, LexicalSet set, std::optional<std::size_t> row = {});
/// "before l": where such a row acts, in as few words as its name allows.
std::string place_of_row(std::string_view context);

/// How the lips are held, as R turns it.
enum class Lips { spread, half, round };
std::string_view to_words(Lips lips); // "lips spread or neutral", "lips a little rounded", "lips rounded"
Lips lips_of(VowelPlace place);
inline Lips next(Lips lips) { return lips == Lips::spread ? Lips::half : lips == Lips::half ? Lips::round : Lips::spread; }
/// The same place with other lips.
VowelPlace with_lips(VowelPlace place, Lips lips);

/// Letter with height, fronting and rounding marks for a place and its lips; no other marks. Never further from the
/// place than `vowel_grid` (chart widths and heights), and its lips are the ones asked for.
Sound vowel_at(VowelPlace place);
inline constexpr double vowel_grid = 0.2; // rounded, near the middle of the open edge; 0.1 elsewhere, 0.04 on average

/// The start (or end) of a set's vowel moved to a place; length, nasality and whatever else it carries stays.
Sound moved_vowel(const Sound& vowel, VowelPlace place, bool end);

/// "at o, a little lower": the letter and what its marks do, in words.
std::string place_words(const Sound& vowel, bool end = false);

/// The set that a vowel dropped here becomes one with: its start (and its end, when both glide) lies within `reach` of the
/// chart and its lips are the same; none otherwise.
std::optional<LexicalSet> set_under(const Accent& accent, LexicalSet moved, const Sound& vowel, double reach);

/// Which sets are shown.
enum class ChartFilter { all, short_vowels, long_vowels, glides, in_phrase };
bool shows(ChartFilter filter, const Accent& accent, LexicalSet set, const std::vector<LexicalSet>& in_phrase);

struct AccentChartView {
  const Theme* theme = nullptr;
  Rect rect{}; // of the chart with its letters
  double u = 1;
  const Accent* accent = nullptr;
  const Accent* start = nullptr; // open diamonds and dashes where it differs
  std::vector<LexicalSet> shown{};
  std::optional<LexicalSet> in_hand{};
  bool end_in_hand = false;           // the handle stands at the glide's end
  std::optional<std::size_t> row_in_hand{}; // the handle stands at this row of the set in hand for a special place
  std::optional<Vec2> pull{};         // where the pointer holds the handle
  bool tells = true;                  // place and lips of the handle in words
  std::optional<VowelPlace> now{};    // ring of the tongue now
};
struct AccentChart {
  std::vector<Mark> marks;
  ChartFrame frame;
  struct Point { LexicalSet set; bool end; Vec2 at; std::optional<std::size_t> row{}; };
  std::vector<Point> points; // of the sets shown, starts before ends; then the rows of the set in hand
  struct Name { LexicalSet set; Rect rect; };
  std::vector<Name> names;
};
AccentChart compose_accent_chart(const AccentChartView& view);

} // namespace mw
