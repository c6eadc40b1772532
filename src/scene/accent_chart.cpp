#include "scene/accent_chart.h"

#include "accent/contexts.h"
#include "accent/edit.h"
#include "base/text.h"
#include "scene/signs.h"
#include "text/shaper.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace mw {
namespace {

bool overlap(const Rect& a, const Rect& b) { return a.x < b.right() && b.x < a.right() && a.y < b.bottom() && b.y < a.bottom(); }
Rect about(Vec2 at, double half) { return {at.x - half, at.y - half, 2 * half, 2 * half}; }

struct Letter_spot { const char* letter; double x, y; Vec2 off; };
// the letters round and inside the quadrilateral, pushed off their places so that points have room
constexpr std::array letter_spots{
    Letter_spot{"i", 0, 0, {-22, 0}},         Letter_spot{"e", 0, 1.0 / 3, {-22, 0}}, Letter_spot{"\u025B", 0, 2.0 / 3, {-22, 0}}, Letter_spot{"\u00E6", 0, 0.84, {-22, 0}},
    Letter_spot{"a", 0, 1, {-20, 0}},         Letter_spot{"u", 1, 0, {22, 0}},        Letter_spot{"o", 1, 1.0 / 3, {22, 0}},       Letter_spot{"\u0254", 1, 2.0 / 3, {22, 0}},
    Letter_spot{"\u0251", 1, 1, {22, 0}},     Letter_spot{"\u0289", 0.5, 0, {0, -18}}, Letter_spot{"\u026A", 0.24, 0.17, {0, -15}}, Letter_spot{"\u028A", 0.8, 0.17, {0, -15}},
    Letter_spot{"\u0275", 0.5, 1.0 / 3, {0, -15}}, Letter_spot{"\u0259", 0.5, 0.5, {24, -3}}, Letter_spot{"\u0250", 0.5, 0.84, {0, -15}}};

bool is_drawn_row(const ContextValue& row) {
  const ContextName* name = find_context(row.context);
  return name && name->evaluated;
}

/// Draws one chart; collects what is taken so that labels keep clear of it.
struct Drawing {
  const AccentChartView& view;
  const Theme& theme;
  double u;
  ChartFrame frame{};
  Canvas canvas{};
  std::vector<Rect> points{}, lines{}, signs{}, labels{}; // taken
  std::vector<AccentChart::Name> names{};

  [[nodiscard]] std::optional<VowelPlace> place(const Accent& accent, LexicalSet set, bool end = false) const { return vowel_place(accent.of(set).vowel, end); }
  [[nodiscard]] bool is_in_hand(LexicalSet set) const { return view.in_hand == set; }

  // Where a spread and a rounded vowel share a place (\u028C and \u0254), they stand side by side as in the IPA chart: spread at
  // the left, rounded at the right.
  [[nodiscard]] Vec2 stand_of(LexicalSet set) const {
    const auto own = place(*view.accent, set);
    const Vec2 at = frame.at(*own);
    if (is_in_hand(set) || is_glide(view.accent->of(set).vowel)) return at;
    const bool rounded = lips_of(*own) != Lips::spread;
    const bool shared = std::any_of(view.shown.begin(), view.shown.end(), [&](LexicalSet other) {
      const auto there = place(*view.accent, other);
      return there && glm::distance(frame.at(*there), at) < 8 * u && (lips_of(*there) != Lips::spread) != rounded;
    });
    return shared ? at + Vec2{(rounded ? 8 : -8) * u, 0} : at;
  }
  // A ring round the point: the lips are rounded; half a ring: a little. Never told by colour.
  void lip_ring(Vec2 at, VowelPlace place, Colour colour) {
    const Lips lips = lips_of(place);
    const double r = 9 * u;
    if (lips == Lips::round) canvas.circle({"lip-ring", "round"}, at, r, clear, colour, 1.8 * u);
    if (lips != Lips::half) return;
    constexpr double k = 0.5523; // a quarter of a circle as one cubic
    const Path half{{Path::Move{at + Vec2{0, -r}}, Path::Cubic{at + Vec2{k * r, -r}, at + Vec2{r, -k * r}, at + Vec2{r, 0}},
                     Path::Cubic{at + Vec2{r, k * r}, at + Vec2{k * r, r}, at + Vec2{0, r}}}};
    canvas.stroke({"lip-ring", "half"}, half, colour, 1.8 * u);
  }

  void letters() {
    for (const Letter_spot& spot : letter_spots) {
      const Vec2 at = frame.at({spot.x, spot.y, 0}) + spot.off * u;
      canvas.text_middle({"chart-letter", spot.letter}, at, spot.letter, {20 * u, theme.quiet, false, Anchor::middle});
      signs.push_back(about(at, 9 * u));
    }
    for (const auto& [x, word] : {std::pair{0.0, "front"}, std::pair{0.5, "central"}, std::pair{1.0, "back"}})
      canvas.text({}, frame.at({x, 0, 0}) + Vec2{0, -32 * u}, word, {14 * u, theme.quiet, false, Anchor::middle});
  }

  void take_line(Vec2 from, Vec2 to) {
    const int n = std::max(2, static_cast<int>(glm::distance(from, to) / (14 * u)));
    for (int i = 1; i <= n; ++i) lines.push_back(about(from + (to - from) * (static_cast<double>(i) / n), 5 * u));
  }

  void draw(const Accent& accent, LexicalSet set, ChartSet::Look look) {
    const auto start = place(accent, set);
    if (!start) return;
    ChartSet row{std::string(to_keyword(set)), *start, {}, look};
    if (is_glide(accent.of(set).vowel)) row.end = place(accent, set, true);
    const bool own = look == ChartSet::Look::own;
    const Vec2 at = own ? stand_of(set) : frame.at(*start);
    auto marks = draw_chart_set(theme, frame, row, u * (look == ChartSet::Look::dragged ? 1.5 : 1.1));
    if (at == frame.at(*start)) canvas.add(std::move(marks));
    else { // beside its place
      Group beside{{"beside", row.label}};
      beside.tx = at.x - frame.at(*start).x, beside.ty = at.y - frame.at(*start).y;
      beside.marks = std::move(marks);
      canvas.add(std::move(beside));
    }
    if (own && !row.end) lip_ring(at, *start, theme.action);
    points.push_back(about(at, 6 * u));
    if (row.end) take_line(at, frame.at(*row.end));
  }

  void start_accent() {
    if (!view.start) return;
    for (const LexicalSet set : view.shown)
      if (!(view.start->of(set).vowel == view.accent->of(set).vowel)) draw(*view.start, set, ChartSet::Look::other);
  }

  // Where a point of one's own hides the diamond, a larger one goes round it; the set in hand leads back to its own.
  void show_hidden_starts() {
    if (!view.start) return;
    for (const LexicalSet set : view.shown) {
      const auto was = place(*view.start, set), is = place(*view.accent, set);
      if (!was || !is || view.start->of(set).vowel == view.accent->of(set).vowel) continue;
      const Vec2 at = frame.at(*was);
      const double s = 9.5 * u;
      const bool hidden = std::any_of(view.shown.begin(), view.shown.end(), [&](LexicalSet other) {
        const auto there = place(*view.accent, other);
        return there && glm::distance(frame.at(*there), at) < 6 * u;
      });
      if (hidden) canvas.stroke({"set", std::string(to_keyword(set))}, line_path({at + Vec2{0, -s}, at + Vec2{s, 0}, at + Vec2{0, s}, at + Vec2{-s, 0}}, true), theme.edge, 2 * u);
      if (is_in_hand(set) && glm::distance(at, frame.at(*is)) > 20 * u) canvas.line({"way", ""}, at, frame.at(*is), theme.edge, 1.4 * u, {2 * u, 5 * u});
    }
  }

  void own_sets() {
    for (const LexicalSet set : view.shown)
      if (!is_in_hand(set)) draw(*view.accent, set, ChartSet::Look::own);
  }

  // the handle stands where the pointer holds it; the disc where the letter is that it found
  void hand() {
    if (!view.in_hand) return;
    const auto at = vowel_place(vowel_of(*view.accent, *view.in_hand, view.row_in_hand), view.end_in_hand);
    if (!at) return;
    draw(*view.accent, *view.in_hand, ChartSet::Look::dragged);
    rows_in_hand();
    const Vec2 disc = frame.at(*at), handle = view.pull.value_or(disc);
    if (glm::distance(disc, handle) > 6 * u) canvas.line({"pull", ""}, disc, handle, theme.second, 1.6 * u, {2 * u, 4 * u});
    canvas.circle({"handle", ""}, handle, 13 * u, with_alpha(theme.panel, view.end_in_hand ? 0.2 : 0.75), theme.second, 3.2 * u);
    if (!view.end_in_hand || view.pull) canvas.circle({"handle", "dot"}, handle, 4 * u, theme.second);
    for (int i = 0; i < 6; ++i) points.push_back(about(handle, 20 * u)); // nothing may lie over the handle
    if (view.tells) bubble(handle, at.value());
  }

  // The same set in special places: smaller, joined to it by a dotted line, with where it is said so.
  void rows_in_hand() {
    const auto start = place(*view.accent, *view.in_hand);
    const auto& rows = view.accent->contexts[static_cast<std::size_t>(*view.in_hand)];
    for (std::size_t i = 0; start && i < rows.size(); ++i) {
      const auto at = vowel_place(rows[i].value.vowel);
      if (!at || !is_drawn_row(rows[i])) continue;
      const Vec2 here = frame.at(*at);
      if (glm::distance(here, frame.at(*start)) > 14 * u) canvas.line({"row-way", ""}, frame.at(*start), here, theme.second, 1.3 * u, {1.5 * u, 4.5 * u});
      ChartSet mark{rows[i].context, *at, {}, ChartSet::Look::dragged};
      if (is_glide(rows[i].value.vowel)) mark.end = vowel_place(rows[i].value.vowel, true);
      canvas.add(draw_chart_set(theme, frame, mark, 0.85 * u));
      if (!mark.end) lip_ring(here, *at, theme.second);
      points.push_back(about(here, 7 * u));
      const std::string name = place_of_row(rows[i].context);
      const double size = 13 * u, w = text_width(name, size);
      Rect best{};
      double least = 1e300;
      for (const Vec2 off : {Vec2{10 * u, -8 * u}, Vec2{-10 * u - w, -8 * u}, Vec2{-w / 2, 12 * u}, Vec2{-w / 2, -28 * u}, Vec2{10 * u, 12 * u}, Vec2{-10 * u - w, 12 * u}}) {
        const Rect r{here.x + off.x, here.y + off.y, w, 16 * u};
        if (const double cost = cost_of(r); cost < least) least = cost, best = r;
      }
      labels.push_back(best);
      canvas.text_middle({"row-label", name}, {best.x, best.centre().y}, name, {size, theme.second, view.row_in_hand == i, Anchor::start, 4 * u, theme.panel});
    }
  }

  void bubble(Vec2 handle, VowelPlace place) {
    const Sound& vowel = vowel_of(*view.accent, *view.in_hand, view.row_in_hand);
    const bool glide = is_glide(vowel);
    const std::string where = (!glide ? "" : view.end_in_hand ? "ends " : "starts ") + place_words(vowel, view.end_in_hand), lips(to_words(lips_of(place)));
    const double size = (view.rect.width < 450 * u ? 12.5 : 14) * u, w = std::max(text_width(where, size), text_width(lips, size)) + 24 * u, h = 54 * u;
    std::array<Rect, 6> spots{Rect{handle.x - w * 0.65, handle.y + 38 * u, w, h}, Rect{handle.x + 30 * u, handle.y + 26 * u, w, h}, Rect{handle.x - w - 24 * u, handle.y + 30 * u, w, h},
                              Rect{handle.x - w * 0.65, handle.y - 38 * u - h, w, h}, Rect{handle.x + 30 * u, handle.y - 26 * u - h, w, h}, Rect{handle.x - w - 24 * u, handle.y - 30 * u - h, w, h}};
    const Rect* best = &spots[0];
    double least = 1e300;
    for (Rect& spot : spots) {
      double cost = 0;
      const double x = std::clamp(spot.x, view.rect.x, view.rect.right() - w), y = std::clamp(spot.y, view.rect.y, view.rect.bottom() - h);
      cost += std::abs(x - spot.x) + std::abs(y - spot.y), spot.x = x, spot.y = y;
      for (const Rect& taken : points) cost += overlap(spot, taken) ? 40 : 0;
      for (const Rect& taken : signs) cost += overlap(spot, taken) ? 6 : 0;
      for (const Rect& taken : lines) cost += overlap(spot, taken) ? 3 : 0;
      if (overlap(spot, about(handle, 20 * u))) cost += 500;
      if (cost < least) least = cost, best = &spot;
    }
    const Rect box = *best;
    const Vec2 middle = box.centre(), to{std::clamp(handle.x, box.x + 12 * u, box.right() - 12 * u), middle.y > handle.y ? box.y : box.bottom()};
    canvas.line({"bubble", ""}, handle + glm::normalize(to - handle) * (20 * u), to, theme.edge, 1.4 * u);
    canvas.box({"bubble", ""}, box, 9 * u, theme.raised, theme.edge, 1.2 * u);
    canvas.text({"bubble", "place"}, {box.x + 12 * u, box.y + 22 * u}, where, {size, theme.ink});
    canvas.text({"bubble", "lips"}, {box.x + 12 * u, box.y + 43 * u}, lips, {size, theme.quiet});
    labels.push_back(box);
  }

  /// Names of sets with one vowel stand together; at most two in a line.
  struct Label { Vec2 at; std::vector<LexicalSet> sets; bool in_hand = false; };
  [[nodiscard]] std::vector<Label> grouped() const {
    std::vector<Label> out;
    for (const LexicalSet set : view.shown) {
      const auto start = place(*view.accent, set);
      if (!start) continue;
      const Vec2 at = stand_of(set);
      // the set in hand stands out by itself
      const auto same = std::find_if(out.begin(), out.end(), [&](const Label& l) {
        return !l.in_hand && !is_in_hand(set) && glm::distance(l.at, at) < 1 && same_vowel(view.accent->of(l.sets.front()).vowel, view.accent->of(set).vowel);
      });
      if (same != out.end()) same->sets.push_back(set);
      else out.push_back({at, {set}, is_in_hand(set)});
    }
    std::stable_sort(out.begin(), out.end(), [](const Label& a, const Label& b) { return a.in_hand > b.in_hand; });
    return out;
  }

  [[nodiscard]] double cost_of(const Rect& r) const {
    double cost = std::max({view.rect.x - r.x, r.right() - view.rect.right(), view.rect.y - r.y, r.bottom() - view.rect.bottom(), 0.0}) / u * 20;
    for (const Rect& taken : labels) cost += overlap(r, taken) ? 200 : 0;
    for (const Rect& taken : points) cost += overlap(r, taken) ? 50 : 0;
    for (const Rect& taken : lines) cost += overlap(r, taken) ? 7 : 0;
    for (const Rect& taken : signs) cost += overlap(r, taken) ? 25 : 0;
    return cost;
  }

  void label(const Label& it) {
    std::vector<std::string> rows;
    for (std::size_t i = 0; i < it.sets.size(); ++i) {
      const std::string name(to_keyword(it.sets[i]));
      if (i % 2 == 0) rows.push_back(name + (i + 1 < it.sets.size() ? "," : ""));
      else rows.back() += " " + name + (i + 1 < it.sets.size() ? "," : "");
    }
    // smaller on a narrow chart, never below the least size of text
    const double size = (it.in_hand ? 20 : 15.5) * u * std::clamp(view.rect.width / (560 * u), 0.81, 1.0), step = 1.1 * size;
    double w = 0;
    for (const auto& row : rows) w = std::max(w, text_width(row, size, it.in_hand));
    const double h = step * static_cast<double>(rows.size());
    Rect best{};
    double least = 1e300;
    for (const double gap : {it.in_hand ? 24.0 : 9.0, it.in_hand ? 34.0 : 18.0, 30.0, 44.0, 60.0})
      for (int k = 0; k < 12; ++k) {
        const double angle = 3.14159265358979 / 6 * k;
        const Vec2 away{std::cos(angle), std::sin(angle)};
        // the box touches a circle round the point with the side that faces it
        const Rect r{it.at.x + away.x * gap * u + (away.x - 1) * w / 2, it.at.y + away.y * gap * u + (away.y - 1) * h / 2, w, h};
        const double cost = cost_of(r) + gap + 0.1 * k;
        if (cost < least) least = cost, best = r;
      }
    labels.push_back(best);
    for (std::size_t i = 0; i < it.sets.size(); ++i) {
      const double before = i % 2 == 0 ? 0 : text_width(std::string(to_keyword(it.sets[i - 1])) + ", ", size, it.in_hand);
      names.push_back({it.sets[i], {best.x + before, best.y + step * static_cast<double>(i / 2), text_width(to_keyword(it.sets[i]), size, it.in_hand), step}});
    }
    const Colour colour = it.in_hand ? theme.second : theme.action;
    const Vec2 edge{std::clamp(it.at.x, best.x, best.right()), std::clamp(it.at.y, best.y, best.bottom())};
    if (glm::distance(edge, it.at) > 34 * u) canvas.line({"leader", ""}, it.at, edge, theme.edge, u);
    for (std::size_t i = 0; i < rows.size(); ++i)
      canvas.text_middle({"set-label", rows[i]}, {best.x, best.y + step * (static_cast<double>(i) + 0.5)}, rows[i], {size, colour, it.in_hand, Anchor::start, 4 * u, theme.panel});
  }
};

} // namespace

AccentChart compose_accent_chart(const AccentChartView& view) {
  Drawing drawing{view, view.theme ? *view.theme : light_theme(), view.u};
  const double u = view.u;
  AccentChart chart;
  chart.frame.rect = {view.rect.x + 46 * u, view.rect.y + 48 * u, view.rect.width - 126 * u, view.rect.height - 66 * u};
  drawing.frame = chart.frame;
  drawing.canvas.add(draw_chart_frame(drawing.theme, chart.frame, u, false));
  drawing.letters();
  for (const auto& [from, to] : {std::pair{VowelPlace{0, 0, 0}, VowelPlace{1, 0, 0}}, std::pair{VowelPlace{0, 1, 0}, VowelPlace{1, 1, 0}}, std::pair{VowelPlace{0, 0, 0}, VowelPlace{0, 1, 0}}})
    drawing.take_line(chart.frame.at(from), chart.frame.at(to)); // labels keep off the edges
  drawing.start_accent();
  drawing.own_sets();
  drawing.show_hidden_starts();
  drawing.hand();
  for (const auto& label : drawing.grouped()) drawing.label(label);
  if (view.now) drawing.canvas.circle({"tongue-now", {}}, chart.frame.at(*view.now), 10 * u, clear, drawing.theme.ink, 2.2 * u);
  chart.marks = std::move(drawing.canvas.marks);
  chart.names = std::move(drawing.names);
  for (const bool end : {false, true})
    for (const LexicalSet set : view.shown)
      if (const auto place = drawing.place(*view.accent, set, end); place && (!end || is_glide(view.accent->of(set).vowel)))
        chart.points.push_back({set, end, end ? chart.frame.at(*place) : drawing.stand_of(set)});
  if (!view.in_hand) return chart;
  const auto& rows = view.accent->contexts[static_cast<std::size_t>(*view.in_hand)];
  for (const bool end : {false, true})
    for (std::size_t i = 0; i < rows.size(); ++i)
      if (const auto place = vowel_place(rows[i].value.vowel, end); place && is_drawn_row(rows[i]) && (!end || is_glide(rows[i].value.vowel)))
        chart.points.push_back({*view.in_hand, end, chart.frame.at(*place), i});
  return chart;
}

} // namespace mw
