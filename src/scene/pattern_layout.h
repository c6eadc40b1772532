#pragma once

#include "scene/pattern_chart.h"

#include <array>

namespace mw {

/// One lane of cards: what lies above it (a bridge), the cards, what lies below (links).
struct PatternRow {
  double top = 0, cards = 0, card_height = 0, bottom = 0;
  [[nodiscard]] double foot() const { return cards + card_height; } // lower edge of the cards
};

/// A link of near twins: its label (flag and words), and how many labels hang above it.
struct LinkPlace {
  std::size_t finding = 0;
  Rect label{}; // y from the lower edge of the cards
  int level = 0;
};

/// Where "3 against 2" stands: free room beside the strips, or a line below them.
struct StepPlace {
  std::size_t finding = 0;
  double x = 0;
  int row = 0;          // of the strips; below all when it is their number
  double rows = 1;      // how many it takes
  bool worded = false;
};

/// Every place of one page of the pattern, in scene units. Rows are as high as what stands in them, and shrink together
/// where the panel is low; the key goes first, then everything shrinks.
struct PatternLayout {
  double u = 1;                 // of what is drawn; smaller than asked for in a very low panel
  double left = 0, right = 0, column = 0;
  PatternPage page;
  std::size_t count = 0;        // of all columns
  double words = 0;             // top of the row of words
  std::array<PatternRow, 3> rows{}; // by Slot
  double tongue = 0, lips = 0;  // middles of the arrows
  double strips = 0, strip_step = 0;
  std::vector<Slot> strip_slots{};
  std::vector<LinkPlace> links{};
  std::vector<StepPlace> steps{};
  double key = 0;               // middle; 0 = no key
  double glide_height = 40;     // room of an arrow
  /// Middle of a column; columns off the page go on in the same step.
  [[nodiscard]] double x(double column_index) const { return left + (column_index - static_cast<double>(page.first) + 0.5) * column; }
  [[nodiscard]] const PatternRow& row(Slot slot) const { return rows[static_cast<std::size_t>(slot)]; }
};
PatternLayout lay_out_pattern(const ShownPattern& pattern, const PatternChoice& choice, const PatternPage& page, const PatternView& view);

/// Height (u) of one page where nothing is squeezed, for a panel of this width.
double pattern_height(const ShownPattern& pattern, const PatternPage& page, double width, double u);

/// Words beside the flag of a link or a lane out of step.
const std::string& words_of(const Pattern& pattern, const PatternFinding& finding);

inline constexpr double pattern_text_u = 14; // of these words
inline constexpr double link_flag_u = 12;    // half side of a link's flag

} // namespace mw
