#include "clash/telling.h"

#include "clash/tell.h"

#include <algorithm>
#include <cmath>

namespace mw {

namespace {

/// Everything one finding needs to be told.
struct Told {
  Teller teller;
  const Pattern& pattern;
  [[nodiscard]] SoundFacts facts(std::size_t segment) const { return facts_of(teller.track.segments[segment].sound); }
};

std::string_view slot_name(Slot slot) { return slot == Slot::onset ? "start" : slot == Slot::nucleus ? "vowel" : "end"; }
std::string slots_name(Slot slot) { return std::string(slot_name(slot)) + 's'; }

Clash clash_over(const Told& told, ClashKind kind, int level, double strength, std::vector<std::size_t> segments) {
  std::sort(segments.begin(), segments.end());
  segments.erase(std::unique(segments.begin(), segments.end()), segments.end());
  Clash clash;
  clash.kind = kind;
  clash.level = level;
  clash.strength = strength;
  clash.segments = segments;
  clash.start_s = told.teller.track.segments[segments.front()].start_s;
  clash.end_s = told.teller.track.segments[segments.back()].end_s;
  return clash;
}

void add_articulator(Clash& clash, Articulator articulator) {
  if (std::find(clash.articulators.begin(), clash.articulators.end(), articulator) == clash.articulators.end())
    clash.articulators.push_back(articulator);
}

/// A swap is heavier on the mouth in strong syllables; over a weak one it is mild at most.
int stressed_level(const Told& told, const PatternLink& link) {
  const bool all_strong = std::all_of(link.syllables.begin(), link.syllables.end(),
                                      [&](std::size_t c) { return told.pattern.syllables[c].stress > 0; });
  return all_strong ? link.level : 1;
}

Clash tell_swap(const Told& told, const PatternLink& link) {
  Clash clash = clash_over(told, ClashKind::swap, stressed_level(told, link), link.strength, link.segments);
  for (std::size_t segment : link.segments) add_articulator(clash, told.facts(segment).articulator);
  std::vector<std::string> ipa;
  for (std::size_t segment : link.segments) ipa.push_back(told.teller.slot_ipa(segment));
  const bool inside = link.syllables.size() == 2; // starts and ends of two syllables
  const std::string order = ipa[0] + ' ' + ipa[1] + ", then " + ipa[2] + ' ' + ipa[3];
  clash.title = inside ? "Swap of start and end" : "Swap of two " + slots_name(link.slot);
  clash.where = order + ", in " + told.teller.words(told.pattern, link.syllables);
  clash.text = "The order turns round: " + order + ". The same two moves come back in exchanged order.";
  clash.feel = "say only " + listed({ipa[0], ipa[1], ipa[2], ipa[3]}) + ", slowly; feel the second move stay where it was.";
  return clash;
}

Clash tell_near_twins(const Told& told, const PatternLink& link) {
  Clash clash = clash_over(told, ClashKind::near_twins, link.level, link.strength, link.segments);
  // The first sound and the first one after it that is not the same.
  const std::size_t a = link.segments.front();
  std::size_t b = link.segments.back();
  for (std::size_t segment : link.segments)
    if (told.teller.slot_ipa(segment) != told.teller.slot_ipa(a)) { b = segment; break; }
  const SoundFacts first = told.facts(a), second = told.facts(b);
  const bool same_head = first.key == second.key; // clusters that differ further on
  add_articulator(clash, same_head ? first.articulator : part_between(first, second));
  const std::string one = told.teller.slot_ipa(a), two = told.teller.slot_ipa(b);
  clash.title = "Near twins: " + one + " and " + two;
  const std::string places = " at the " + slots_name(link.slot) + " of ";
  clash.where = one + " and " + two + "," + places + told.teller.words(told.pattern, link.syllables);
  const bool other_part = first.articulator != second.articulator && !same_head;
  clash.text = one + " and " + two + (link.syllables.size() > 2 ? " take turns" : " stand close together") + " at the " +
               slots_name(link.slot) + " of syllables" +
               (other_part ? ", the same kind of move made elsewhere: " : " and are nearly the same: ") +
               (same_head ? "one has a move more" : difference_clause(first, second)) + ".";
  clash.feel = same_head ? "say " + one + ", then " + two + ", and count the moves." : feel_of_difference(first, second);
  return clash;
}

std::string lip_move(double round) { return round > 0 ? "round" : "spread"; }
std::string tongue_move(double up) { return up > 0 ? "rises" : "sinks"; }

Clash tell_counter_move(const Told& told, const PatternLink& link) {
  Clash clash = clash_over(told, ClashKind::counter_move, link.level, link.strength, link.segments);
  clash.articulators = {Articulator::lips, Articulator::body};
  const PatternSyllable &a = told.pattern.syllables[link.syllables[0]], &b = told.pattern.syllables[link.syllables[1]];
  const std::string one = a.nucleus.front().ipa, two = b.nucleus.front().ipa;
  clash.title = "Counter-move of tongue and lips";
  clash.where = one + " and " + two + ", in " + told.teller.words(told.pattern, link.syllables);
  if (a.glide.up * b.glide.up > 0) {
    clash.text = "The tongue " + tongue_move(a.glide.up) + " in both " + one + " and " + two + ", but the lips " +
                 lip_move(a.glide.round) + " in the first and " + lip_move(b.glide.round) + " in the second.";
    clash.feel = "a finger at each corner of the mouth: the corners go " +
                 std::string(a.glide.round > 0 ? "in, then out." : "out, then in.");
  } else {
    clash.text = "The lips " + lip_move(a.glide.round) + " in both " + one + " and " + two + ", but the tongue " +
                 tongue_move(a.glide.up) + " in the first and " + tongue_move(b.glide.up) + " in the second.";
    clash.feel = "keep the lips going the same way and let only the jaw and tongue turn round.";
  }
  return clash;
}

std::string step_text(const OutOfStep& step) {
  const std::string slow = slots_name(step.slow.slot), quick = slots_name(step.quick.slot);
  if (step.quick.period == 1)
    return "The " + quick + " stay the same while the " + slow + " come round every " + count_word(step.slow.period) +
           " syllables: the one that never changes pulls at the other.";
  return "The " + slow + " come round every " + count_word(step.slow.period) + " syllables, the " + quick + " every " +
         count_word(step.quick.period) + ": one pattern pulls the other along.";
}

Clash tell_out_of_step(const Told& told, const OutOfStep& step) {
  std::vector<std::size_t> segments = step.slow.segments;
  segments.insert(segments.end(), step.quick.segments.begin(), step.quick.segments.end());
  Clash clash = clash_over(told, ClashKind::out_of_step, step.level, static_cast<double>(step.level), segments);
  for (std::size_t segment : step.slow.segments) add_articulator(clash, told.facts(segment).articulator);
  clash.title = "Out of step: " + count_word(step.slow.period) + " against " + count_word(step.quick.period);
  clash.where = slots_name(step.slow.slot) + " against " + slots_name(step.quick.slot) + ", from " +
                told.teller.word(told.pattern.syllables[step.slow.syllables.front()].word) + " on";
  clash.text = step_text(step);
  std::vector<std::size_t> claps;
  for (std::size_t i = 0; i < step.slow.syllables.size(); i += step.slow.period) claps.push_back(step.slow.syllables[i]);
  clash.feel = "clap on " + told.teller.words(told.pattern, claps) + "; let the " + slots_name(step.quick.slot) + " run past your hands.";
  return clash;
}

} // namespace

std::vector<Clash> pattern_clashes(const Pronunciation& pronunciation, const SegmentTrack& track, const Pattern& pattern) {
  const Told told{{pronunciation, track}, pattern};
  std::vector<Clash> clashes;
  for (const PatternLink& link : pattern.links) {
    if (link.kind == LinkKind::swap) clashes.push_back(tell_swap(told, link));
    if (link.kind == LinkKind::near_twins) clashes.push_back(tell_near_twins(told, link));
    if (link.kind == LinkKind::counter_move) clashes.push_back(tell_counter_move(told, link));
  }
  for (const OutOfStep& step : pattern.out_of_step) clashes.push_back(tell_out_of_step(told, step));
  return clashes;
}

} // namespace mw
