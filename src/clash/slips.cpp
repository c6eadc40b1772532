#include "clash/analysis.h"
#include "clash/similarity.h"
#include "clash/tell.h"
#include "clash/telling.h"

#include <algorithm>
#include <set>

namespace mw {

namespace {

/// One sound that may give way to another in a like place.
struct Turn {
  const SequenceSound* wanted = nullptr;
  const SequenceSound* instead = nullptr;
  const SequenceSound* added = nullptr; // a sound more: the wanted slot gets what the other has (kick, quick: kw)
  bool added_first = false;
  const Competition* pull = nullptr;
  double strength = 0;
  bool earlier = true; // the wanted sound comes first: an anticipation
};

// Spontaneous slips lean towards the palatal sound: s, t give way to ʃ, tʃ more than the reverse
// (Shattuck-Hufnagel & Klatt 1979).
bool leans_palatal(const SoundFacts& from, const SoundFacts& to) {
  return (from.key == "s" || from.key == "t") && (to.key == "ʃ" || to.key == "tʃ");
}

/// How much likelier this direction is than the other; 1 by default, since confusions are symmetric
/// (Shattuck-Hufnagel & Klatt 1979).
double direction(const Turn& turn, const Sequence& sequence) {
  const SoundFacts &wanted = turn.wanted->facts, &instead = turn.instead->facts;
  double weight = 1;
  if (leans_palatal(wanted, instead)) weight *= 1.5;
  if (leans_palatal(instead, wanted)) weight /= 1.5;
  // The back of the tongue creeps in beside front vowels (Slis & van Lieshout 2016).
  const SequenceSyllable& at = sequence.syllables[turn.earlier ? turn.pull->from : turn.pull->to];
  const bool front = !at.nucleus.empty() && at.nucleus[0].facts.vowel && at.nucleus[0].facts.from.back < .4;
  if (front && instead.articulator == Articulator::body && wanted.articulator != Articulator::body) weight *= 1.2;
  // Tongue moves are reduced more often than lip moves (same study): the lips' sound stays.
  if (wanted.articulator == Articulator::lips && instead.articulator != Articulator::lips) weight /= 1.2;
  // The next sound is said too early (anticipation) at the beginning of a phrase and by default; only at the very end is
  // the one before said again (Beirne & Croot 2018).
  const bool at_the_end = !sequence.loop && turn.pull->from > 0 && turn.pull->to + 1 == sequence.syllables.size();
  return weight * (turn.earlier != at_the_end ? 1.1 : 1 / 1.1);
}

// Slips stay sayable (Fromkin 1971, from memory): English starts hardly a syllable with ŋ or ʒ and ends none with h, w, j.
bool is_sayable(const SoundFacts& instead, Slot slot) {
  if (slot == Slot::onset) return instead.key != "ŋ" && instead.key != "ʒ";
  return instead.key != "h" && instead.key != "w" && instead.key != "j";
}

/// The most similar pair of members that are not the same.
std::pair<const SequenceSound*, const SequenceSound*> rivals(const Sequence& sequence, const Competition& c) {
  std::pair<const SequenceSound*, const SequenceSound*> best{nullptr, nullptr};
  double most = 0;
  for (const SequenceSound& a : sequence.syllables[c.from].at(c.slot))
    for (const SequenceSound& b : sequence.syllables[c.to].at(c.slot)) {
      const double s = a.facts.key == b.facts.key ? 0 : similarity(a.facts, b.facts);
      if (s > most) most = s, best = {&a, &b};
    }
  return best;
}

bool starts_or_ends_with(const std::vector<SequenceSound>& large, const std::vector<SequenceSound>& small) {
  const auto same = [](const SequenceSound& x, const SequenceSound& y) { return x.facts.key == y.facts.key; };
  return large.size() == small.size() + 1 && (std::equal(small.begin(), small.end(), large.begin(), same) ||
                                              std::equal(small.begin(), small.end(), large.begin() + 1, same));
}

bool has_one_more(const Sequence& sequence, const Competition& c) {
  const auto &a = sequence.syllables[c.from].at(c.slot), &b = sequence.syllables[c.to].at(c.slot);
  return starts_or_ends_with(a, b) || starts_or_ends_with(b, a);
}

/// Adding a sound to make a cluster is commoner than leaving one out (Stemberger 1991, from memory).
Turn addition_of(const Sequence& sequence, const Competition& c) {
  const auto &a = sequence.syllables[c.from].at(c.slot), &b = sequence.syllables[c.to].at(c.slot);
  const auto &small = a.size() < b.size() ? a : b, &large = a.size() < b.size() ? b : a;
  const bool at_end = large.front().facts.key == small.front().facts.key;
  Turn turn{.wanted = &small.back(), .instead = &large.back(), .pull = &c};
  turn.added = at_end ? &large.back() : &large.front();
  turn.added_first = !at_end;
  if (!at_end) turn.wanted = &small.front(), turn.instead = &large.front();
  turn.strength = c.value / 2; // half: the sounds themselves are not alike
  return turn;
}

std::vector<Turn> turns_of(const Sequence& sequence, const std::vector<Competition>& competitions) {
  std::vector<Turn> turns;
  for (const Competition& c : competitions) {
    if (has_one_more(sequence, c)) { turns.push_back(addition_of(sequence, c)); continue; }
    const auto [a, b] = rivals(sequence, c);
    // Vowel slips are few, and hardly one is reported between weak syllables.
    if (!a || (c.slot == Slot::nucleus && sequence.syllables[c.from].stress == 0)) continue;
    for (bool earlier : {true, false}) {
      Turn turn{.wanted = earlier ? a : b, .instead = earlier ? b : a, .pull = &c, .earlier = earlier};
      if (c.slot != Slot::nucleus && !is_sayable(turn.instead->facts, c.slot)) continue;
      turn.strength = c.value * direction(turn, sequence);
      turns.push_back(turn);
    }
  }
  return turns;
}

// Two stops made with different parts, before a like end: both are made, the wrong one creeps in beside the right one
// (Pouplier 2008; Goldstein et al. 2007).
bool creeps_in(const Turn& turn) {
  const SoundFacts &wanted = turn.wanted->facts, &instead = turn.instead->facts;
  return turn.pull->shared > 0 && wanted.manner == Manner::stop && instead.manner == Manner::stop &&
         wanted.articulator != instead.articulator;
}

/// IPA of the wanted sound, and of what is said instead of it: the added sound on its side.
std::string said_instead(const Turn& turn) {
  if (turn.added == nullptr) return turn.instead->facts.ipa;
  return turn.added_first ? turn.added->facts.ipa + turn.wanted->facts.ipa : turn.wanted->facts.ipa + turn.added->facts.ipa;
}

std::string part_move(const SoundFacts& f) {
  if (f.articulator == Articulator::lips) return "the lips may close for " + f.ipa;
  return f.articulator == Articulator::tip ? "the tip may go up for " + f.ipa : "the back of the tongue may go up for " + f.ipa;
}

std::string text_of(const Turn& turn, const Teller& teller) {
  const std::string here = teller.place(turn.wanted->segment), there = teller.place(turn.instead->segment);
  const std::string wanted = turn.wanted->facts.ipa, instead = turn.instead->facts.ipa;
  const std::string from = there.empty() ? std::string() : "; it belongs " + there;
  const std::string at = here.empty() ? std::string() : ' ' + here;
  if (turn.added != nullptr) return "An extra " + instead + " may slip in" + at + from + '.';
  if (creeps_in(turn))
    return "While " + wanted + " is made" + at + ", " + part_move(turn.instead->facts) + " as well" + from + '.';
  return "Instead of " + wanted + ", " + instead + " may come out" + at + from + '.';
}

// A pull below this is no more than any two sounds have; three slips are what a student can watch for.
constexpr double least_strength = .3;
constexpr std::size_t most_slips = 3;

std::vector<LikelySlip> strongest(std::vector<Turn> turns, const Teller& teller) {
  std::stable_sort(turns.begin(), turns.end(), [](const Turn& a, const Turn& b) { return a.strength > b.strength; });
  std::vector<LikelySlip> slips;
  std::set<std::pair<std::string, std::string>> told;
  for (const Turn& turn : turns) {
    if (turn.strength < least_strength || slips.size() == most_slips) break;
    const std::string a = turn.wanted->facts.key, b = turn.instead->facts.key;
    if (!told.insert(std::minmax(a, b)).second) continue;
    // The scale of pulls has no end; a pull of 0.8 (s and ʃ in neighbouring starts) is shown as one half.
    slips.push_back({turn.wanted->segment, turn.wanted->facts.ipa, said_instead(turn),
                     turn.strength / (turn.strength + .8), text_of(turn, teller)});
  }
  return slips;
}

} // namespace

std::vector<LikelySlip> find_likely_slips(const Pronunciation& pronunciation, const SegmentTrack& track,
                                          const Analysis& analysis) {
  return strongest(turns_of(analysis.sequence, analysis.measure.competitions), {pronunciation, track});
}

} // namespace mw
