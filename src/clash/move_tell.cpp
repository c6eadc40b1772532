#include "clash/move_parts.h"

#include "base/text.h"
#include "clash/features.h"
#include "clash/tell.h"

#include <algorithm>
#include <cmath>

namespace mw {

namespace {

constexpr double least_way_mm = 1.5;     // a pull below this is not put into words

std::string seconds(double s) { return to_text(std::round(s * 100) / 100, 2) + " seconds"; }

Clash clash_between(const MoveView& view, ClashKind kind, const Move& p, const Move& q, double value,
                    const std::array<double, 3>& levels) {
  Clash clash;
  clash.kind = kind;
  clash.level = level_of(value, levels);
  clash.strength = value;
  clash.start_s = std::max(0.0, p.out.start);
  clash.end_s = std::max(clash.start_s + 1e-3, q.in.end);
  clash.segments = {view.unit(p).segment, view.unit(q).segment};
  return clash;
}

/// "at the end of ‘kettles’"; over a word border "from ‘red’ into ‘rag’".
std::string where_of(const MoveView& view, std::size_t a, std::size_t b) {
  const Segment &p = view.teller.track.segments[a], &q = view.teller.track.segments[b];
  const std::string first = view.teller.word(p.word), second = view.teller.word(q.word);
  const std::string pair = view.ipa(a) + " into " + view.ipa(b);
  if (first.empty() || second.empty()) return pair;
  if (p.word != q.word) return pair + ", from " + first + " into " + second;
  return pair + ", " + (p.slot == q.slot && p.syllable == q.syllable ? view.teller.place(b) : "in " + first);
}

/// "back and up": where q wants the part, seen from where p holds it; the larger pull first.
std::string direction(const MoveView& view, const TierRow& row, const Move& p, const Move& q) {
  std::vector<std::pair<double, std::string_view>> ways;
  for (std::size_t i = 0; i < row.pull_count; ++i) {
    const Pull& pull = row.pulls[i];
    const double apart = (view.unit(q).target.pose.*pull.value - view.unit(p).target.pose.*pull.value) * pull.mm;
    ways.emplace_back(std::abs(apart), apart > 0 ? pull.more : pull.less);
  }
  std::stable_sort(ways.begin(), ways.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
  std::string text(ways[0].second);
  if (ways.size() > 1 && ways[1].first >= least_way_mm && ways[1].first > .4 * ways[0].first)
    text += " and " + std::string(ways[1].second);
  return text;
}

std::string_view verb(Articulator articulator, std::string_view one, std::string_view many) {
  return articulator == Articulator::lips ? many : one;
}

std::string tug_feel(const MoveView& view, const TierRow& row, const Move& p, const Move& q) {
  const std::string a = view.ipa(view.unit(p).segment), b = view.ipa(view.unit(q).segment);
  const std::string part(learner_name(row.articulator));
  if (p.primary && q.primary) return "slide straight from " + a + " to " + b + " in one move, with no stop between.";
  if (p.primary) return "make " + a + " lightly and let the " + part + " go early, before " + b + " starts.";
  return "hold " + a + "; let only the " + part + " go.";
}

/// A clash of two moves of one part, and the words that tell it: the part and its two sounds.
struct PartClash {
  Clash clash;
  std::string part, a, b;
};
PartClash clash_of_part(const MoveView& view, const TierRow& row, Clash clash, const std::string& title) {
  const std::size_t first = clash.segments[0], second = clash.segments[1];
  const std::string part(learner_name(row.articulator));
  clash.articulators = {row.articulator};
  clash.title = title + part;
  clash.where = where_of(view, first, second);
  return {std::move(clash), part, view.ipa(first), view.ipa(second)};
}

} // namespace

Clash tell_tug(const MoveView& view, const TierRow& row, const Move& p, const Move& q, double value) {
  auto [clash, part, a, b] = clash_of_part(view, row, clash_between(view, ClashKind::tug, p, q, value, tug_levels), "Tug on the ");
  clash.text = a + " still holds the " + part + " when " + b + " already calls " +
               std::string(verb(row.articulator, "it ", "them ")) + direction(view, row, p, q) + ".";
  clash.feel = tug_feel(view, row, p, q);
  return std::move(clash);
}

Clash tell_return(const MoveView& view, const TierRow& row, const Move& p, const Move& q, double value) {
  auto [clash, part, a, b] =
      clash_of_part(view, row, clash_between(view, ClashKind::quick_return, p, q, value, return_levels), "Quick return of the ");
  clash.text = "The " + part + std::string(verb(row.articulator, " leaves ", " leave ")) + a + " for one vowel and " +
               std::string(verb(row.articulator, "is ", "are ")) + "wanted again for " + b + " after " +
               seconds(middle(q) - middle(p)) + "; an easy turn takes about " + seconds(row.period_s) + ".";
  clash.feel = "say it at half speed and count the two touches; then keep both light.";
  return std::move(clash);
}

Clash tell_switch(const MoveView& view, const Move& p, const Move& q, double value) {
  Clash clash = clash_between(view, ClashKind::near_twins, p, q, value, switch_levels);
  clash.strength = value * .6; // on the scale of the pulls of the pattern, whose levels begin at 0.74, 1.15 and 2.3
  const SoundFacts a = facts_of(view.teller.track.segments[clash.segments[0]].sound);
  const SoundFacts b = facts_of(view.teller.track.segments[clash.segments[1]].sound);
  clash.articulators = {Articulator::tip};
  clash.title = "Near twins: " + a.ipa + " and " + b.ipa;
  clash.where = where_of(view, clash.segments[0], clash.segments[1]);
  clash.text = a.ipa + " and " + b.ipa + " follow each other within " + seconds(middle(q) - middle(p)) +
               " and are close neighbours on the tip: " + difference_clause(a, b) + ".";
  clash.feel = feel_of_difference(a, b);
  return clash;
}

void tell_runs(const MoveView& view, std::vector<Clash>& clashes) {
  for (Clash& clash : clashes) {
    if (clash.kind != ClashKind::quick_return || clash.segments.size() < 3) continue;
    const std::string part(learner_name(clash.articulators.front()));
    std::vector<std::string> sounds;
    for (std::size_t segment : clash.segments) sounds.push_back(view.ipa(segment));
    clash.where = where_of(view, clash.segments.front(), clash.segments.back());
    clash.text = "The " + part + std::string(verb(clash.articulators.front(), " is ", " are ")) + "wanted for " +
                 listed(sounds) + " with one short vowel between each, faster than an easy turn.";
    clash.feel = "say it at half speed and count the touches; then keep all of them light.";
  }
}

} // namespace mw
