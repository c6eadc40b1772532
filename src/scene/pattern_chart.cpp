#include "scene/pattern_chart.h"

#include "base/text.h"
#include "scene/pattern_pen.h"
#include "scene/signs.h"
#include "text/shaper.h"

#include <algorithm>

namespace mw {
namespace {

constexpr std::array<const char*, 3> slot_words{"start", "vowel", "end"};

/// Shown words and the columns of each on this page.
struct WordPlace { std::string text; std::size_t first = 0, last = 0; };
std::vector<WordPlace> words_on(const PatternPen& pen) {
  const auto words = shown_words(pen.take);
  std::vector<WordPlace> out;
  for (std::size_t c = pen.at.page.first; c <= pen.at.page.last; ++c) {
    const PatternSyllable& s = pen.pattern().syllables[c];
    const bool same = c > pen.at.page.first && pen.pattern().syllables[c - 1].word == s.word;
    if (same) out.back().last = c;
    else out.push_back({s.word >= 0 && static_cast<std::size_t>(s.word) < words.size() ? words[static_cast<std::size_t>(s.word)].text : std::string(), c, c});
  }
  return out;
}

void draw_lane_names(PatternPen& pen) {
  const double u = pen.u(), x = pen.at.left - 14 * u;
  for (const Slot slot : all_slots) {
    const auto i = static_cast<std::size_t>(slot);
    const PatternRow& row = pen.at.rows[i];
    const bool here = pen.view.lane == slot;
    pen.canvas.text_middle({"lane-name", slot_words[i]}, {x, row.cards + row.card_height / 2}, slot_words[i], {15 * u, here ? pen.theme.action : pen.theme.ink, true, Anchor::end});
  }
  const bool hints = pen.at.glide_height > 42 * u;
  for (const auto& [name, articulator, hint, y] : {std::tuple{"tongue", Articulator::body, "← forward", pen.at.tongue}, std::tuple{"lips", Articulator::lips, "← spread", pen.at.lips}}) {
    const double middle = y - (hints ? 9 : 0) * u;
    pen.canvas.text_middle({"lane-name", name}, {x, middle}, name, {13.5 * u, pen.theme.ink, false, Anchor::end});
    pen.canvas.add(draw_articulator(articulator, {x - text_width(name, 13.5 * u) - 13 * u, middle}, 6 * u, pen.theme.of(articulator)));
    if (hints) pen.canvas.text_middle({"lane-hint", name}, {x, middle + 18 * u}, hint, {12.5 * u, pen.theme.quiet, false, Anchor::end});
  }
}

/// One strip: the run from one place to the next before it comes round again, cut where columns are left out.
void draw_run(PatternPen& pen, const PatternLane& lane, std::size_t from, std::size_t to, double y, bool first, double strength) {
  const double u = pen.u(), height = pen.at.strip_step - 6.5 * u;
  std::size_t a = from;
  while (a < to) {
    std::size_t b = a + 1; // a loop goes back to its first column: another piece
    while (b < to && lane.syllables[b] > lane.syllables[b - 1]) ++b;
    const double left = std::max(pen.at.x(static_cast<double>(lane.syllables[a])) - pen.at.column / 2, pen.at.left), right = std::min(pen.at.x(static_cast<double>(lane.syllables[b - 1])) + pen.at.column / 2, pen.at.right);
    if (right > left + u) {
      Canvas inside;
      const Path paper = paper_path({left + 2 * u, y, right - left - 4 * u, height}, u, 200 + static_cast<std::size_t>(lane.slot) * 31 + a);
      inside.fill({"strip", slot_words[static_cast<std::size_t>(lane.slot)]}, paper, first ? pen.theme.select : pen.theme.raised);
      inside.stroke({"strip", slot_words[static_cast<std::size_t>(lane.slot)]}, paper, pen.theme.action, 1.6 * u);
      for (std::size_t i = a; i < b; ++i)
        if (pen.at.page.holds(lane.syllables[i])) {
          const double size = fitting_size(lane.items[i], std::min(15.5 * u, height * 0.8), i == from, pen.at.column - 14 * u, 0.6);
          inside.text_middle({"strip-sound", lane.items[i]}, {pen.at.x(static_cast<double>(lane.syllables[i])), y + height / 2}, lane.items[i], {size, pen.theme.ink, i == from, Anchor::middle});
        }
      Group group{{"strip-run", {}}};
      group.opacity = strength;
      group.marks = std::move(inside.marks);
      pen.canvas.add(std::move(group));
    }
    a = b;
  }
}

void draw_lane_strips(PatternPen& pen, Slot slot, const std::vector<StripLane>& lanes, double y) {
  const double u = pen.u();
  std::string name = slot_words[static_cast<std::size_t>(slot)];
  for (const StripLane& strip : lanes) {
    const PatternLane& lane = *strip.lane;
    if (std::none_of(lane.syllables.begin(), lane.syllables.end(), [&](std::size_t c) { return pen.at.page.holds(c); })) continue;
    std::size_t finding = pen.shown.findings.size();
    for (std::size_t i = 0; i < pen.shown.findings.size(); ++i)
      if (strip.step && pen.shown.findings[i].step == strip.step) finding = i;
    name = std::string(slot_words[static_cast<std::size_t>(slot)]) + (lane.period == 1 ? ", always" : ", every " + to_text(static_cast<int>(lane.period)));
    for (std::size_t k = 0; k < lane.syllables.size(); k += lane.period)
      draw_run(pen, lane, k, std::min(k + lane.period, lane.syllables.size()), y, k == 0, pen.strength(finding));
  }
  pen.canvas.text_middle({"strip-name", name}, {pen.at.left - 14 * u, y + (pen.at.strip_step - 6.5 * u) / 2}, name, {13.5 * u, pen.theme.ink, false, Anchor::end});
}

void draw_step(PatternPen& pen, const StepPlace& place) {
  const PatternFinding& f = pen.shown.findings[place.finding];
  const double u = pen.u(), r = std::min(17 * u, pen.at.strip_step * (place.rows > 1 ? 0.8 : 0.5));
  const double y = pen.at.strips + (place.row + place.rows / 2) * pen.at.strip_step - 3 * u;
  Canvas inside;
  inside.add(draw_flag(pen.theme, f.told.kind, f.told.level, true, {place.x + r, y}, r, to_text(static_cast<int>(place.finding))));
  std::string text = words_of(pen.pattern(), f);
  if (place.rows < 2) text += ": the strips end at different places";
  inside.fitted({"finding-words", {}}, {place.x + 2 * r + 8 * u, middle_baseline(y, 15 * u, place.rows > 1)}, text, {15 * u, pen.theme.ink, place.rows > 1}, pen.at.right - place.x - 2 * r - 8 * u);
  if (pen.view.chosen == place.finding) inside.box({"flag-chosen", {}}, {place.x - 3.5 * u, y - r - 3.5 * u, 2 * r + 7 * u, 2 * r + 7 * u}, r * 0.55, clear, pen.theme.action, 2 * u);
  Group group{{"pattern-flag", to_text(static_cast<int>(place.finding))}};
  group.opacity = pen.strength(place.finding);
  group.marks = std::move(inside.marks);
  pen.canvas.add(std::move(group));
  pen.hit(PatternPart::finding, place.finding, {place.x, y - r, 2 * r, 2 * r});
}

} // namespace

void draw_pattern_ground(PatternPen& pen) {
  const double u = pen.u(), x = pen.view.rect.x + 6 * u, width = pen.view.rect.width - 12 * u;
  for (const Slot slot : {Slot::onset, Slot::coda}) {
    const PatternRow& row = pen.at.row(slot);
    pen.canvas.box({"lane", slot_words[static_cast<std::size_t>(slot)]}, {x, row.top, width, row.bottom - row.top}, 6 * u, with_alpha(pen.theme.ground, 0.5));
  }
  draw_lane_names(pen);
}

void draw_pattern_words(PatternPen& pen) {
  const double u = pen.u(), top = pen.at.words, row = pen.at.row(Slot::onset).top - top, base = top + 25 * u;
  for (const WordPlace& word : words_on(pen)) {
    const bool now = pen.now_column && *pen.now_column >= word.first && *pen.now_column <= word.last;
    const double left = pen.at.x(static_cast<double>(word.first)) - pen.at.column / 2, width = static_cast<double>(word.last - word.first + 1) * pen.at.column;
    if (now) pen.canvas.box({"word-now", {}}, {left + 2 * u, top + 2 * u, width - 4 * u, row - 5 * u}, 6 * u, pen.theme.select, pen.theme.action, 1.8 * u);
    pen.canvas.fitted({"word", word.text}, {left + width / 2, base}, word.text, {18 * u, pen.theme.ink, now, Anchor::middle}, width - 12 * u, 0.75);
  }
  for (std::size_t c = pen.at.page.first; c <= pen.at.page.last; ++c) {
    const double left = pen.at.x(static_cast<double>(c)) - pen.at.column / 2;
    const bool stressed = pen.pattern().syllables[c].stress > 0;
    if (stressed) pen.canvas.box({"stress", "stressed"}, {left + 8 * u, base + 6 * u, pen.at.column - 16 * u, 5 * u}, 2.5 * u, pen.theme.ink);
    else pen.canvas.box({"stress", "unstressed"}, {left + 8 * u, base + 7.5 * u, pen.at.column - 16 * u, 2 * u}, u, pen.theme.quiet);
    pen.hit(PatternPart::syllable, c, {left + 2 * u, top, pen.at.column - 4 * u, row - 2 * u});
  }
}

void draw_pattern_strips(PatternPen& pen) {
  const auto lanes = strip_lanes(pen.pattern());
  double y = pen.at.strips;
  for (const Slot slot : pen.at.strip_slots) {
    draw_lane_strips(pen, slot, lanes[static_cast<std::size_t>(slot)], y);
    y += pen.at.strip_step;
  }
  for (const StepPlace& place : pen.at.steps) draw_step(pen, place);
  if (pen.shown.findings.empty() && pen.at.strip_slots.empty() && pen.at.count > 1)
    pen.canvas.text_middle({"no-pattern", {}}, {pen.at.left, y + 12 * pen.u()}, "Nothing repeats here within six syllables.", {15 * pen.u(), pen.theme.ink});
}

PatternPicture compose_pattern(const Take& take, const PatternView& view) {
  PatternPicture picture;
  picture.group.mark = {"pattern", {}};
  ShownPattern found;
  if (!view.pattern) found = pattern_of(take);
  const ShownPattern& shown = view.pattern ? *view.pattern : found;
  const std::size_t n = shown.pattern.syllables.size();
  if (n == 0) return picture;
  PatternPage page{0, n - 1};
  if (view.columns) page = {std::min(view.columns->first, n - 1), std::min(view.columns->last, n - 1)};
  else if (view.page) {
    const auto pages = pattern_pages(take, shown.pattern, pattern_columns(view.rect.width, view.u, view.gutter));
    page = pages[std::min(*view.page, pages.size() - 1)];
  }
  const auto now = view.time ? column_at(take, shown.pattern, *view.time) : std::nullopt;
  const auto near = view.nearer_to ? view.nearer_to : view.time;
  picture.choice = choose_findings(shown, page, near ? column_at(take, shown.pattern, *near) : std::nullopt, view.chosen);
  const PatternLayout layout = lay_out_pattern(shown, picture.choice, page, view);
  PatternPen pen{take, shown, view, view.theme ? *view.theme : light_theme(), layout, picture};
  pen.now_column = now;
  if (view.time) pen.now_sound = sound_at(take, *view.time);
  if (view.chosen && *view.chosen < shown.findings.size()) pen.lit = sounds_of(shown, shown.findings[*view.chosen]);
  if (view.pointed && *view.pointed < shown.findings.size()) pen.pointed = sounds_of(shown, shown.findings[*view.pointed]);
  draw_pattern_ground(pen);
  draw_pattern_words(pen);
  draw_pattern_marks(pen);
  draw_pattern_cards(pen);
  draw_pattern_flags(pen);
  draw_pattern_strips(pen);
  draw_pattern_key(pen);
  picture.group.marks = std::move(pen.canvas.marks);
  return picture;
}

} // namespace mw
