#include "scene/pattern_layout.h"
#include "scene/signs.h"
#include "text/shaper.h"

#include <algorithm>
#include <cmath>

namespace mw {
namespace {

constexpr double caption_text_u = 14.5, caption_left_u = 60, caption_top_u = 26;

/// Height (u) of the words at the foot in a picture of this width (u).
double caption_height(const Clash& clash, double width_u) {
  const double width = std::max(width_u - caption_left_u - 14, 1.0), lead = text_width("Feel it: ", caption_text_u, true);
  const std::size_t lines = wrap_text(clash.text, caption_text_u, false, width).size() + wrap_text(clash.feel, caption_text_u, false, width - lead).size();
  return caption_top_u + 1.4 * caption_text_u * static_cast<double>(lines) + 8;
}

/// Columns a page, their heights (u), and the unit, that give the largest picture.
struct SheetPlan {
  double u = 0;
  std::vector<PatternPage> pages;
  std::vector<double> heights;
};
SheetPlan plan_sheet(const Take& take, const ShownPattern& shown, Rect room, bool caption) {
  SheetPlan best;
  const std::size_t n = std::max<std::size_t>(shown.pattern.syllables.size(), 1);
  for (std::size_t most = std::min<std::size_t>(n, 3); most <= std::min<std::size_t>(n, 12); ++most) {
    SheetPlan plan{0, pattern_pages(take, shown.pattern, most), {}};
    std::size_t widest = 1;
    for (const PatternPage& page : plan.pages) widest = std::max(widest, page.count());
    plan.u = room.width / (124 + 100.0 * static_cast<double>(widest));
    double sum = caption ? caption_height(shown.findings.front().told, room.width / plan.u) : 0;
    for (const PatternPage& page : plan.pages) plan.heights.push_back(pattern_height(shown, page, room.width, plan.u)), sum += plan.heights.back();
    plan.u = std::min(plan.u, room.height / sum);
    if (plan.u > best.u) best = std::move(plan);
  }
  return best;
}

/// Flag, kind and numbers, what happens, what to feel, over the whole width.
void draw_caption(Canvas& canvas, const Theme& theme, const Clash& clash, Rect r, double u) {
  const double x = r.x + caption_left_u * u, width = r.right() - x - 14 * u, size = caption_text_u * u;
  canvas.add(draw_flag(theme, clash.kind, clash.level, true, {r.x + 32 * u, r.y + 30 * u}, 17 * u));
  const double title = text_width(clash.title, 17 * u, true);
  canvas.fitted({"caption", {}}, {x, r.y + 20 * u}, clash.title, {17 * u, theme.ink, true}, width);
  if (width - title > 120 * u) canvas.fitted({"caption", {}}, {x + title + 12 * u, r.y + 20 * u}, clash.where, {13.5 * u, theme.quiet}, width - title - 12 * u);
  const double y = canvas.paragraph({"caption", {}}, {x, r.y + caption_top_u * u}, clash.text, {size, theme.ink}, width);
  const double lead = text_width("Feel it: ", size, true);
  canvas.text({"caption", {}}, {x, y + size}, "Feel it:", {size, theme.action, true});
  canvas.paragraph({"caption", {}}, {x + lead, y}, clash.feel, {size, theme.ink}, width - lead);
}

} // namespace

Scene compose_pattern_sheet(const Take& take, const PatternSheetView& view) {
  const Theme& theme = view.theme ? *view.theme : light_theme();
  Scene scene{view.width, view.height, theme.panel, {}};
  const ShownPattern shown = pattern_of(take);
  const double margin = std::min(view.width, view.height) * 0.014;
  const Rect room{margin, margin, view.width - 2 * margin, view.height - 2 * margin};
  const bool caption = view.captions && !shown.findings.empty();
  const SheetPlan plan = plan_sheet(take, shown, room, caption);
  const double foot = caption ? caption_height(shown.findings.front().told, room.width / plan.u) * plan.u : 0;
  double used = 0;
  for (const double height : plan.heights) used += height;
  const double spare = std::max((room.height - foot) / plan.u - used, 0.0) / static_cast<double>(std::max<std::size_t>(plan.pages.size(), 1));
  Canvas canvas;
  double y = room.y;
  for (std::size_t i = 0; i < plan.pages.size(); ++i) {
    PatternView page;
    page.theme = &theme, page.pattern = &shown, page.u = plan.u;
    page.rect = {room.x, y, room.width, plan.heights[i] * plan.u};
    page.columns = plan.pages[i];
    canvas.add(compose_pattern(take, page).group);
    y = page.rect.bottom() + spare * plan.u; // what is left parts the pages
  }
  if (caption) draw_caption(canvas, theme, shown.findings.front().told, {room.x, room.bottom() - foot, room.width, foot}, plan.u);
  scene.marks = std::move(canvas.marks);
  return scene;
}

} // namespace mw
