#include "clash/reasons.h"

#include "base/text.h"
#include "clash/tell.h"

#include <algorithm>
#include <map>

namespace mw {

namespace {

/// What a sentence may speak of.
struct Case {
  const Measure& m;
  const Sequence& sequence;
  Teller teller;
  const DifficultyData& data;
};

std::string slot_words(Slot slot) {
  return slot == Slot::onset ? "at the starts of" : slot == Slot::coda ? "at the ends of" : "as the vowels of";
}

std::string shown(const std::vector<SequenceSound>& slot) {
  std::string ipa;
  for (const SequenceSound& sound : slot) ipa += sound.facts.ipa;
  return ipa;
}

/// The pair of sounds that pulls most over the whole phrase.
std::string competition_words(const Case& c) {
  std::map<std::pair<std::string, std::string>, double> pulls;
  std::pair<std::string, std::string> best;
  const Competition* example = nullptr;
  for (const Competition& pull : c.m.competitions) {
    auto a = shown(c.sequence.syllables[pull.from].at(pull.slot)), b = shown(c.sequence.syllables[pull.to].at(pull.slot));
    const auto key = a < b ? std::pair{a, b} : std::pair{b, a};
    const double sum = pulls[key] += pull.value;
    if (!example || sum > pulls[best]) best = key, example = &pull;
  }
  if (!example) return {};
  return best.first + " and " + best.second + " take turns " + slot_words(example->slot) +
         " nearby syllables and are easily mistaken for each other.";
}

std::string order_words(const Case&) {
  return "The same few sounds come back in a changed order, so no steady pattern carries you.";
}

std::string grouping_words(const Case&) { return "The groups of syllables do not fit the turns of the sounds."; }

std::string reuse_words(const Case& c) {
  std::map<Articulator, std::size_t> count;
  Articulator busiest = Articulator::tip;
  for (const Return& r : find_returns(c.sequence)) {
    const std::size_t n = ++count[r.articulator];
    if (n > count[busiest]) busiest = r.articulator;
  }
  const std::string part = busiest == Articulator::lips ? "The lips have" :
                           busiest == Articulator::tip ? "The tip of the tongue has" : "The back of the tongue has";
  return part + " to come back " + count_word(count[busiest]) + " times in " + count_word(c.sequence.syllables.size()) + " syllables.";
}

std::string shared_start_words(const Case&) { return "Neighbouring words begin alike and then go different ways."; }
std::string shared_end_words(const Case&) { return "Hardly any neighbouring words end alike, which would help."; }
std::string unit_words(const Case&) { return "It takes many syllables before anything comes round again."; }
/// The two neighbouring beats near the start whose differing sounds are most alike.
std::string like_words_words(const Case& c) {
  std::vector<const SequenceSyllable*> beats;
  for (const SequenceSyllable& s : c.sequence.syllables)
    if (s.stress > 0) beats.push_back(&s);
  const SequenceSyllable *one = nullptr, *other = nullptr;
  Slot where = Slot::onset;
  double most = 0;
  for (std::size_t i = 0; i + 1 < std::min<std::size_t>(beats.size(), 4); ++i)
    for (Slot slot : all_slots) {
      const SequenceSyllable &a = *beats[i], &b = *beats[i + 1];
      if (a.key(slot) == b.key(slot)) continue;
      if (const double alike = similarity(a.at(slot), b.at(slot)); alike > most) most = alike, one = &a, other = &b, where = slot;
    }
  if (!one) return {};
  const std::string first = c.teller.word(one->word), second = c.teller.word(other->word);
  const std::string who = first.empty() || one->word == other->word ? "Two beats near the start" : first + " and " + second;
  return who + " differ by close neighbours (" + shown(one->at(where)) + " against " + shown(other->at(where)) + "), so the second is slow to be readied.";
}

std::string closed_words(const Case& c) {
  const auto closed = std::count_if(c.sequence.syllables.begin(), c.sequence.syllables.end(),
                                    [](const SequenceSyllable& s) { return !s.coda.empty(); });
  const std::size_t all = c.sequence.syllables.size(), ends = static_cast<std::size_t>(closed);
  if (all < 3) return {}; // no pattern that speed could shake
  const std::string who = ends == all ? "All " + count_word(all) + " syllables end"
                                      : capital(count_word(ends)) + " of " + count_word(all) + " syllables end";
  return who + " in a consonant; at speed such ends slip over to the next syllable.";
}

std::string tip_first_words(const Case&) { return "Starts of the tip come before starts of the lips; at speed the order tends to turn round."; }

std::string rare_start_words(const Case& c) {
  for (const SequenceSyllable& s : c.sequence.syllables)
    if (const auto& common = c.data.common_clusters;
        s.onset.size() > 1 && std::find(common.begin(), common.end(), s.key(Slot::onset)) == common.end())
      return "Hardly a word starts with " + shown(s.onset) + ", so the cluster is out of practice.";
  return {};
}

struct ReasonRow {
  Factor factor;
  std::string (*words)(const Case&);
};
constexpr std::array<ReasonRow, factor_count> reason_table{{
    {Factor::competition, competition_words},
    {Factor::order, order_words},
    {Factor::grouping, grouping_words},
    {Factor::reuse, reuse_words},
    {Factor::shared_start, shared_start_words},
    {Factor::shared_end, shared_end_words},
    {Factor::unit, unit_words},
    {Factor::like_words, like_words_words},
    {Factor::closed, closed_words},
    {Factor::tip_first, tip_first_words},
    {Factor::rare_start, rare_start_words},
}};

// A push of a tenth of a spread of the list is nothing one could point at.
constexpr double least_push = .1;

} // namespace

std::vector<std::string> reasons_of(const Measure& measure, const Sequence& sequence, const Pronunciation& pronunciation,
                                    const SegmentTrack& track, const DifficultyData& data, const Norms& norms) {
  std::vector<std::pair<double, const ReasonRow*>> pushes;
  for (const ReasonRow& row : reason_table) {
    // The absence of a help and the length of a line that never repeats are true of nearly all text: no reasons.
    if (row.factor == Factor::shared_end || row.factor == Factor::unit) continue;
    pushes.emplace_back(push_of(row.factor, measure, data, norms), &row);
  }
  std::stable_sort(pushes.begin(), pushes.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
  std::vector<std::string> reasons;
  const Case c{measure, sequence, {pronunciation, track}, data};
  for (const auto& [push, row] : pushes) {
    if (reasons.size() == 2 || push < least_push) break;
    if (std::string words = row->words(c); !words.empty()) reasons.push_back(std::move(words));
  }
  return reasons;
}

} // namespace mw
