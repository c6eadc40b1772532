#include "phrase/known.h"

#include <algorithm>
#include <string>

namespace mw {
namespace {
constexpr std::size_t shortest_stem = 3, shortest_part = 3;

struct Ending {
  std::string_view ending, stem_end;
};
constexpr Ending endings[]{{"'s", ""},  {"s'", "s"}, {"'ll", ""},  {"'ve", ""},  {"'d", ""},  {"'re", ""},  {"n't", ""},
                           {"s", ""},   {"es", ""},  {"ed", ""},   {"ed", "e"},  {"ing", ""}, {"ing", "e"}, {"er", ""},
                           {"er", "e"}, {"ly", ""},  {"ness", ""}, {"less", ""}, {"like", ""}};
constexpr std::string_view beginnings[]{"un", "re", "over", "non", "out", "under", "mis", "pre", "super", "anti"};

/// The word itself or its stem; two endings at most (menders' -> menders -> mender -> mend).
bool has_stem(std::string_view list, std::string_view word, int depth) {
  if (is_listed(list, word)) return true;
  if (depth == 0) return false;
  for (const auto& row : endings) {
    if (word.size() <= row.ending.size()) continue;
    if (word.substr(word.size() - row.ending.size()) != row.ending) continue;
    const std::string stem = std::string(word.substr(0, word.size() - row.ending.size())) + std::string(row.stem_end);
    const bool contraction = row.ending.find('\'') != std::string_view::npos; // it's, I'll: the stem may be short
    if (contraction && is_listed(list, stem)) return true;
    if (stem.size() >= shortest_stem && has_stem(list, stem, depth - 1)) return true;
  }
  return false;
}
} // namespace

/// Binary search over the text itself: nothing has to be read in before the first word.
bool is_listed(std::string_view list, std::string_view word) {
  std::size_t low = 0, high = list.size();
  while (low < high) {
    // the line round the middle
    const std::size_t middle = low + (high - low) / 2;
    const std::size_t before = list.substr(0, middle).rfind('\n');
    const std::size_t start = before == std::string_view::npos ? 0 : before + 1;
    const std::size_t end = std::min(list.find('\n', middle), list.size());
    const std::string_view line = list.substr(start, end - start);
    if (line == word) return true;
    if (line < word)
      low = end + 1;
    else
      high = start;
  }
  return false;
}

bool is_known(std::string_view list, std::string_view word) {
  if (has_stem(list, word, 3)) return true;
  for (const auto beginning : beginnings)
    if (word.size() >= beginning.size() + 4 && word.substr(0, beginning.size()) == beginning &&
        has_stem(list, word.substr(beginning.size()), 1))
      return true;
  for (std::size_t i = shortest_part; i + shortest_part <= word.size(); ++i)
    if (is_listed(list, word.substr(0, i)) && has_stem(list, word.substr(i), 1)) return true;
  return false;
}

} // namespace mw
