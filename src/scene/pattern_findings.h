#pragma once

#include "clash/pattern.h"
#include "scene/take_text.h"
#include "take/take.h"

#include <optional>
#include <vector>

namespace mw {

/// Something that the pattern shows (swap, near twins, counter-move, out of step), with its words.
struct PatternFinding {
  std::optional<std::size_t> link, step{}; // index in links or out_of_step of the pattern: one of the two
  Clash told{};                            // kind, level, time, sounds, title, what happens, what to feel
  std::vector<std::size_t> columns{};      // of the links: as they follow each other (a loop may end and begin again)
  Slot slot = Slot::onset;                 // lane in which it is drawn
  [[nodiscard]] std::size_t span() const;  // columns from the first to the last
};

/// Starts and ends exchanged stand in both lanes, everything else in its own.
bool stands_in(const PatternFinding& finding, Slot slot);

/// The pattern of a take and all its findings in the order of the design: level, shorter span, earlier.
struct ShownPattern {
  Pattern pattern;
  std::vector<PatternFinding> findings;
};
/// Pure; empty for a take without sounds.
ShownPattern pattern_of(const Take& take);

/// Columns of one page, both ends included.
struct PatternPage {
  std::size_t first = 0, last = 0;
  [[nodiscard]] std::size_t count() const { return last - first + 1; }
  [[nodiscard]] bool holds(std::size_t column) const { return column >= first && column <= last; }
};
/// Pages of at most `most` columns, ended at a pause, else after a word, else anywhere; the last is no scrap. One empty page
/// for an empty pattern.
std::vector<PatternPage> pattern_pages(const Take& take, const Pattern& pattern, std::size_t most);
/// Index of the column that holds the sound at a time; none for an empty pattern.
std::optional<std::size_t> column_at(const Take& take, const Pattern& pattern, double time_s);
/// Index of the page with this column; 0 when there is none.
std::size_t page_with(const std::vector<PatternPage>& pages, std::size_t column);

/// Which findings stand on a page in full, strongest first, and which wait as small flags. A lane has at most two links of
/// near twins, and never two bridges over one place: bridges are not nested or crossed, which would read as a repeat.
struct PatternChoice {
  std::vector<std::size_t> shown, waiting;
};
PatternChoice choose_findings(const ShownPattern& pattern, const PatternPage& page, std::optional<std::size_t> now_column,
                              std::optional<std::size_t> chosen);

/// Lanes that come round at least once on their own, one list a slot: those out of step first, then the longest of each lane
/// where there is room.
struct StripLane {
  const PatternLane* lane = nullptr;
  std::optional<std::size_t> step{}; // out of step with another
};
std::vector<std::vector<StripLane>> strip_lanes(const Pattern& pattern);

/// Whole slots of the sounds of a finding: what its words speak of.
std::vector<std::size_t> sounds_of(const ShownPattern& pattern, const PatternFinding& finding);

} // namespace mw
