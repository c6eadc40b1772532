#pragma once

#include "scene/stage.h"

#include <string>

namespace mw {

enum class Paper { a4, letter, a3 };
/// Width and height in pt, upright.
Vec2 paper_size(Paper paper);

struct SheetView {
  const Theme* theme = nullptr; // print when none
  Paper paper = Paper::a4;
  std::string source;           // "from ..., scene 2"; may be empty
};
/// A handout of one phrase: key moments, where it catches, who moves when, practice, caution (visual design, section 11).
/// Phrases over 24 sounds run on to further pages with the rest of their score.
std::vector<Scene> compose_sheet(const Take& take, Tracer& tracer, const SheetView& view);

enum class ChartPart { all, consonants, vowels, other };
struct WallChartView {
  const Theme* theme = nullptr; // print when none
  double width = 1190.55, height = 841.89; // A3 across, pt
  ChartPart part = ChartPart::all;
};
/// The whole IPA chart, each cell a small section of the mouth (visual practice, the wall chart).
Scene compose_wall_chart(Tracer& tracer, const TargetTable& targets, const WallChartView& view);

} // namespace mw
