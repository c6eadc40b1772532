#pragma once

#include "accent/accent.h"
#include "scene/canvas.h"
#include "scene/theme.h"
#include "take/take.h"

namespace mw {

/// A place in the IPA quadrilateral: x 0 front .. 1 back, y 0 close .. 1 open; rounding 0..1.
struct VowelPlace {
  double x = 0.5, y = 0.5, rounding = 0;
  bool operator==(const VowelPlace&) const = default;
};
/// Place of a vowel letter with its marks; none for consonants. `end` of a glide: its second vowel.
std::optional<VowelPlace> vowel_place(const Sound& sound, bool end = false);
/// Where the tongue of a pose lies among the vowels of the speaker's table: exact at each of them, smooth between.
std::optional<VowelPlace> tongue_place(const TargetTable& targets, const Pose& pose);

/// The quadrilateral: top 1, bottom 0.5, back edge upright.
struct ChartFrame {
  Rect rect{};
  [[nodiscard]] Vec2 at(VowelPlace p) const { return {rect.x + rect.width * (0.5 * p.y + p.x * (1 - 0.5 * p.y)), rect.y + rect.height * p.y}; }
  /// The place under a point, clamped to the chart.
  [[nodiscard]] VowelPlace place(Vec2 point) const;
};
std::vector<Mark> draw_chart_frame(const Theme& theme, const ChartFrame& frame, double u, bool letters);

/// One lexical set on the chart.
struct ChartSet {
  std::string label;
  VowelPlace start;
  std::optional<VowelPlace> end{};
  enum class Look { own, other, dragged, second } look = Look::own; // disc and line; open diamond and dashes, quiet; russet disc; russet diamond and dashes
  bool bold = true;
};
/// Marks of one set without its label: the arrow of a glide with the lips along it, and the point of its start.
std::vector<Mark> draw_chart_glide(const Theme& theme, const ChartFrame& frame, const ChartSet& set, double u);
std::vector<Mark> draw_chart_point(const Theme& theme, const ChartFrame& frame, const ChartSet& set, double u);
std::vector<Mark> draw_chart_set(const Theme& theme, const ChartFrame& frame, const ChartSet& set, double u);

/// Sets of the phrase in the take's accent, in order of first use, glides with their ends.
std::vector<ChartSet> sets_in_phrase(const Take& take);
/// All sets of an accent.
std::vector<ChartSet> sets_of(const Accent& accent, ChartSet::Look look = ChartSet::Look::own);

struct ChartPicture {
  Group group;
  ChartFrame frame;
  std::vector<std::pair<std::string, Rect>> points; // label, hit box of the start
};
struct ChartView {
  const Theme* theme = nullptr;
  Rect rect{};
  double u = 1;
  std::vector<ChartSet> sets{};
  std::optional<VowelPlace> now{}; // ring of the tongue now
  std::optional<VowelPlace> now_second{}; // the other accent's: a square on its corner
  bool letters = true;
  double label = 13.5, foot = 12;  // u: size of the labels; room for them below the frame
  bool join_pairs = false;         // a dotted line from a set of the second accent to the same set of one's own
};
ChartPicture compose_vowel_chart(const ChartView& view);

} // namespace mw
