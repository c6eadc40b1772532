#include "scene/pattern_findings.h"

#include "clash/telling.h"

#include <algorithm>

namespace mw {
namespace {

PatternFinding from_link(const Pattern& pattern, std::size_t index, Clash told) {
  const PatternLink& link = pattern.links[index];
  return {index, {}, std::move(told), link.syllables, link.slot};
}

PatternFinding from_step(const Pattern& pattern, std::size_t index, Clash told) {
  const OutOfStep& step = pattern.out_of_step[index];
  std::vector<std::size_t> columns = step.quick.syllables;
  columns.insert(columns.end(), step.slow.syllables.begin(), step.slow.syllables.end());
  std::sort(columns.begin(), columns.end());
  columns.erase(std::unique(columns.begin(), columns.end()), columns.end());
  return {{}, index, std::move(told), std::move(columns), step.slow.slot};
}

std::size_t earliest(const PatternFinding& f) { return f.columns.empty() ? 0 : *std::min_element(f.columns.begin(), f.columns.end()); }

std::size_t distance(const PatternFinding& f, std::size_t column) {
  std::size_t best = static_cast<std::size_t>(-1);
  for (const std::size_t c : f.columns) best = std::min(best, c > column ? c - column : column - c);
  return best;
}

/// Level, shorter span, nearer to now (where there is a now), earlier.
bool goes_before(const PatternFinding& a, const PatternFinding& b, std::optional<std::size_t> now) {
  if (a.told.level != b.told.level) return a.told.level > b.told.level;
  if (a.span() != b.span()) return a.span() < b.span();
  if (now && distance(a, *now) != distance(b, *now)) return distance(a, *now) < distance(b, *now);
  return earliest(a) < earliest(b);
}

bool on_page(const PatternFinding& f, const PatternPage& page) {
  return std::any_of(f.columns.begin(), f.columns.end(), [&](std::size_t c) { return page.holds(c); });
}

/// A bridge covers all columns between its feet; one over a loop's seam covers the ends.
bool bridges_meet(const PatternFinding& a, const PatternFinding& b) {
  const auto reach = [](const PatternFinding& f) { return std::pair{*std::min_element(f.columns.begin(), f.columns.end()), *std::max_element(f.columns.begin(), f.columns.end())}; };
  const auto [a0, a1] = reach(a);
  const auto [b0, b1] = reach(b);
  return a0 <= b1 && b0 <= a1;
}

bool share_a_card(const PatternFinding& a, const PatternFinding& b) {
  return std::any_of(a.columns.begin(), a.columns.end(), [&](std::size_t c) { return std::count(b.columns.begin(), b.columns.end(), c) > 0; });
}

bool share_a_lane(const PatternFinding& a, const PatternFinding& b) {
  return std::any_of(all_slots.begin(), all_slots.end(), [&](Slot slot) { return stands_in(a, slot) && stands_in(b, slot); });
}

/// Whether it may stand beside those already shown.
bool has_room(const ShownPattern& p, const std::vector<std::size_t>& shown, const PatternFinding& f) {
  constexpr int most_links = 2; // visual design, practice, section 5
  int links = 0;
  for (const std::size_t i : shown) {
    const PatternFinding& other = p.findings[i];
    if (other.told.kind != f.told.kind || !share_a_lane(other, f)) continue;
    if (f.told.kind == ClashKind::swap && bridges_meet(f, other)) return false;
    if (f.told.kind == ClashKind::near_twins && (share_a_card(f, other) || ++links == most_links)) return false;
  }
  return true;
}

bool ends_word(const Pattern& pattern, std::size_t column) {
  return column + 1 >= pattern.syllables.size() || pattern.syllables[column].word != pattern.syllables[column + 1].word;
}
bool ends_group(const Take& take, const Pattern& pattern, std::size_t column) {
  const int word = pattern.syllables[column].word;
  const auto& words = take.pronunciation.words;
  return ends_word(pattern, column) && word >= 0 && static_cast<std::size_t>(word) < words.size() && words[static_cast<std::size_t>(word)].group_end;
}

/// Last column of a page that starts at `first`; `fits` columns at most.
std::size_t page_end(const Take& take, const Pattern& pattern, std::size_t first, std::size_t fits) {
  const std::size_t limit = first + fits - 1;
  // a page less than half full looks torn: pauses and words are looked for in its second half only
  for (std::size_t c = limit; c > first + fits / 2; --c)
    if (ends_group(take, pattern, c)) return c;
  for (std::size_t c = limit; c > first + fits / 2; --c)
    if (ends_word(pattern, c)) return c;
  return limit;
}

} // namespace

bool stands_in(const PatternFinding& f, Slot slot) {
  return f.slot == slot || (f.told.kind == ClashKind::swap && f.columns.size() == 2 && slot == Slot::coda);
}

std::size_t PatternFinding::span() const {
  if (columns.empty()) return 0;
  const auto [low, high] = std::minmax_element(columns.begin(), columns.end());
  return *high - *low + 1;
}

ShownPattern pattern_of(const Take& take) {
  ShownPattern out{find_pattern(take.track, take.request.loop), {}};
  // told in the order of the links, repeats left out, then the lanes out of step
  const auto told = pattern_clashes(take.pronunciation, take.track, out.pattern);
  std::size_t next = 0;
  for (std::size_t i = 0; i < out.pattern.links.size(); ++i)
    if (out.pattern.links[i].kind != LinkKind::repeat) out.findings.push_back(from_link(out.pattern, i, told.at(next++)));
  for (std::size_t i = 0; i < out.pattern.out_of_step.size(); ++i) out.findings.push_back(from_step(out.pattern, i, told.at(next++)));
  std::stable_sort(out.findings.begin(), out.findings.end(), [](const PatternFinding& a, const PatternFinding& b) { return goes_before(a, b, {}); });
  return out;
}

std::vector<PatternPage> pattern_pages(const Take& take, const Pattern& pattern, std::size_t most) {
  const std::size_t n = pattern.syllables.size();
  if (n == 0) return {{}};
  most = std::max<std::size_t>(most, 1);
  // evened out, so that the last page is no scrap
  const std::size_t pages = (n + most - 1) / most, even = std::min(most, (n + pages - 1) / pages + 1);
  std::vector<PatternPage> out;
  for (std::size_t first = 0; first < n;) {
    const std::size_t left = n - first, fits = left <= most ? left : even;
    const std::size_t last = left <= most ? n - 1 : page_end(take, pattern, first, std::min(fits, left));
    out.push_back({first, last});
    first = last + 1;
  }
  return out;
}

std::optional<std::size_t> column_at(const Take& take, const Pattern& pattern, double time_s) {
  const auto sound = sound_at(take, time_s);
  if (!sound || pattern.syllables.empty()) return {};
  const Segment& s = take.track.segments[*sound];
  for (std::size_t i = 0; i < pattern.syllables.size(); ++i)
    if (pattern.syllables[i].word == s.word && pattern.syllables[i].syllable == s.syllable) return i;
  return {};
}

std::size_t page_with(const std::vector<PatternPage>& pages, std::size_t column) {
  for (std::size_t i = 0; i < pages.size(); ++i)
    if (pages[i].holds(column)) return i;
  return 0;
}

PatternChoice choose_findings(const ShownPattern& p, const PatternPage& page, std::optional<std::size_t> now, std::optional<std::size_t> chosen) {
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < p.findings.size(); ++i)
    if (on_page(p.findings[i], page)) order.push_back(i);
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    if ((a == chosen) != (b == chosen)) return a == chosen;
    return goes_before(p.findings[a], p.findings[b], now);
  });
  PatternChoice out;
  for (const std::size_t i : order) (has_room(p, out.shown, p.findings[i]) ? out.shown : out.waiting).push_back(i);
  return out;
}

std::vector<std::vector<StripLane>> strip_lanes(const Pattern& pattern) {
  std::vector<std::vector<StripLane>> out(all_slots.size());
  const auto add = [&](const PatternLane& lane, std::optional<std::size_t> step) {
    auto& row = out[static_cast<std::size_t>(lane.slot)];
    const bool taken = std::any_of(row.begin(), row.end(), [&](const StripLane& s) {
      return std::any_of(lane.syllables.begin(), lane.syllables.end(), [&](std::size_t c) { return std::count(s.lane->syllables.begin(), s.lane->syllables.end(), c) > 0; });
    });
    if (!taken && lane.period > 0 && lane.syllables.size() > lane.period) row.push_back({&lane, step});
  };
  for (std::size_t i = 0; i < pattern.out_of_step.size(); ++i) add(pattern.out_of_step[i].slow, i), add(pattern.out_of_step[i].quick, i);
  for (const PatternLane& lane : pattern.lanes) add(lane, {});
  return out;
}

std::vector<std::size_t> sounds_of(const ShownPattern& p, const PatternFinding& f) {
  std::vector<std::size_t> out;
  for (const PatternSyllable& syllable : p.pattern.syllables)
    for (const Slot slot : all_slots) {
      const auto& cards = syllable.at(slot);
      const bool inside = std::any_of(cards.begin(), cards.end(), [&](const PatternCard& c) { return std::count(f.told.segments.begin(), f.told.segments.end(), c.segment) > 0; });
      if (inside)
        for (const PatternCard& c : cards) out.push_back(c.segment);
    }
  return out;
}

} // namespace mw
