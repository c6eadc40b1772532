#include "scene/score_panel.h"

#include "base/text.h"
#include "scene/lit.h"
#include "scene/signs.h"
#include "text/shaper.h"

#include <algorithm>
#include <cmath>

namespace mw {
namespace {

const Theme& theme_of(const Theme* theme) { return theme ? *theme : light_theme(); }

struct ScorePen {
  const Take& take;
  const ScoreView& view;
  const Theme& theme;
  double u;
  ScorePicture picture{};
  Canvas canvas{};
  double right = 0, y = 0, flag_y = 0;
  std::optional<std::size_t> now{};
  Page page{}; // sounds in view

  [[nodiscard]] double x(double t) const { return picture.x_of(t); }
  [[nodiscard]] bool in_view(double from, double to) const { return to > picture.from_s && from < picture.to_s; }
  [[nodiscard]] double clipped(double t) const { return std::clamp(x(t), picture.left, right); }
  void name(const char* text, double at) {
    if (view.names) canvas.text_middle({"row-name", text}, {picture.left - 12 * u, at}, text, {13 * u, theme.quiet, false, Anchor::end});
  }

  void set_axis() {
    const auto& s = take.track.segments;
    std::size_t first = 0, last = s.empty() ? 0 : s.size() - 1;
    if (view.page) {
      const auto pages = pages_of(take, view.page_most);
      page = pages[std::min(*view.page, pages.size() - 1)];
      first = page.first, last = page.last;
    } else page = {first, last};
    picture.from_s = s.empty() ? 0 : s[first].start_s - 0.06;
    picture.to_s = s.empty() ? std::max(take.duration_s, 0.1) : s[last].end_s + (view.page ? 0.06 : 0.13);
    picture.left = view.rect.x + view.gutter * u;
    picture.width = view.rect.width - view.gutter * u - 10 * u;
    right = picture.left + picture.width;
    y = view.rect.y;
    if (view.time) now = sound_at(take, *view.time);
  }

  void draw_words() {
    const auto words = shown_words(take);
    const double size = view.word * u;
    for (std::size_t i = 0; i < words.size(); ++i) {
      ShownWord w = words[i];
      if (w.last < page.first || w.first > page.last) continue;
      w.start_s = std::max(w.start_s, picture.from_s), w.end_s = std::min(w.end_s, picture.to_s);
      const bool current = now && *now >= w.first && *now <= w.last;
      const double room = x(w.end_s) - x(w.start_s) + 8 * u, middle = x((w.start_s + w.end_s) / 2);
      TextLook look{size, theme.ink, current, Anchor::middle};
      const bool wide = text_width(w.text, size * 0.75, current) > room;
      if (current && wide) look.halo = 4 * u, look.halo_colour = theme.panel; // the word now is whole, over its neighbours
      if (current) look.size = fitting_size(w.text, size, true, room, 0.75), canvas.text({"word", w.text}, {middle, y + view.word * 1.12 * u}, w.text, look);
      else canvas.fitted({"word", w.text}, {middle, y + view.word * 1.12 * u}, w.text, look, room, 0.75);
      picture.words.emplace_back(i, Rect{x(w.start_s), y, x(w.end_s) - x(w.start_s), view.word * 1.45 * u});
    }
    y += view.word * 1.45 * u;
    for (const ShownSyllable& s : shown_syllables(take)) {
      if (s.last < page.first || s.first > page.last) continue;
      const double a = clipped(s.start_s) + 2.5 * u, b = clipped(s.end_s) - 2.5 * u;
      if (s.stress > 0) canvas.box({"stress", "stressed"}, {a, y, b - a, 5 * u}, 2.5 * u, theme.ink);
      else canvas.box({"stress", "unstressed"}, {a, y + 1.5 * u, b - a, 2 * u}, u, theme.quiet);
    }
    y += 11 * u;
  }

  void draw_sounds() {
    const double row = view.sound * 1.42 * u;
    const auto& s = take.track.segments;
    for (std::size_t i = 0; i < s.size(); ++i) {
      if (i < page.first || i > page.last) continue;
      const double a = x(s[i].start_s), b = x(s[i].end_s);
      const bool current = now == i;
      const Rect slot{a + 0.5 * u, y, std::max(b - a - u, 14 * u), row};
      if (current) canvas.box({"sound-now", {}}, slot, 5 * u, theme.select, theme.action, 1.6 * u);
      else if (std::find(view.differing.begin(), view.differing.end(), i) != view.differing.end()) canvas.box({"differs", {}}, {a + u, y + 2 * u, b - a - 2 * u, row - 4 * u}, 5 * u, theme.changed);
      const std::string ipa = ipa_of(take, i);
      const double size = fitting_size(ipa, view.sound * u, current, (b - a) * 1.02, 14.0 / view.sound);
      canvas.text_middle({"sound", ipa}, {(a + b) / 2, y + row / 2}, ipa, {size, theme.ink, current, Anchor::middle});
      picture.sounds.emplace_back(i, Rect{a, y, b - a, row});
    }
    name("sounds", y + row / 2);
    y += row + 5 * u;
  }

  void draw_load() {
    if (view.load <= 0) return;
    const double height = view.load * u;
    const auto& load = take.difficulty.load;
    const auto& s = take.track.segments;
    Polyline curve;
    for (std::size_t i = 0; i < std::min(load.size(), s.size()); ++i)
      if (in_view(s[i].start_s, s[i].end_s)) curve.push_back({x((s[i].start_s + s[i].end_s) / 2), y + height - 1 - std::clamp(load[i], 0.0, 1.0) * (height - 3 * u)});
    const double base = y + height;
    curve.insert(curve.begin(), {picture.left, base - 1});
    curve.push_back({right, base - 1});
    Path area = smooth_path(curve, false);
    area.steps.emplace_back(Path::Line{{right, base}});
    area.steps.emplace_back(Path::Line{{picture.left, base}});
    area.steps.emplace_back(Path::Close{});
    canvas.fill({"load", {}}, std::move(area), with_alpha(theme.rule, theme.dark ? 0.9 : 0.75));
    canvas.stroke({"load", {}}, smooth_path(curve, false), theme.quiet, 1.4 * u);
    canvas.line({"load", "base"}, {picture.left, base}, {right, base}, theme.edge, u);
    name("load", y + height * 0.62);
    y += height + 6 * u;
  }

  void draw_gesture(const Gesture& g, double top) {
    const double a = clipped(g.onset_s), b = clipped(g.offset_s);
    if (!in_view(g.onset_s, g.offset_s) || b - a < 0.5 * u) return;
    const Colour colour = theme.of(g.articulator);
    const double h = picture.lane_height, shoulder = std::min(6 * u, (b - a) / 3), pad = std::min(3.5 * u, h * 0.18), low = top + h - pad, high = top + pad + (g.vowel ? h * 0.30 : 0);
    const Path shape = line_path({{a, low}, {a + shoulder, high}, {b - shoulder, high}, {b, low}}, true);
    const double alpha = (g.vowel ? 0.14 : 0.30) * (theme.dark ? 1.2 : 1.0) * (g.articulator == Articulator::jaw ? 0.7 : 1.0);
    const MarkId id{"gesture", std::string{to_text(g.articulator)}};
    if (theme.name == "print" && !g.vowel) draw_grey(g.articulator, shape, colour, alpha, id);
    else canvas.fill(id, shape, with_alpha(colour, alpha));
    canvas.stroke(id, shape, with_alpha(colour, g.vowel ? 0.35 : 0.95), 1.3 * u);
  }
  void draw_grey(Articulator a, const Path& shape, Colour colour, double alpha, const MarkId& id) {
    const GreyPattern& p = articulator_row(a).pattern;
    canvas.fill(id, shape, Hatch{with_alpha(colour, 0.5), with_alpha(colour, alpha * 0.6), p.angle_deg, 5.5 * u, 1.1 * u, p.crossed, p.dash[0] > 0});
  }

  void draw_lanes() {
    const double h = picture.lane_height;
    for (std::size_t i = 0; i < view.lanes.size(); ++i) {
      const Articulator a = view.lanes[i];
      const double top = picture.lanes_top + static_cast<double>(i) * h;
      const std::string lane{articulator_row(a).lane};
      if (i % 2 == 0) canvas.box({"lane", lane}, {picture.left - 2 * u, top, picture.width + 4 * u, h}, 3 * u, with_alpha(theme.dark ? theme.raised : theme.ground, 0.5));
      if (view.names) {
        const bool active = view.lit && *view.lit < take.clashes.size() && moves_in(take.clashes[*view.lit], a);
        const bool idle = std::none_of(take.score.gestures.begin(), take.score.gestures.end(), [&](const Gesture& g) { return g.articulator == a && in_view(g.onset_s, g.offset_s); });
        canvas.add(draw_articulator(a, {picture.left - 17 * u, top + h / 2}, 6.2 * u, theme.of(a)));
        canvas.text_middle({"lane-name", lane}, {picture.left - 30 * u, top + h / 2}, lane, {std::min(14 * u, h * 0.8), idle ? theme.quiet : theme.ink, active, Anchor::end});
      }
      for (const Gesture& g : take.score.gestures)
        if (g.articulator == a || (a == Articulator::glottis && g.articulator == Articulator::larynx)) draw_gesture(g, top);
      draw_trace(a, top);
    }
  }
  static bool moves_in(const Clash& c, Articulator a) { return std::find(c.articulators.begin(), c.articulators.end(), a) != c.articulators.end(); }
  void draw_trace(Articulator a, double top) {
    constexpr int samples = 240;
    const double h = picture.lane_height, from = std::max(picture.from_s, 0.0), to = std::min(picture.to_s, take.duration_s);
    if (to <= from) return;
    const auto trace = lane_trace(take, a, from, to, samples);
    Polyline line;
    for (std::size_t i = 0; i < trace.size(); ++i) line.push_back({x(from + (to - from) * static_cast<double>(i) / (samples - 1)), top + h - 4 * u - trace[i] * std::max(h - 8 * u, 2 * u)});
    canvas.stroke({"movement", std::string{to_text(a)}}, smooth_path(simplified(line, 0.08), false), with_alpha(theme.ink, 0.85), 1.5 * u);
  }

  [[nodiscard]] std::optional<double> lane_top(Articulator a) const {
    for (std::size_t i = 0; i < view.lanes.size(); ++i)
      if (view.lanes[i] == a || (view.lanes[i] == Articulator::glottis && a == Articulator::larynx)) return picture.lanes_top + static_cast<double>(i) * picture.lane_height;
    return {};
  }

  [[nodiscard]] bool is_in_view(std::size_t clash) const { return clash < view.most_clashes || view.lit == clash; }

  void draw_clash_boxes() {
    const double h = picture.lane_height;
    for (std::size_t i = take.clashes.size(); i-- > 0;) { // the strongest last, on top
      const Clash& c = take.clashes[i];
      if (!is_in_view(i)) continue;
      for (const auto& [from, to] : clash_spans(take, c)) { // on its own sounds
        if (!in_view(from, to)) continue;
        double a = clipped(from), b = clipped(to);
        if (b - a < 10 * u) { // widened so that it can be seen and hit
          const double middle = (a + b) / 2;
          a = middle - 5 * u, b = middle + 5 * u;
        }
        for (const Articulator art : c.articulators)
          if (const auto top = lane_top(art)) draw_clash_box(i, {a, *top + 1.5 * u, b - a, h - 3 * u});
      }
    }
  }
  void draw_clash_box(std::size_t i, Rect box) {
    const Clash& c = take.clashes[i];
    const bool lit = view.lit == i;
    Hatch hatch = clash_hatch(theme, c.level, 4.4 * u, 1.1 * u, lit ? 0.95 : 0.6);
    hatch.line = with_alpha(hatch.line, lit ? 0.85 : 0.5);
    canvas.fill({"clash", to_text(static_cast<int>(i))}, rounded_rectangle({box.x, box.y}, {box.width, box.height}, 3 * u), hatch);
    canvas.box({"clash", to_text(static_cast<int>(i))}, box, 3 * u, clear, clash_edge(theme), (lit ? 2 : 1.1) * u);
  }

  struct FlagSpot { std::size_t clash; double x; int more; };
  [[nodiscard]] std::vector<FlagSpot> flag_spots() const { // closer than 22 u fold into the strongest with +n
    std::vector<FlagSpot> spots;
    for (std::size_t i = 0; i < take.clashes.size(); ++i) {
      const Clash& c = take.clashes[i];
      if (!is_in_view(i)) continue;
      const double middle = x((c.start_s + c.end_s) / 2);
      if (middle < picture.left || middle > right) continue;
      const auto near = std::find_if(spots.begin(), spots.end(), [&](const FlagSpot& s) { return std::abs(s.x - middle) < 22 * u; });
      if (near == spots.end()) spots.push_back({i, middle, 0});
      else {
        ++near->more;
        if (view.lit == i) near->clash = i;
      }
    }
    return spots;
  }
  void draw_flags() {
    const double r = 11.5 * u;
    for (const FlagSpot& spot : flag_spots()) {
      const Clash& c = take.clashes[spot.clash];
      const bool lit = view.lit == spot.clash;
      double top = 1e300;
      for (const Articulator art : c.articulators)
        if (const auto lane = lane_top(art)) top = std::min(top, *lane + 1.5 * u);
      if (top < 1e299)
        canvas.line({"flag-line", to_text(static_cast<int>(spot.clash))}, {spot.x, flag_y + r}, {spot.x, top}, with_alpha(clash_edge(theme), lit ? 1 : 0.6), (lit ? 1.6 : 1.1) * u,
                    lit ? std::vector<double>{} : std::vector<double>{2.5 * u, 3 * u});
      const double half = r * (lit ? 1.12 : 0.95);
      canvas.add(draw_flag(theme, c.kind, c.level, lit, {spot.x, flag_y}, half, to_text(static_cast<int>(spot.clash))));
      if (spot.more > 0) canvas.text_middle({"more", {}}, {spot.x + half + 2 * u, flag_y - half * 0.6}, "+" + to_text(spot.more), {12.5 * u, theme.quiet});
      picture.flags.emplace_back(spot.clash, Rect{spot.x - half, flag_y - half, 2 * half, 2 * half});
    }
    name("clashes", flag_y);
  }

  void draw_scrubber() {
    if (!view.time || *view.time < picture.from_s - 0.3 || *view.time > picture.to_s + 0.3) return;
    const double at = clipped(*view.time), top = picture.lanes_top - 2 * u, bottom = view.rect.bottom();
    canvas.line({"scrubber", {}}, {at, top}, {at, bottom}, theme.panel, 4.6 * u);
    canvas.line({"scrubber", {}}, {at, top}, {at, bottom}, theme.action, 2.2 * u);
    if (!view.time_pill) return;
    const double w = 58 * u;
    canvas.box({"time", {}}, {at - w / 2, bottom + u, w, 20 * u}, 10 * u, theme.action);
    std::string text = to_text(std::round(*view.time * 100) / 100, 2);
    if (text.find('.') == std::string::npos) text += ".00";
    else if (text.size() - text.find('.') == 2) text += "0";
    canvas.text_middle({"time", {}}, {at, bottom + 11 * u}, text + " s", {13 * u, theme.on_action, true, Anchor::middle});
  }
};

} // namespace

ScorePicture compose_score_panel(const Take& take, const ScoreView& view) {
  ScorePen pen{take, view, theme_of(view.theme), view.u};
  pen.set_axis();
  if (view.words) pen.draw_words();
  pen.draw_sounds();
  pen.draw_load();
  const double r = 11.5 * view.u;
  pen.flag_y = pen.y + r;
  pen.picture.lanes_top = pen.y + (view.flags ? 2 * r + 7 * view.u : 0);
  pen.picture.lane_height = view.lanes.empty() ? 0 : (view.rect.bottom() - pen.picture.lanes_top) / static_cast<double>(view.lanes.size());
  pen.draw_lanes();
  pen.draw_clash_boxes();
  pen.draw_scrubber();
  if (view.flags) pen.draw_flags();
  pen.picture.group.mark = {"score", {}};
  pen.picture.group.marks = std::move(pen.canvas.marks);
  return std::move(pen.picture);
}

ScorePicture compose_phrase_row(const Take& take, const PhraseRowView& view) {
  const Theme& theme = theme_of(view.theme);
  ScorePicture out;
  Canvas canvas;
  const auto& s = take.track.segments;
  if (s.empty()) return out;
  const std::size_t last = std::min(view.last, s.size() - 1), first = std::min(view.first, last);
  out.from_s = s[first].start_s - 0.04, out.to_s = s[last].end_s + 0.04;
  out.left = view.rect.x, out.width = view.rect.width;
  const std::size_t now = view.time ? sound_at(take, *view.time).value_or(s.size()) : s.size();
  const double word_base = view.rect.y + view.word * 1.08, bar_y = word_base + view.word * 0.38, sound_mid = bar_y + view.bar + view.sound * 0.75, k = view.bar / 8;
  const auto words = shown_words(take);
  for (std::size_t i = 0; i < words.size(); ++i) {
    const ShownWord& w = words[i];
    if (w.last < first || w.first > last) continue;
    const double a = out.x_of(std::max(w.start_s, s[first].start_s)), b = out.x_of(std::min(w.end_s, s[last].end_s));
    const bool current = now >= w.first && now <= w.last;
    canvas.fitted({"word", w.text}, {(a + b) / 2, word_base}, w.text, {view.word, theme.ink, current, Anchor::middle}, b - a + view.word * 0.5, 0.75);
    out.words.emplace_back(i, Rect{a, view.rect.y, b - a, view.word * 1.4});
  }
  for (const ShownSyllable& y : shown_syllables(take)) {
    if (y.last < first || y.first > last) continue;
    const double a = out.x_of(y.start_s) + 3 * k, b = out.x_of(y.end_s) - 3 * k;
    if (y.stress > 0) canvas.box({"stress", "stressed"}, {a, bar_y, b - a, view.bar}, view.bar / 2, theme.ink);
    else canvas.box({"stress", "unstressed"}, {a, bar_y + (view.bar - view.quiet_bar) / 2, b - a, view.quiet_bar}, view.quiet_bar / 2, theme.quiet);
  }
  const double half = view.sound * 0.66;
  for (std::size_t i = first; i <= last; ++i) {
    const double a = out.x_of(s[i].start_s), b = out.x_of(s[i].end_s);
    const std::string ipa = ipa_of(take, i);
    if (now == i) {
      const double w = std::max(b - a, view.sound * 0.8);
      canvas.box({"sound-now", {}}, {(a + b - w) / 2, sound_mid - half, w, 2 * half}, 7 * k, theme.select, theme.action, 3 * k);
    }
    const double size = fitting_size(ipa, view.sound, now == i, (b - a) * 1.05, view.least_sound);
    canvas.text_middle({"sound", ipa}, {(a + b) / 2, sound_mid}, ipa, {size, theme.ink, now == i, Anchor::middle});
    out.sounds.emplace_back(i, Rect{a, sound_mid - half, b - a, 2 * half});
  }
  if (view.lit && *view.lit < take.clashes.size() && view.lit_opacity > 0) { // the pair in the clash, underscored
    const Clash& c = take.clashes[*view.lit];
    Group strip{{"clash", to_text(static_cast<int>(*view.lit))}};
    strip.opacity = view.lit_opacity;
    Canvas inside;
    const double y = sound_mid + half - 2 * k, h = 9 * k;
    // under whole sounds where two moves meet between them
    std::vector<std::pair<double, double>> spans = clash_spans(take, c);
    if (spans.size() == 1 && !c.segments.empty()) spans = {{s[c.segments.front()].start_s, s[c.segments.back()].end_s}};
    for (const auto& [from, to] : spans) {
      if (to <= s[first].start_s || from >= s[last].end_s) continue;
      const double a = out.x_of(std::max(from, s[first].start_s)) + 4 * k, b = out.x_of(std::min(to, s[last].end_s)) - 4 * k;
      inside.fill({"clash", {}}, rounded_rectangle({a, y}, {b - a, h}, 4 * k), clash_hatch(theme, c.level, 7 * k, 2 * k));
      inside.box({"clash", {}}, {a, y, b - a, h}, 4 * k, clear, clash_edge(theme), 1.6 * k);
    }
    strip.marks = std::move(inside.marks);
    canvas.add(std::move(strip));
  }
  out.group.mark = {"phrase", {}};
  out.group.marks = std::move(canvas.marks);
  return out;
}

Group compose_overview(const Take& take, const Theme& theme, Rect rect, double u, std::optional<double> time, std::optional<std::size_t> page, std::size_t page_most) {
  Canvas canvas;
  const auto& s = take.track.segments;
  if (s.empty()) return {};
  const double from = s.front().start_s, to = s.back().end_s;
  const auto x = [&](double t) { return rect.x + rect.width * (t - from) / std::max(to - from, 1e-6); };
  const double middle = rect.y + rect.height / 2;
  const auto pages = pages_of(take, page_most);
  for (std::size_t i = 0; i < pages.size(); ++i) {
    const double a = x(s[pages[i].first].start_s), b = x(s[pages[i].last].end_s);
    if (page == i) canvas.box({"page", {}}, {a, rect.y, b - a, rect.height}, 5 * u, theme.select, theme.action, 1.6 * u);
    if (i > 0) canvas.line({"page-border", {}}, {a, rect.y + 2 * u}, {a, rect.bottom() - 2 * u}, theme.edge, u, {1.5 * u, 2.5 * u});
  }
  for (const ShownSyllable& y : shown_syllables(take)) {
    const double h = y.stress > 0 ? 5 * u : 2 * u;
    canvas.box({"stress", {}}, {x(y.start_s) + u, middle - h / 2, x(y.end_s) - x(y.start_s) - 2 * u, h}, h / 2, y.stress > 0 ? theme.ink : theme.quiet);
  }
  for (const Clash& c : take.clashes) {
    const double at = x((c.start_s + c.end_s) / 2), h = (3 + 1.5 * c.level) * u;
    canvas.box({"clash-tick", {}}, {at - 2 * u, rect.bottom() - h - u, 4 * u, h}, u, theme.clash(c.level), clash_edge(theme), 0.8 * u);
  }
  if (time) canvas.circle({"now", {}}, {x(std::clamp(*time, from, to)), middle}, 5.5 * u, theme.action, theme.panel, 1.5 * u);
  Group out{{"overview", {}}};
  out.marks = std::move(canvas.marks);
  return out;
}

std::vector<Mark> draw_bar(const Theme& theme, double length, Rect r, double u) {
  Canvas canvas;
  canvas.box({"bar", "rule"}, r, 3 * u, theme.dark ? theme.raised : theme.ground);
  Group inside{{"bar", "value"}};
  inside.clip = rounded_rectangle({r.x, r.y}, {r.width, r.height}, 3 * u);
  Canvas body;
  const double end = r.width * std::clamp(length, 0.0, 1.0), fray = std::min(r.width * 0.09, end);
  body.box({"bar", "value"}, {r.x, r.y, end - fray, r.height}, 0, theme.action);
  for (int i = 0; i < 4; ++i) // four thinning slices
    body.box({"bar", "fray"}, {r.x + end - fray + fray * 2 * i / 4 + 1.2 * u, r.y, fray * 0.5 * (0.72 - 0.16 * i), r.height}, 0, theme.action);
  inside.marks = std::move(body.marks);
  canvas.add(std::move(inside));
  for (int i = 1; i < 4; ++i) canvas.line({"bar", "mark"}, {r.x + r.width * i / 4, r.y - 2.5 * u}, {r.x + r.width * i / 4, r.bottom() + 2.5 * u}, theme.edge, u);
  canvas.box({"bar", "edge"}, r, 3 * u, clear, theme.edge, u);
  return std::move(canvas.marks);
}

Group compose_bars(const Difficulty& d, const Theme& theme, Rect r, double u) {
  Canvas canvas;
  static constexpr std::array<const char*, 4> rows{"Slips", "Slowing", "Late start", "Drift"};
  const double step = r.height / 4, name_width = 82 * u, word_width = 114 * u, height = std::min(13 * u, step * 0.62);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const double y = r.y + static_cast<double>(i) * step, middle = y + step / 2;
    canvas.text_middle({"bar-name", rows[i]}, {r.x, middle}, rows[i], {14 * u, theme.ink});
    const Rect rule{r.x + name_width, middle - height / 2, r.width - name_width - word_width, height};
    canvas.add(draw_bar(theme, d.bar_lengths[i], rule, u));
    canvas.text_middle({"bar-word", rows[i]}, {rule.right() + 9 * u, middle}, d.bar_words[i], {14 * u, theme.ink});
  }
  Group out{{"bars", {}}};
  out.marks = std::move(canvas.marks);
  return out;
}

} // namespace mw
