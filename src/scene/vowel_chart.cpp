#include "scene/vowel_chart.h"

#include "base/text.h"
#include "ipa/inventory.h"
#include "scene/chart_labels.h"
#include "scene/signs.h"

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
struct Shift { std::string_view mark; double dx, dy, dr = 0; };
constexpr std::array shifts{Shift{"\u031D", 0, -0.085}, Shift{"\u031E", 0, 0.085}, Shift{"\u031F", -0.12, 0}, Shift{"\u0320", 0.12, 0}, Shift{"\u0308", 0, 0}, Shift{"\u033D", 0, 0},
                           Shift{"\u0339", 0, 0, 0.3}, Shift{"\u031C", 0, 0, -0.3}}; // lips: as speakers/modifiers.csv

template <std::size_t N> std::optional<double> value_of(const std::array<Named, N>& table, std::string_view name) {
  for (const Named& row : table)
    if (row.name == name) return row.value;
  return {};
}

VowelPlace shifted(VowelPlace p, const std::vector<std::string>& marks) {
  for (const std::string& mark : marks)
    for (const Shift& s : shifts)
      if (mark == s.mark) {
        p.x += s.dx, p.y += s.dy, p.rounding = std::clamp(p.rounding + s.dr, 0.0, 1.0);
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

namespace {

// letters beside the frame: place, and how far off, in u
struct Edge { const char* letter; double x, y; Vec2 off; };
const std::array edge_letters{Edge{"i", 0, 0, {-12, 0}}, Edge{"e", 0, 1.0 / 3, {-12, 0}}, Edge{"\u025B", 0, 2.0 / 3, {-12, 0}}, Edge{"a", 0, 1, {-12, 0}}, Edge{"\u0251", 1, 1, {12, 0}},
                              Edge{"\u0254", 1, 2.0 / 3, {12, 0}}, Edge{"o", 1, 1.0 / 3, {12, 0}}, Edge{"u", 1, 0, {12, 0}}, Edge{"\u0259", 0.5, 0.5, {10, -9}}, Edge{"\u0289", 0.5, 0, {0, -11}}};

} // namespace

std::vector<Mark> draw_chart_frame(const Theme& theme, const ChartFrame& frame, double u, bool letters) {
  Canvas canvas;
  const auto at = [&](double x, double y) { return frame.at({x, y, 0}); };
  const Path outline = line_path({at(0, 0), at(1, 0), at(1, 1), at(0, 1)}, true);
  canvas.fill({"chart", {}}, outline, with_alpha(theme.dark ? theme.raised : theme.ground, 0.55));
  for (const double y : {1.0 / 3, 2.0 / 3}) canvas.line({"chart", "line"}, at(0, y), at(1, y), theme.rule, 1.2 * u);
  canvas.line({"chart", "line"}, at(0.5, 0), at(0.5, 1), theme.rule, 1.2 * u);
  canvas.stroke({"chart", {}}, outline, theme.edge, 1.6 * u);
  if (!letters) return std::move(canvas.marks);
  for (const Edge& e : edge_letters)
    canvas.text_middle({"chart-letter", e.letter}, at(e.x, e.y) + e.off * u, e.letter, {15 * u, theme.quiet, false, Anchor::middle});
  return std::move(canvas.marks);
}

namespace {

bool is_hollow(ChartSet::Look look) { return look == ChartSet::Look::other || look == ChartSet::Look::second; }
Colour colour_of(const Theme& theme, ChartSet::Look look) {
  return look == ChartSet::Look::own ? theme.action : look == ChartSet::Look::other ? theme.edge : theme.second;
}
Path diamond_path(Vec2 centre, double s) {
  return line_path({centre + Vec2{0, -s}, centre + Vec2{s, 0}, centre + Vec2{0, s}, centre + Vec2{-s, 0}}, true);
}

} // namespace

std::vector<Mark> draw_chart_glide(const Theme& theme, const ChartFrame& frame, const ChartSet& set, double u) {
  Canvas canvas;
  if (!set.end) return {};
  const MarkId id{"set", set.label};
  const Colour colour = colour_of(theme, set.look);
  const Vec2 start = frame.at(set.start), end = frame.at(*set.end), d = end - start;
  const double length = glm::length(d);
  if (length <= 12 * u) return {};
  const Vec2 along = d / length, across{-along.y, along.x};
  canvas.line(id, start, start + d * 0.9, theme.panel, 5.5 * u);
  canvas.line(id, start, start + d * (1 - 8 * u / length), colour, 2.4 * u, is_hollow(set.look) ? std::vector<double>{6 * u, 4 * u} : std::vector<double>{});
  canvas.fill(id, line_path({end, end - along * (10 * u) + across * (5 * u), end - along * (10 * u) - across * (5 * u)}, true), colour);
  const auto lip = [&](double f, double r) { canvas.add(draw_lip_sign(start + d * f, r * u, set.start.rounding + (set.end->rounding - set.start.rounding) * f, colour, theme.panel, 1.7 * u)); };
  if (length > 34 * u) lip(0.5, 6.4);
  if (length > 120 * u) lip(0.14, 5.2), lip(0.84, 5.2);
  return std::move(canvas.marks);
}

std::vector<Mark> draw_chart_point(const Theme& theme, const ChartFrame& frame, const ChartSet& set, double u) {
  Canvas canvas;
  const MarkId id{"set", set.label};
  const Colour colour = colour_of(theme, set.look);
  const Vec2 at = frame.at(set.start);
  if (is_hollow(set.look)) { // large enough that a disc at the same place stands inside
    const Path diamond = diamond_path(at, (set.look == ChartSet::Look::second ? 7.4 : 5.2) * u);
    canvas.fill(id, diamond, theme.panel);
    canvas.stroke(id, diamond, colour, 2 * u);
  } else canvas.circle(id, at, (set.look == ChartSet::Look::dragged ? 6.5 : 5) * u, colour, theme.panel, 1.5 * u);
  return std::move(canvas.marks);
}

std::vector<Mark> draw_chart_set(const Theme& theme, const ChartFrame& frame, const ChartSet& set, double u) {
  Canvas canvas;
  canvas.add(draw_chart_glide(theme, frame, set, u));
  canvas.add(draw_chart_point(theme, frame, set, u));
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

/// Sets of one look at one point share a label ("LOT, CLOTH"); one label for both accents where they agree.
struct PointLabel {
  Vec2 at;
  std::vector<std::string> names;
  ChartSet::Look look;
  bool bold;
};
std::vector<PointLabel> labels_of(const std::vector<ChartSet>& sets, const ChartFrame& frame, double u) {
  std::vector<PointLabel> labels;
  for (const ChartSet& set : sets) {
    const Vec2 at = frame.at(set.start);
    const auto same = std::find_if(labels.begin(), labels.end(), [&](const PointLabel& l) { return l.look == set.look && glm::distance(l.at, at) < 4 * u; });
    if (same == labels.end()) labels.push_back({at, {set.label}, set.look, set.bold});
    else same->names.push_back(set.label);
  }
  return labels;
}

// Points, arrows and the letters of the frame, which labels keep clear of.
LabelField field_of(const ChartView& view, const ChartFrame& frame) {
  const double u = view.u;
  LabelField field{view.rect, {}, {}};
  for (const ChartSet& set : view.sets) {
    const Vec2 at = frame.at(set.start);
    field.boxes.push_back({at.x - 6 * u, at.y - 6 * u, 12 * u, 12 * u});
    if (!set.end) continue;
    const Vec2 end = frame.at(*set.end);
    field.lines.emplace_back(at, end);
    field.boxes.push_back({end.x - 4 * u, end.y - 4 * u, 8 * u, 8 * u});
    if (glm::distance(at, end) > 34 * u) { // the lips' sign
      const Vec2 middle = (at + end) * 0.5;
      field.boxes.push_back({middle.x - 6 * u, middle.y - 5 * u, 12 * u, 10 * u});
    }
  }
  if (view.letters)
    for (const Edge& e : edge_letters) {
      const Vec2 at = frame.at({e.x, e.y, 0}) + e.off * u;
      field.boxes.push_back({at.x - 5 * u, at.y - 7 * u, 10 * u, 14 * u});
    }
  const auto rule = [&](VowelPlace a, VowelPlace b) { field.rules.emplace_back(frame.at(a), frame.at(b)); };
  for (const double y : {0.0, 1.0 / 3, 2.0 / 3, 1.0}) rule({0, y}, {1, y});
  for (const double x : {0.0, 0.5, 1.0}) rule({x, 0}, {x, 1});
  return field;
}

// At most three names a line, lines of like length.
std::vector<std::string> lines_of(const std::vector<std::string>& names) {
  const std::size_t rows = (names.size() + 2) / 3, each = (names.size() + rows - 1) / rows;
  std::vector<std::string> lines;
  for (std::size_t i = 0; i < names.size(); i += each)
    lines.push_back(join({names.begin() + static_cast<std::ptrdiff_t>(i), names.begin() + static_cast<std::ptrdiff_t>(std::min(i + each, names.size()))}, ", "));
  return lines;
}

void draw_labels(Canvas& canvas, const ChartView& view, const Theme& theme, const ChartFrame& frame) {
  const auto labels = labels_of(view.sets, frame, view.u);
  std::vector<LabelWish> wishes;
  for (const PointLabel& l : labels) wishes.push_back({lines_of(l.names), l.at, view.label * view.u, l.bold});
  const auto placed = place_labels(wishes, field_of(view, frame), view.u);
  for (std::size_t i = 0; i < labels.size(); ++i) {
    const Colour colour = labels[i].look == ChartSet::Look::other ? theme.quiet : colour_of(theme, labels[i].look);
    if (placed[i].led) canvas.line({"set-leader", labels[i].names.front()}, placed[i].from, placed[i].to, colour, 1.1 * view.u);
    const Rect& box = placed[i].box;
    const double step = wishes[i].size * label_step, x = placed[i].rightwards ? box.x + view.u : box.right() - view.u;
    for (std::size_t k = 0; k < wishes[i].lines.size(); ++k)
      canvas.text_middle({"set-label", labels[i].names.front()}, {x, box.y + (static_cast<double>(k) + 0.5) * step}, wishes[i].lines[k],
                         {wishes[i].size, colour, labels[i].bold, placed[i].rightwards ? Anchor::start : Anchor::end, 4 * view.u, theme.panel});
  }
}

// From where the second accent says a set to where one's own does.
void join_pairs(Canvas& canvas, const ChartView& view, const Theme& theme, const ChartFrame& frame) {
  for (const ChartSet& a : view.sets)
    for (const ChartSet& b : view.sets) {
      if (a.look != ChartSet::Look::second || b.look != ChartSet::Look::own || a.label != b.label || a.end || b.end) continue;
      const Vec2 from = frame.at(a.start), to = frame.at(b.start);
      if (glm::distance(from, to) > 14 * view.u) canvas.line({"set-pair", a.label}, from, to, theme.dark ? theme.ink : theme.clash_ink, 1.6 * view.u, {2 * view.u, 4 * view.u});
    }
}

} // namespace

ChartPicture compose_vowel_chart(const ChartView& view) {
  const Theme& theme = view.theme ? *view.theme : light_theme();
  const double u = view.u;
  ChartPicture picture;
  picture.frame.rect = {view.rect.x + 22 * u, view.rect.y + 20 * u, view.rect.width - 44 * u, view.rect.height - (20 + view.foot) * u};
  Canvas canvas;
  canvas.add(draw_chart_frame(theme, picture.frame, u, view.letters));
  if (view.join_pairs) join_pairs(canvas, view, theme, picture.frame);
  for (const ChartSet& set : view.sets) canvas.add(draw_chart_glide(theme, picture.frame, set, u)); // no arrow over a point
  for (const bool hollow : {true, false})
    for (const ChartSet& set : view.sets)
      if (is_hollow(set.look) == hollow) canvas.add(draw_chart_point(theme, picture.frame, set, u));
  for (const ChartSet& set : view.sets) {
    const Vec2 at = picture.frame.at(set.start);
    picture.points.emplace_back(set.label, Rect{at.x - 10 * u, at.y - 10 * u, 20 * u, 20 * u});
  }
  draw_labels(canvas, view, theme, picture.frame);
  if (view.now_second) {
    const Path square = diamond_path(picture.frame.at(*view.now_second), 11 * u);
    canvas.stroke({"tongue-now", "second"}, square, theme.panel, 4.4 * u);
    canvas.stroke({"tongue-now", "second"}, square, view.now ? theme.second : theme.ink, 2.2 * u);
  }
  if (view.now) canvas.circle({"tongue-now", {}}, picture.frame.at(*view.now), 9 * u, clear, view.now_second ? theme.action : theme.ink, 2.2 * u);
  picture.group.mark = {"vowel-chart", {}};
  picture.group.marks = std::move(canvas.marks);
  return picture;
}

} // namespace mw
