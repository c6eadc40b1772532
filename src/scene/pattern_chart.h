#pragma once

#include "scene/canvas.h"
#include "scene/pattern_findings.h"
#include "scene/theme.h"

#include <optional>
#include <vector>

namespace mw {

/// A place of the pattern that answers to pointing: a card (index: segment), a finding drawn in full or waiting (index of
/// the findings), a strip (index of the finding it belongs to), a syllable (column).
enum class PatternPart { card, finding, waiting, syllable };
struct PatternHit {
  PatternPart part = PatternPart::card;
  std::size_t index = 0;
  Rect rect{};
  bool operator==(const PatternHit&) const = default;
};

struct PatternView {
  const Theme* theme = nullptr;
  Rect rect{};
  double u = 1;
  double gutter = 112;                     // u; names of the lanes
  const ShownPattern* pattern = nullptr;   // of this take; found anew when none
  std::optional<double> time{};            // marks the syllable and the card now
  std::optional<double> nearer_to{};       // of two findings the one nearer to this time goes first; `time` when none
  std::optional<std::size_t> chosen{};     // finding that stands before all others, its sounds lit
  std::optional<std::size_t> pointed{};    // finding under the pointer: other cards at 45 %
  std::optional<Articulator> only{};       // cards of this articulator alone
  std::optional<Slot> lane{};              // where the arrow keys are: its name is bold in the action colour
  std::optional<std::size_t> page{};       // of as many columns as fit; none: all columns
  std::optional<PatternPage> columns{};    // these columns, whatever the page
  std::vector<double> strengths{};         // of each finding, 0..1, for fades; none: 1
  bool key = true;                         // the foot, where it fits
};

struct PatternPicture {
  Group group;
  std::vector<PatternHit> hits; // later ones lie on top
  PatternChoice choice;
};
/// Who moves in each place of the syllable: columns are syllables, lanes are start, vowel, end; what is exchanged, almost
/// the same, opposed, or comes round at another pace is drawn over them (visual design of the practice views, section 5).
/// An empty take gives an empty picture.
PatternPicture compose_pattern(const Take& take, const PatternView& view);
/// As many columns as keep their width in a panel of this width.
std::size_t pattern_columns(double width, double u, double gutter = 112);

struct PatternSheetView {
  double width = 1280, height = 720;
  const Theme* theme = nullptr;
  bool captions = true; // the strongest finding in words
};
/// The pattern as a picture of its own, for handouts: pages under one another, the strongest finding in words at the foot.
Scene compose_pattern_sheet(const Take& take, const PatternSheetView& view);

} // namespace mw
