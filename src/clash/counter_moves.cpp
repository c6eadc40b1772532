#include "clash/pattern_parts.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace mw {

namespace {

// A tongue move below a tenth of the chart or a lip move below a twentieth of their range is no direction that could be
// felt (eɪ: 0.16 up, 0.16 spreading; oʊ: 0.16 up, 0.11 rounding count).
constexpr double least_up = .1, least_round = .05;
// Two moves are alike when their extents differ by less than half the chart; over a weak syllable by less than 0.3.
constexpr double alike = .5, alike_over_weak = .7;

int sign(double value, double least) { return value >= least ? 1 : value <= -least ? -1 : 0; }

bool opposed(const GlideMove& a, const GlideMove& b) {
  const int tongue = sign(a.up, least_up) * sign(b.up, least_up), lips = sign(a.round, least_round) * sign(b.round, least_round);
  return tongue * lips == -1;
}

std::string text_of(const PatternSyllable& a, const PatternSyllable& b) {
  const bool tongue_alike = a.glide.up * b.glide.up > 0;
  const std::string pair = a.nucleus.front().ipa + ", " + b.nucleus.front().ipa;
  return pair + (tongue_alike ? ": tongue alike, lips opposite" : ": lips alike, tongue opposite");
}

} // namespace

std::vector<PatternLink> find_counter_moves(const PatternParts& parts) {
  std::vector<PatternLink> links;
  std::set<std::pair<std::size_t, std::size_t>> seen;
  for (const auto& reading : readings(parts.sequence))
    for (std::size_t i = 0; i + 1 < reading.size(); ++i) {
      const std::size_t a = reading[i], b = reading[i + 1];
      const PatternSyllable &left = parts.columns[a], &right = parts.columns[b];
      if (a == b || !opposed(left.glide, right.glide)) continue;
      const std::size_t n = parts.columns.size(), apart = (b + n - a) % n;
      const double likeness = 1 - std::abs(std::abs(left.glide.up) - std::abs(right.glide.up));
      if (apart > 2 || likeness < (apart == 1 ? alike : alike_over_weak)) continue;
      if (!seen.insert(std::minmax(a, b)).second) continue;
      links.push_back({LinkKind::counter_move, Slot::nucleus, {a, b},
                       {left.nucleus.front().segment, right.nucleus.front().segment}, likeness / static_cast<double>(apart),
                       likeness >= alike_over_weak && apart == 1 ? 2 : 1, text_of(left, right)});
    }
  return links;
}

} // namespace mw
