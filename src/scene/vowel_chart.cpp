#include "scene/vowel_chart.h"

#include "ipa/inventory.h"
#include "scene/signs.h"
#include "text/shaper.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace mw {
namespace {

struct Named { std::string_view name; double value; };
// heights and backness of the IPA chart's terms; thirds between close and open (IPA 2020 chart)
constexpr std::array heights{Named{"close", 0}, Named{"near-close", 0.17}, Named{"close-mid", 1.0 / 3}, Named{"mid", 0.5}, Named{"open-mid", 2.0 / 3}, Named{"near-open", 0.84}, Named{"open", 1}};
constexpr std::array backs{Named{"front", 0}, Named{"near-front", 0.24}, Named{"central", 0.5}, Named{"near-back", 0.8}, Named{"back", 1}};
// what a diacritic moves: a quarter of the way between two neighbouring heights, an eighth of the width
struct Shift { std::string_view mark; double dx, dy; };
constexpr std::array shifts{Shift{"\u031D", 0, -0.085}, Shift{"\u031E", 0, 0.085}, Shift{"\u031F", -0.12, 0}, Shift{"\u0320", 0.12, 0}, Shift{"\u0308", 0, 0}, Shift{"\u033D", 0, 0}};

template <std::size_t N> std::optional<double> value_of(const std::array<Named, N>& table, std::string_view name) {
  for (const Named& row : table)
    if (row.name == name) return row.value;
  return {};
}

VowelPlace shifted(VowelPlace p, const std::vector<std::string>& marks) {
  for (const std::string& mark : marks)
    for (const Shift& s : shifts)
      if (mark == s.mark) {
        p.x += s.dx, p.y += s.dy;
        if (mark == "\u0308") p.x += (0.5 - p.x) * 0.5;                                             // centralized
        if (mark == "\u033D") p.x += (0.5 - p.x) * 0.5, p.y += (0.5 - p.y) * 0.5;                      // mid-centralized
      }
  p.x = std::clamp(p.x, 0.0, 1.0), p.y = std::clamp(p.y, 0.0, 1.0);
  return p;
}

} // namespace

std::optional<VowelPlace> vowel_place(const Sound& sound, bool end) {
  const bool second = end && is_glide(sound);
  const Letter* letter = find_letter(second ? sound.glide_letter : sound.letter);
  if (!letter || !letter->vowel) return {};
  const auto y = value_of(heights, letter->height), x = value_of(backs, letter->backness);
  if (!x || !y) return {};
  return shifted({*x, *y, letter->rounded ? 1 - 0.5 * *y : 0.0}, second ? sound.glide_marks : sound.marks); // open vowels round less
}

std::optional<VowelPlace> tongue_place(const TargetTable& targets, const Pose& pose) {
  double weight = 0;
  VowelPlace sum{0, 0, std::clamp(pose.lip_rounding, 0.0, 1.0)};
  for (const Target& row : targets.vowels) {
    const auto place = vowel_place({row.symbol});
    if (!place) continue;
    const double dx = pose.body_x - row.pose.body_x, dy = pose.body_y - row.pose.body_y, dr = 4 * (pose.root - row.pose.root), dj = 0.5 * (pose.jaw_opening - row.pose.jaw_opening);
    const double w = 1 / std::pow(dx * dx + dy * dy + dr * dr + dj * dj + 1e-4, 2);
    sum.x += w * place->x, sum.y += w * place->y, weight += w;
  }
  if (weight <= 0) return {};
  sum.x /= weight, sum.y /= weight;
  return sum;
}

VowelPlace ChartFrame::place(Vec2 p) const {
  const double y = std::clamp((p.y - rect.y) / rect.height, 0.0, 1.0);
  const double x = std::clamp(((p.x - rect.x) / rect.width - 0.5 * y) / (1 - 0.5 * y), 0.0, 1.0);
  return {x, y, 0};
}

std::vector<Mark> draw_chart_frame(const Theme& theme, const ChartFrame& frame, double u, bool letters) {
  Canvas canvas;
  const auto at = [&](double x, double y) { return frame.at({x, y, 0}); };
  const Path outline = line_path({at(0, 0), at(1, 0), at(1, 1), at(0, 1)}, true);
  canvas.fill({"chart", {}}, outline, with_alpha(theme.dark ? theme.raised : theme.ground, 0.55));
  for (const double y : {1.0 / 3, 2.0 / 3}) canvas.line({"chart", "line"}, at(0, y), at(1, y), theme.rule, 1.2 * u);
  canvas.line({"chart", "line"}, at(0.5, 0), at(0.5, 1), theme.rule, 1.2 * u);
  canvas.stroke({"chart", {}}, outline, theme.edge, 1.6 * u);
  if (!letters) return std::move(canvas.marks);
  struct Edge { const char* letter; double x, y; Vec2 off; };
  for (const Edge& e : {Edge{"i", 0, 0, {-12, 0}}, Edge{"e", 0, 1.0 / 3, {-12, 0}}, Edge{"\u025B", 0, 2.0 / 3, {-12, 0}}, Edge{"a", 0, 1, {-12, 0}}, Edge{"\u0251", 1, 1, {12, 0}},
                        Edge{"\u0254", 1, 2.0 / 3, {12, 0}}, Edge{"o", 1, 1.0 / 3, {12, 0}}, Edge{"u", 1, 0, {12, 0}}, Edge{"\u0259", 0.5, 0.5, {10, -9}}, Edge{"\u0289", 0.5, 0, {0, -11}}})
    canvas.text_middle({"chart-letter", e.letter}, at(e.x, e.y) + e.off * u, e.letter, {15 * u, theme.quiet, false, Anchor::middle});
  return std::move(canvas.marks);
}

std::vector<Mark> draw_chart_set(const Theme& theme, const ChartFrame& frame, const ChartSet& set, double u) {
  Canvas canvas;
  const MarkId id{"set", set.label};
  const Colour colour = set.look == ChartSet::Look::own ? theme.action : set.look == ChartSet::Look::other ? theme.edge : theme.second;
  const Vec2 start = frame.at(set.start);
  if (set.end) {
    const Vec2 end = frame.at(*set.end), d = end - start;
    const double length = glm::length(d);
    if (length > 12 * u) {
      const Vec2 along = d / length, across{-along.y, along.x};
      canvas.line(id, start, start + d * 0.9, theme.panel, 5.5 * u);
      canvas.line(id, start, start + d * (1 - 8 * u / length), colour, 2.4 * u, set.look == ChartSet::Look::other ? std::vector<double>{6 * u, 4 * u} : std::vector<double>{});
      canvas.fill(id, line_path({end, end - along * (10 * u) + across * (5 * u), end - along * (10 * u) - across * (5 * u)}, true), colour);
      const auto lip = [&](double f, double r) { canvas.add(draw_lip_sign(start + d * f, r * u, set.start.rounding + (set.end->rounding - set.start.rounding) * f, colour, theme.panel, 1.7 * u)); };
      if (length > 34 * u) lip(0.5, 6.4);
      if (length > 120 * u) lip(0.14, 5.2), lip(0.84, 5.2);
    }
  }
  if (set.look == ChartSet::Look::other) {
    const double s = 5.2 * u;
    const Path diamond = line_path({start + Vec2{0, -s}, start + Vec2{s, 0}, start + Vec2{0, s}, start + Vec2{-s, 0}}, true);
    canvas.fill(id, diamond, theme.panel);
    canvas.stroke(id, diamond, colour, 2 * u);
  } else canvas.circle(id, start, (set.look == ChartSet::Look::dragged ? 6.5 : 5) * u, colour, theme.panel, 1.5 * u);
  return std::move(canvas.marks);
}

std::vector<ChartSet> sets_in_phrase(const Take& take) {
  std::vector<ChartSet> out;
  if (!take.accent) return out;
  std::set<LexicalSet> seen;
  for (const Word& word : take.pronunciation.words)
    for (const Syllable& syllable : word.syllables) {
      if (!syllable.set || !seen.insert(*syllable.set).second) continue;
      const SetValue& value = take.accent->of(*syllable.set);
      if (const auto start = vowel_place(value.vowel)) out.push_back({std::string{to_keyword(*syllable.set)}, *start, is_glide(value.vowel) ? vowel_place(value.vowel, true) : std::nullopt});
    }
  if (!out.empty()) return out;
  // IPA input has no sets: the vowels themselves
  std::set<std::string> letters;
  for (const Segment& s : take.track.segments)
    if (const auto start = vowel_place(s.sound); start && letters.insert(to_ipa(s.sound)).second)
      out.push_back({to_ipa(s.sound), *start, is_glide(s.sound) ? vowel_place(s.sound, true) : std::nullopt});
  return out;
}

std::vector<ChartSet> sets_of(const Accent& accent, ChartSet::Look look) {
  std::vector<ChartSet> out;
  for (int i = 0; i < lexical_set_count; ++i) {
    const auto set = static_cast<LexicalSet>(i);
    const SetValue& value = accent.of(set);
    if (const auto start = vowel_place(value.vowel)) out.push_back({std::string{to_keyword(set)}, *start, is_glide(value.vowel) ? vowel_place(value.vowel, true) : std::nullopt, look, look == ChartSet::Look::own});
  }
  return out;
}

namespace {

bool overlap(const Rect& a, const Rect& b) { return a.x < b.right() && b.x < a.right() && a.y < b.bottom() && b.y < a.bottom(); }

/// Labels: sets of one point share a line ("LOT, CLOTH"); each goes to the first free side of its point.
struct LabelPlacer {
  Canvas& canvas;
  const Theme& theme;
  Rect field;
  double u;
  std::vector<Rect> taken;

  void place(const std::string& text, Vec2 point, Colour colour, bool bold) {
    const double size = 13.5 * u, w = text_width(text, size, bold), h = size * 1.15, off = 9 * u;
    const std::array<Vec2, 8> corners{Vec2{off, -h * 0.5}, Vec2{-off - w, -h * 0.5}, Vec2{-w / 2, off * 0.7}, Vec2{-w / 2, -off * 0.7 - h}, Vec2{off * 0.6, off * 0.5}, Vec2{-off * 0.6 - w, off * 0.5},
                                      Vec2{off * 0.6, -off * 0.5 - h}, Vec2{-off * 0.6 - w, -off * 0.5 - h}};
    double best = 1e300;
    Rect spot{};
    for (std::size_t i = 0; i < corners.size(); ++i) {
      const Rect r{point.x + corners[i].x, point.y + corners[i].y, w, h};
      double cost = 0.1 * static_cast<double>(i);
      for (const Rect& t : taken) cost += overlap(r, t) ? 10 : 0;
      cost += std::max({field.x - r.x, r.right() - field.right(), field.y - r.y, r.bottom() - field.bottom(), 0.0});
      if (cost < best) best = cost, spot = r;
    }
    taken.push_back(spot);
    canvas.text_middle({"set-label", text}, {spot.x, spot.y + h / 2}, text, {size, colour, bold, Anchor::start, 4 * u, theme.panel});
  }
};

} // namespace

ChartPicture compose_vowel_chart(const ChartView& view) {
  const Theme& theme = view.theme ? *view.theme : light_theme();
  const double u = view.u;
  ChartPicture picture;
  picture.frame.rect = {view.rect.x + 22 * u, view.rect.y + 20 * u, view.rect.width - 44 * u, view.rect.height - 32 * u};
  Canvas canvas;
  canvas.add(draw_chart_frame(theme, picture.frame, u, view.letters));
  std::vector<std::pair<Vec2, std::string>> points; // sets at one point share a label
  LabelPlacer labels{canvas, theme, view.rect, u, {}};
  for (const ChartSet& set : view.sets) canvas.add(draw_chart_set(theme, picture.frame, set, u));
  for (const ChartSet& set : view.sets) {
    const Vec2 at = picture.frame.at(set.start);
    labels.taken.push_back({at.x - 5 * u, at.y - 5 * u, 10 * u, 10 * u});
    if (set.end) {
      const Vec2 end = picture.frame.at(*set.end);
      for (const double f : {0.35, 0.5, 0.65, 0.9}) labels.taken.push_back({at.x + (end.x - at.x) * f - 5 * u, at.y + (end.y - at.y) * f - 5 * u, 10 * u, 10 * u});
    }
    picture.points.emplace_back(set.label, Rect{at.x - 10 * u, at.y - 10 * u, 20 * u, 20 * u});
    const auto same = std::find_if(points.begin(), points.end(), [&](const auto& p) { return glm::distance(p.first, at) < 4 * u; });
    if (same == points.end()) points.emplace_back(at, set.label);
    else same->second += ", " + set.label;
  }
  const Colour colour = theme.action;
  for (const auto& [at, text] : points) {
    const auto owner = std::find_if(view.sets.begin(), view.sets.end(), [&, where = at](const ChartSet& s) { return glm::distance(picture.frame.at(s.start), where) < 4 * u; });
    const Colour hue = owner->look == ChartSet::Look::own ? colour : owner->look == ChartSet::Look::other ? theme.quiet : theme.second;
    labels.place(text, at, hue, owner->bold);
  }
  if (view.now) canvas.circle({"tongue-now", {}}, picture.frame.at(*view.now), 9 * u, clear, theme.ink, 2.2 * u);
  picture.group.mark = {"vowel-chart", {}};
  picture.group.marks = std::move(canvas.marks);
  return picture;
}

} // namespace mw
