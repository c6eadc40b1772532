#include "scene/accent_picture.h"

#include "base/text.h"
#include "text/shaper.h"

#include <algorithm>

namespace mw {

std::string short_name(const Accent& accent) {
  const std::string name = accent.name.substr(0, accent.name.find(" ("));
  return name.empty() ? accent.id : name;
}

std::vector<ChartSet> differing_sets(const Accent& accent, const Accent& other) {
  const auto own = sets_of(accent);
  auto second = sets_of(other, ChartSet::Look::second);
  std::erase_if(second, [&](const ChartSet& set) {
    const auto same = std::find_if(own.begin(), own.end(), [&](const ChartSet& o) { return o.label == set.label; });
    return same != own.end() && same->start == set.start && same->end == set.end;
  });
  for (ChartSet& set : second) set.bold = false;
  return second;
}

std::vector<Mark> draw_side_mark(const Theme& theme, ChartSet::Look look, Vec2 centre, double s) {
  Canvas canvas;
  if (look == ChartSet::Look::own) canvas.circle({"side", "own"}, centre, s, theme.action);
  else {
    const double r = 1.15 * s;
    const Path diamond = line_path({centre + Vec2{0, -r}, centre + Vec2{r, 0}, centre + Vec2{0, r}, centre + Vec2{-r, 0}}, true);
    canvas.fill({"side", "second"}, diamond, theme.panel);
    canvas.stroke({"side", "second"}, diamond, theme.second, 0.36 * s);
  }
  return std::move(canvas.marks);
}

Scene compose_accent_picture(const Accent& accent, const Accent* other, const AccentPictureView& view) {
  const Theme& theme = view.theme ? *view.theme : light_theme();
  const double u = std::min(view.width / 1100, view.height / 720), margin = 26 * u;
  Canvas canvas;
  // title, and what the marks mean
  const double names = other ? 0.5 * view.width : view.width - 2 * margin;
  canvas.fitted({"title", {}}, {margin, margin + 20 * u}, "Vowels of " + accent.name, {24 * u, theme.ink, true}, names, 0.6);
  if (other) {
    double y = margin + 6 * u;
    for (const auto& [look, text] : {std::pair{ChartSet::Look::own, accent.name}, std::pair{ChartSet::Look::second, other->name + ", where it differs"}}) {
      canvas.add(draw_side_mark(theme, look, {0.56 * view.width, y}, 6 * u));
      canvas.fitted({"legend", {}}, {0.56 * view.width + 16 * u, middle_baseline(y, 14 * u)}, text, {14 * u, theme.ink}, 0.44 * view.width - margin - 16 * u, 0.7);
      y += 22 * u;
    }
  }
  // the chart
  ChartView chart;
  chart.theme = &theme, chart.u = u, chart.join_pairs = true, chart.foot = 36;
  chart.rect = {margin, margin + 52 * u, view.width - 2 * margin, view.height - 2 * margin - 76 * u};
  const double wide = chart.rect.height * 1.75; // the quadrilateral keeps its form on a wide picture
  if (chart.rect.width > wide) chart.rect.x += (chart.rect.width - wide) / 2, chart.rect.width = wide;
  chart.sets = sets_of(accent);
  if (other)
    for (ChartSet& set : differing_sets(accent, *other)) chart.sets.push_back(std::move(set));
  canvas.add(compose_vowel_chart(chart).group);
  // what the signs on the arrows are
  const double y = view.height - margin;
  const std::string key = "Arrow: a glide, from its start to its end; the sign on it shows the lips, ring for rounded, lens for spread.", sign = "Mouthwright";
  canvas.fitted({"key", {}}, {margin, y}, key, {13 * u, theme.quiet}, view.width - 2 * margin - text_width(sign, 13 * u) - 20 * u, 0.6);
  canvas.text({"sign", {}}, {view.width - margin, y}, sign, {13 * u, theme.quiet, false, Anchor::end});
  return {view.width, view.height, theme.panel, std::move(canvas.marks)};
}

} // namespace mw
