#pragma once

#include "scene/pattern_layout.h"

namespace mw {

/// What the steps of the pattern's picture share.
struct PatternPen {
  const Take& take;
  const ShownPattern& shown;
  const PatternView& view;
  const Theme& theme;
  const PatternLayout& at;
  PatternPicture& picture;
  Canvas canvas{};
  std::optional<std::size_t> now_column{}, now_sound{};
  std::vector<std::size_t> lit{};     // sounds of the finding in hand
  std::vector<std::size_t> pointed{}; // sounds of the finding under the pointer
  std::vector<Rect> words{};          // where text stands: others keep off

  [[nodiscard]] const Pattern& pattern() const { return shown.pattern; }
  [[nodiscard]] double u() const { return at.u; }
  [[nodiscard]] double strength(std::size_t finding) const {
    const double faded = finding < view.strengths.size() ? view.strengths[finding] : 1;
    return view.pointed && *view.pointed != finding ? 0.45 * faded : faded;
  }
  void hit(PatternPart part, std::size_t index, Rect rect) { picture.hits.push_back({part, index, rect}); }
};

/// A piece of paper cut by hand: corners off by about a pixel, never rounded; the same for the same seed.
Path paper_path(Rect rect, double u, std::size_t seed);

/// Paper of an articulator's card and the colour of its edge and signs: its own, lightened or darkened to 3 to 1 where needed.
struct CardColours { Colour paper, sign; };
CardColours card_colours(const Theme& theme, Articulator articulator);

// In this order, back to front.
void draw_pattern_ground(PatternPen& pen);  // lanes and their names
void draw_pattern_words(PatternPen& pen);   // words and stress bars
void draw_pattern_marks(PatternPen& pen);   // bridges and links
void draw_pattern_cards(PatternPen& pen);   // cards, vowels, glides
void draw_pattern_flags(PatternPen& pen);   // flags of all of them, those that wait
void draw_pattern_strips(PatternPen& pen);  // what comes round; the sentence without a pattern
void draw_pattern_key(PatternPen& pen);

/// Where the middle of a slot's first card stands: the foot of a bridge, the end of a link.
double card_x(const PatternPen& pen, std::size_t column, Slot slot, std::size_t segment);

} // namespace mw
