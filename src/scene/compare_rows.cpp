#include "scene/compare_view.h"

#include "base/text.h"
#include "scene/accent_picture.h"
#include "scene/signs.h"
#include "text/shaper.h"

#include <algorithm>
#include <cmath>

namespace mw {
namespace {

constexpr double least_cell_u = 27, most_cell_u = 84, sound_u = 24;

// Room for the names of the accents, u.
double gutter_of(const CompareRowsView& view) { return view.brief ? 84 : view.rect.width > 1000 * view.u ? 188 : 150; }

/// A word over its columns.
struct ColumnWord { std::string text; std::size_t first, last; };

std::string shown(const std::vector<ShownWord>& words, std::size_t segment) {
  const auto w = std::find_if(words.begin(), words.end(), [&](const ShownWord& x) { return segment >= x.first && segment <= x.last; });
  return w == words.end() ? "" : w->text;
}

// A column belongs to the word of its target sound; a sound said on the own side only stays with the columns of its own word.
std::vector<ColumnWord> words_of(const Comparing& c) {
  const auto own = shown_words(*c.own), target = shown_words(*c.target);
  std::vector<ColumnWord> out;
  int own_word = -1, target_word = -1; // of the word in hand
  for (std::size_t i = 0; i < c.columns.size(); ++i) {
    const CompareColumn& column = c.columns[i];
    const int o = column.own ? c.own->track.segments[*column.own].word : -1, t = column.target ? c.target->track.segments[*column.target].word : -1;
    const bool same = !out.empty() && (t >= 0 && target_word >= 0 ? t == target_word : o >= 0 && own_word >= 0 ? o == own_word : t >= 0 && o < 0);
    if (!same) {
      out.push_back({column.target ? shown(target, *column.target) : shown(own, *column.own), i, i});
      own_word = o, target_word = t;
    }
    out.back().last = i;
    if (o >= 0) own_word = o;
    if (t >= 0) target_word = t;
  }
  return out;
}

struct ColumnPage { std::size_t first, last; };
// Broken at words; a word longer than a page is broken where it must.
std::vector<ColumnPage> pages_of(const std::vector<ColumnWord>& words, std::size_t most) {
  std::vector<ColumnPage> pages;
  for (const ColumnWord& w : words) {
    if (!pages.empty() && w.last - pages.back().first + 1 <= most) {
      pages.back().last = w.last;
      continue;
    }
    for (std::size_t from = w.first; from <= w.last; from += most) pages.push_back({from, std::min(from + most - 1, w.last)});
  }
  if (pages.empty()) pages.push_back({0, 0});
  return pages;
}

struct RowsPen {
  const Comparing& c;
  const CompareRowsView& view;
  const Theme& theme;
  double u, left, cell, word_y, first_y, height, second_y;
  ColumnPage page;
  Canvas canvas{};

  [[nodiscard]] double x_of(std::size_t column) const { return left + static_cast<double>(column - page.first) * cell; }

  void draw_label(const Take& take, ChartSet::Look look, const char* role, double y) {
    const double middle = y + height / 2, x = view.rect.x;
    canvas.add(draw_side_mark(theme, look, {x + 17 * u, middle}, 6 * u));
    if (view.brief) {
      const std::string id = take.accent && take.accent->status != "yours" ? take.accent->id : "yours";
      canvas.fitted({"row-name", {}}, {x + 30 * u, middle_baseline(middle, 15 * u, true)}, id, {15 * u, theme.ink, true}, gutter_of(view) * u - 36 * u);
      return;
    }
    std::string name = take.accent ? short_name(*take.accent) : take.request.accent;
    const double room = (gutter_of(view) - 48) * u;
    if (text_width(name, 0.85 * 15 * u, true) > room) name = take.accent ? take.accent->id : take.request.accent;
    canvas.fitted({"row-name", {}}, {x + 34 * u, middle_baseline(middle - 8 * u, 15 * u, true)}, name, {15 * u, theme.ink, true}, room);
    canvas.text_middle({"row-role", {}}, {x + 34 * u, middle + 10 * u}, role, {13 * u, theme.quiet});
  }
  void draw_cell(std::size_t i, const Take& take, std::optional<std::size_t> segment, double y) {
    const Rect r{x_of(i) + 2 * u, y + 2 * u, cell - 4 * u, height - 4 * u};
    const bool now = view.now == i, differs = !c.columns[i].same;
    if (!segment) {
      canvas.box({"open-cell", to_text(static_cast<int>(i))}, r, 6 * u, now ? theme.select : clear, now ? theme.action : theme.edge, (now ? 2 : 1.4) * u, {2 * u, 4 * u});
      return;
    }
    const std::string ipa = ipa_of(take, *segment);
    if (now) canvas.box({"cell", ipa}, r, 6 * u, theme.select, theme.action, 2 * u);
    else if (differs) canvas.box({"cell", ipa}, r, 6 * u, theme.changed, clash_edge(theme), 1.2 * u);
    const double size = fitting_size(ipa, sound_u * u, differs, cell - 6 * u, 0.4);
    canvas.text_middle({"sound", ipa}, r.centre(), ipa, {size, theme.ink, differs, Anchor::middle});
  }
  void draw_arrow(std::size_t i) {
    if (c.columns[i].same) return;
    const double x = x_of(i) + cell / 2, from = first_y + height - 1 * u, to = second_y + 1 * u, h = std::min(5 * u, cell * 0.3);
    canvas.line({"becomes", {}}, {x, from}, {x, to - h}, theme.dark ? theme.ink : theme.clash_ink, 2 * u);
    canvas.fill({"becomes", {}}, line_path({{x - h, to - 1.4 * h}, {x + h, to - 1.4 * h}, {x, to}}, true), theme.dark ? theme.ink : theme.clash_ink);
  }
  void draw_word(const ColumnWord& w) {
    const std::size_t first = std::max(w.first, page.first), last = std::min(w.last, page.last);
    if (first > last) return;
    const double x0 = x_of(first), x1 = x_of(last) + cell;
    const bool now = view.now && *view.now >= w.first && *view.now <= w.last;
    const double size = fitting_size(w.text, 17 * u, now, x1 - x0 - 6 * u, 0.75);
    canvas.text({"word", w.text}, {(x0 + x1) / 2, word_y}, cut_text(w.text, size, now, x1 - x0 - 4 * u), {size, theme.ink, now, Anchor::middle});
    if (first > page.first) canvas.line({"word-border", {}}, {x0, word_y - 12 * u}, {x0, second_y + height}, theme.rule, 1.2 * u);
  }
};

} // namespace

CompareRowsPicture compose_compare_rows(const Comparing& c, const CompareRowsView& view) {
  const Theme& theme = view.theme ? *view.theme : light_theme();
  const double u = view.u, gutter = gutter_of(view) * u, width = view.rect.width - gutter - 12 * u;
  const auto words = words_of(c);
  const auto pages = pages_of(words, std::max<std::size_t>(4, static_cast<std::size_t>(width / (least_cell_u * u))));
  CompareRowsPicture out;
  out.pages = pages.size();
  if (view.page) out.page = std::min(*view.page, pages.size() - 1);
  else if (view.now)
    while (out.page + 1 < pages.size() && pages[out.page].last < *view.now) ++out.page;
  const ColumnPage page = pages[out.page];
  const std::size_t n = c.columns.empty() ? 0 : page.last - page.first + 1;
  const double cell = std::min(most_cell_u * u, width / static_cast<double>(std::max<std::size_t>(n, 1)));
  // words, row, gap, row: as tall as the panel lets them be
  const double tall = std::clamp((view.rect.height - 56 * u) / 2 - 6 * u, 24 * u, 42 * u), y = view.rect.y;
  const double spare = std::max(0.0, view.rect.height - 34 * u - 2 * tall - 12 * u - 8 * u) * 0.35;
  RowsPen pen{c, view, theme, u, view.rect.x + gutter, cell, y + 23 * u + spare, y + 34 * u + spare, tall, y + 46 * u + tall + spare, page};
  if (view.brief) { // larger letters in as little room: words, row, arrows, row
    pen.height = std::max(24 * u, (view.rect.height - 44 * u) / 2);
    pen.word_y = y + 20 * u, pen.first_y = y + 27 * u, pen.second_y = pen.first_y + pen.height + 12 * u;
  }
  pen.draw_label(*c.own, ChartSet::Look::second, "own", pen.first_y);
  pen.draw_label(*c.target, ChartSet::Look::own, "target", pen.second_y);
  for (const ColumnWord& w : words) pen.draw_word(w);
  for (std::size_t i = page.first; n > 0 && i <= page.last; ++i) {
    pen.draw_cell(i, *c.own, c.columns[i].own, pen.first_y);
    pen.draw_cell(i, *c.target, c.columns[i].target, pen.second_y);
    pen.draw_arrow(i);
    out.cells.emplace_back(i, Rect{pen.x_of(i), pen.first_y, cell, pen.second_y + pen.height - pen.first_y});
  }
  out.swap = {view.rect.x + 14 * u, pen.word_y - 17 * u, 60 * u, 24 * u};
  out.group.mark = {"compare-rows", {}};
  out.group.marks = std::move(pen.canvas.marks);
  return out;
}

} // namespace mw
