#include "scene/pattern_layout.h"

#include "text/shaper.h"

#include <algorithm>
#include <cmath>

namespace mw {
namespace {

/// A stretch of height between what it needs and what it likes to have, in u.
struct Need {
  double least = 0, ideal = 0;
  Need& operator+=(Need n) { return least += n.least, ideal += n.ideal, *this; }
};

/// Heights of one page from top to bottom (visual design of the practice views, section 5; measures of its picture).
struct Needs {
  Need words{40, 44}, gap{3, 6}, tongue{34, 48}, lips{26, 38}, before_end{4, 10}, before_strips{5, 10}, strip{20, 26}, line{22, 30}, key{20, 28};
  std::array<Need, 3> above{}, cards{{{44, 60}, {30, 40}, {44, 60}}}, below{};
  std::size_t strips = 0, lines = 0;
  [[nodiscard]] Need total(bool with_key) const {
    Need sum = words;
    for (std::size_t i = 0; i < 3; ++i) sum += above[i], sum += cards[i], sum += below[i];
    for (const Need& n : {gap, tongue, lips, before_end, before_strips}) sum += n;
    for (std::size_t i = 0; i < strips; ++i) sum += strip;
    for (std::size_t i = 0; i < lines; ++i) sum += line;
    if (with_key) sum += key;
    return sum;
  }
};

bool is_bridge(const PatternFinding& f) { return f.told.kind == ClashKind::swap && f.columns.size() > 2; }
bool is_link(const PatternFinding& f) { return f.told.kind == ClashKind::near_twins; }

/// Labels of the links of a lane: in the middle of their link, on the first level where they touch no other.
void place_links(PatternLayout& out, const ShownPattern& p, const PatternChoice& choice) {
  const double r = link_flag_u * out.u, step = 26 * out.u;
  for (const std::size_t i : choice.shown) {
    const PatternFinding& f = p.findings[i];
    if (!is_link(f)) continue;
    const auto [low, high] = std::minmax_element(f.columns.begin(), f.columns.end());
    const double from = std::max(out.x(static_cast<double>(*low)), out.left), to = std::min(out.x(static_cast<double>(*high)), out.right);
    const double width = std::min(2 * r + 8 * out.u + text_width(words_of(p.pattern, f), pattern_text_u * out.u), out.right - out.left - 8 * out.u);
    // in a tiny picture the left edge counts
    const double x = std::max(out.left + 4 * out.u, std::min((from + to - width) / 2, out.right - width - 4 * out.u));
    LinkPlace place{i, {x, 0, width, 2 * r}, 0};
    for (bool again = true; again;) {
      again = false;
      for (const LinkPlace& other : out.links) {
        const bool same_lane = p.findings[other.finding].slot == f.slot, apart = place.label.x > other.label.right() + 6 * out.u || place.label.right() < other.label.x - 6 * out.u;
        if (same_lane && !apart && other.level == place.level) ++place.level, again = true;
      }
    }
    place.label.y = 16 * out.u + place.level * step;
    out.links.push_back(place);
  }
}

/// First and last column of the strips of a row that touch this page; none without.
std::optional<std::pair<std::size_t, std::size_t>> reach_of(const std::vector<StripLane>& lanes, const PatternPage& page) {
  std::optional<std::pair<std::size_t, std::size_t>> reach;
  for (const StripLane& strip : lanes)
    for (const std::size_t c : strip.lane->syllables)
      if (page.holds(c)) reach = reach ? std::pair{std::min(reach->first, c), std::max(reach->second, c)} : std::pair{c, c};
  return reach;
}

void place_strips(PatternLayout& out, const ShownPattern& p, const PatternChoice& choice) {
  const auto lanes = strip_lanes(p.pattern);
  std::vector<std::pair<std::size_t, std::size_t>> taken;
  for (const Slot slot : all_slots)
    if (const auto reach = reach_of(lanes[static_cast<std::size_t>(slot)], out.page)) out.strip_slots.push_back(slot), taken.push_back(*reach);
  // "3 against 2": left or right of the strips where it fits over two rows, else a line below them
  const auto rows = static_cast<int>(taken.size());
  int line = rows;
  for (const std::size_t i : choice.shown) {
    const PatternFinding& f = p.findings[i];
    if (!f.step) continue;
    const double width = 48 * out.u + text_width(words_of(p.pattern, f), 15 * out.u, true);
    StepPlace place{i, out.left + 2 * out.u, line, 1, true};
    for (int row = rows - 2; row >= 0 && place.row == line; --row) {
      const auto a = static_cast<std::size_t>(row);
      const double from = out.x(static_cast<double>(std::min(taken[a].first, taken[a + 1].first))) - out.column / 2;
      const double to = out.x(static_cast<double>(std::max(taken[a].second, taken[a + 1].second))) + out.column / 2;
      const bool free_row = std::none_of(out.steps.begin(), out.steps.end(), [&](const StepPlace& s) { return s.row == row; });
      if (!free_row) continue;
      if (from - out.left > width) place.row = row, place.rows = 2;
      else if (out.right - to > width) place.row = row, place.rows = 2, place.x = to + 10 * out.u;
    }
    if (place.row == line) ++line;
    out.steps.push_back(place);
  }
}

Needs needs_of(const PatternLayout& out, const ShownPattern& p, const PatternChoice& choice) {
  Needs needs;
  for (const Slot slot : {Slot::onset, Slot::coda}) needs.above[static_cast<std::size_t>(slot)] = {6, 10}, needs.below[static_cast<std::size_t>(slot)] = {6, 10};
  for (const std::size_t i : choice.shown)
    if (is_bridge(p.findings[i])) needs.above[static_cast<std::size_t>(p.findings[i].slot)] = {46, 58};
  for (const LinkPlace& link : out.links) {
    Need& below = needs.below[static_cast<std::size_t>(p.findings[link.finding].slot)];
    const double need = link.label.bottom() / out.u + 4;
    below = {std::max(below.least, need), std::max(below.ideal, need + 2)};
  }
  needs.strips = out.strip_slots.size();
  const bool sentence = p.findings.empty() && needs.strips == 0 && out.count > 1;
  needs.lines = sentence ? 1 : static_cast<std::size_t>(std::count_if(out.steps.begin(), out.steps.end(), [&](const StepPlace& s) { return s.row >= static_cast<int>(needs.strips); }));
  if (needs.strips + needs.lines == 0) needs.before_strips = {};
  return needs;
}

void set_heights(PatternLayout& out, const Needs& n, double top, double bottom, bool with_key) {
  const Need total = n.total(with_key);
  const double room = (bottom - top) / out.u;
  // a little more than ideal where there is room; what is left stays free above the key
  const double f = std::clamp((room - total.least) / std::max(total.ideal - total.least, 1.0), 0.0, 1.6);
  const auto size = [&](const Need& need) { return (need.least + f * (need.ideal - need.least)) * out.u; };
  const auto card = [&](const Need& need) { return (need.least + std::min(f, 1.1) * (need.ideal - need.least)) * out.u; };
  double y = top;
  out.words = y, y += size(n.words);
  for (const Slot slot : all_slots) {
    const auto i = static_cast<std::size_t>(slot);
    PatternRow& row = out.rows[i];
    row.top = y, y += size(n.above[i]);
    row.cards = y, row.card_height = card(n.cards[i]), y += row.card_height;
    y += size(n.below[i]), row.bottom = y;
    if (slot == Slot::onset) y += size(n.gap);
    if (slot == Slot::nucleus) {
      out.glide_height = size(n.tongue);
      out.tongue = y + size(n.tongue) / 2, y += size(n.tongue);
      out.lips = y + size(n.lips) / 2, y += size(n.lips) + size(n.before_end);
    }
  }
  y += size(n.before_strips);
  out.strips = y, out.strip_step = size(n.strip);
  if (with_key) out.key = bottom - size(n.key) / 2;
}

} // namespace

const std::string& words_of(const Pattern& pattern, const PatternFinding& f) { return f.link ? pattern.links[*f.link].text : pattern.out_of_step[*f.step].text; }

std::size_t pattern_columns(double width, double u, double gutter) {
  constexpr double least_u = 96.5; // visual design of the practice views, section 5: never under 97, rounded pixels allowed for
  return static_cast<std::size_t>(std::max(1.0, std::floor((width / u - gutter - 12) / least_u)));
}

namespace {
/// All that depends on the width alone.
PatternLayout lay_out_columns(const ShownPattern& p, const PatternChoice& choice, const PatternPage& page, const PatternView& view, double u) {
  PatternLayout out;
  out.u = u, out.page = page, out.count = p.pattern.syllables.size();
  out.left = view.rect.x + view.gutter * u, out.right = view.rect.right() - 12 * u;
  constexpr double widest = 190; // few syllables do not drift apart
  out.column = std::min((out.right - out.left) / static_cast<double>(page.count()), widest * u);
  place_links(out, p, choice);
  place_strips(out, p, choice);
  return out;
}
} // namespace

double pattern_height(const ShownPattern& p, const PatternPage& page, double width, double u) {
  const PatternChoice choice = choose_findings(p, page, {}, {});
  PatternView view;
  view.rect.width = width;
  return needs_of(lay_out_columns(p, choice, page, view, u), p, choice).total(true).ideal;
}

PatternLayout lay_out_pattern(const ShownPattern& p, const PatternChoice& choice, const PatternPage& page, const PatternView& view) {
  const double top = view.rect.y, bottom = view.rect.bottom();
  for (double u = view.u;; u *= 0.94) { // a low panel: smaller in all
    PatternLayout out = lay_out_columns(p, choice, page, view, u);
    const Needs needs = needs_of(out, p, choice);
    const double room = (bottom - top) / u;
    if (needs.total(false).least > room && u > 0.2 * view.u) continue;
    set_heights(out, needs, top, bottom, view.key && needs.total(true).least <= room);
    return out;
  }
}

} // namespace mw
