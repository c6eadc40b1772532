#include "app/layout.h"

#include <algorithm>
#include <cmath>

namespace mw::app {
namespace {

double unit(double width, double height, double text_scale) {
  const double fits = std::clamp(std::min(width / 1280, height / 720), 1.0, 2.5);
  return (height < 640 ? 0.95 : fits) * std::clamp(text_scale, 0.85, 1.5);
}

Rect rounded(Rect r) {
  const double x = std::round(r.x), y = std::round(r.y);
  return {x, y, std::round(r.right()) - x, std::round(r.bottom()) - y};
}

// 1280 x 720 and its multiples: mouth left, score above, why and vowels below.
void full(Layout& out, double w, double h) {
  const double u = out.u, gap = 10 * u, bar = 52 * u, foot = 58 * u, low = 248 * u;
  const double y = bar + gap, height = h - bar - foot - 2 * gap, left = std::round(w * 0.43);
  const double x = left + gap, width = w - x - gap;
  out.top = {0, 0, w, bar};
  out.transport = {0, h - foot, w, foot};
  out.stage = {gap, y, left - gap, height};
  out.score = {x, y, width, height - low - gap};
  const double why = (width - gap) * 0.585;
  out.why = {x, y + height - low, why, low};
  out.vowels = {x + why + gap, y + height - low, width - why - gap, low};
}

// Two columns; vowels behind a tab beside Why, the shelf below the mouth.
void middle(Layout& out, double w, double h) {
  const double u = out.u, gap = 9 * u, bar = 46 * u, foot = 56 * u, low = 270 * u;
  const double y = bar + gap, height = h - bar - foot - 2 * gap, left = std::round(w * 0.43);
  out.top = {0, 0, w, bar};
  out.transport = {0, h - foot, w, foot};
  out.stage = {gap, y, left, height};
  const double x = 2 * gap + left, width = w - x - gap;
  out.score = {x, y, width, height - low - gap};
  out.why = {x, y + height - low, width, low};
}

// Mouth and cards above, the score along the foot.
void small(Layout& out, double w, double h) {
  const double u = out.u, gap = 8 * u, bar = 46 * u, foot = 52 * u, score = 186 * u;
  const double y = bar + gap, height = h - bar - foot - score - 3 * gap, left = std::round(w * 0.5375);
  out.top = {0, 0, w, bar};
  out.transport = {0, h - foot, w, foot};
  out.stage = {gap, y, left, height};
  out.why = {2 * gap + left, y, w - left - 3 * gap, height};
  out.score = {gap, y + height + gap, w - 2 * gap, score};
}

} // namespace

Layout lay_out(int width, int height, double text_scale) {
  Layout out;
  const double w = std::max(width, 640), h = std::max(height, 480);
  out.u = unit(w, h, text_scale);
  out.whole = {0, 0, w, h};
  if (w / out.u >= 1180 && h / out.u >= 640) out.fold = Fold::full, full(out, w, h);
  else if (w / out.u >= 940 && h / out.u >= 660) out.fold = Fold::middle, middle(out, w, h);
  else out.fold = Fold::small, small(out, w, h);
  for (Rect Layout::*rect : {&Layout::top, &Layout::stage, &Layout::score, &Layout::why, &Layout::vowels, &Layout::transport})
    out.*rect = rounded(out.*rect);
  return out;
}

} // namespace mw::app
