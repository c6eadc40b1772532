#pragma once

#include "scene/compare_clock.h"
#include "scene/vowel_chart.h"
#include "take/take.h"

#include <memory>
#include <string>
#include <vector>

namespace mw {

/// One thing that changes in a phrase from the learner's own accent to the target, told once for all its places.
struct Change {
  enum class Kind {
    becomes,  // one sound for another
    split,    // the own accent has one sound where the target keeps several apart
    merge,    // the target has one sound where the own accent keeps several apart
    left_out, // the target does not say it
    added,    // only the target says it
    way       // one sign, made in another way
  } kind = Kind::becomes;
  std::string title, detail;         // "BATH: æ becomes ɑː, twice"; "glass, brass: the tongue goes back and down"
  std::vector<std::size_t> columns;  // where, in order
  bool shift = false;                // something is kept apart or merged by it
  double weight = 0;                 // for the order: how far the mouth moves, how often, whether anything is told apart by it
};

/// Two takes of one phrase side by side. Both of one speaker.
struct Comparing {
  std::shared_ptr<const Take> own, target;
  std::vector<CompareColumn> columns;
  CompareClock clock;
  std::vector<Change> changes; // what matters most first
  std::vector<ChartSet> sets;  // vowels that differ in this phrase: second the learner's, own the target's
};
Comparing compare_takes(std::shared_ptr<const Take> own, std::shared_ptr<const Take> target);

/// The word a column belongs to: index into the target's words, or the own ones where only that side has the sound.
std::string word_of(const Comparing& comparing, std::size_t column);

} // namespace mw
