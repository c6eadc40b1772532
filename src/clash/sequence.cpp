#include "clash/sequence.h"

#include "clash/similarity.h"

namespace mw {

const std::vector<SequenceSound>& SequenceSyllable::at(Slot slot) const {
  return slot == Slot::onset ? onset : slot == Slot::nucleus ? nucleus : coda;
}

namespace {

bool is_weak_nucleus(const Sound& nucleus) {
  return !is_vowel(nucleus) || (!is_glide(nucleus) && (nucleus.letter == "ə" || nucleus.letter == "ɚ"));
}

void settle(Sequence& sequence) {
  for (SequenceSyllable& syllable : sequence.syllables) {
    if (is_weak(syllable)) syllable.stress = 0;
    for (Slot slot : all_slots) syllable.keys[static_cast<std::size_t>(slot)] = key_of(syllable.at(slot));
  }
}

std::vector<SequenceSound>& part(SequenceSyllable& syllable, Slot slot) {
  return slot == Slot::onset ? syllable.onset : slot == Slot::nucleus ? syllable.nucleus : syllable.coda;
}

void append(Sequence& sequence, SequenceSyllable& syllable, Slot slot, const Sound& sound) {
  part(syllable, slot).push_back({facts_of(sound), sequence.segment_count++});
}

template <typename Get> std::string joined(const std::vector<SequenceSound>& slot, std::string_view gap, Get&& get) {
  std::string text;
  for (const SequenceSound& sound : slot) text += (text.empty() ? std::string() : std::string(gap)) + get(sound.facts);
  return text;
}

} // namespace

bool is_weak(const SequenceSyllable& syllable) {
  if (syllable.stress == 0 || syllable.nucleus.empty()) return true;
  const SoundFacts& nucleus = syllable.nucleus[0].facts;
  return !nucleus.vowel || nucleus.key == "ə" || nucleus.key == "ɚ";
}

bool in_weak_syllable(const SegmentTrack& track, std::size_t segment) {
  const Segment& s = track.segments[segment];
  if (s.stress == 0) return true;
  for (const Segment& other : track.segments)
    if (other.word == s.word && other.syllable == s.syllable && other.slot == Slot::nucleus)
      return is_weak_nucleus(other.sound);
  return false;
}

Sequence sequence_of(const SegmentTrack& track, bool loop) {
  Sequence sequence;
  sequence.loop = loop;
  for (const Segment& segment : track.segments) {
    const bool same = !sequence.syllables.empty() && sequence.syllables.back().word == segment.word &&
                      sequence.syllables.back().syllable == segment.syllable;
    if (!same) {
      sequence.syllables.emplace_back();
      sequence.syllables.back().start_s = segment.start_s;
    }
    SequenceSyllable& syllable = sequence.syllables.back();
    syllable.word = segment.word;
    syllable.syllable = segment.syllable;
    syllable.stress = segment.stress;
    syllable.group_final = syllable.group_final || segment.group_final;
    syllable.end_s = segment.end_s;
    append(sequence, syllable, segment.slot, segment.sound);
  }
  settle(sequence);
  return sequence;
}

Sequence sequence_of(const std::vector<SpelledWord>& words, bool loop) {
  Sequence sequence;
  sequence.loop = loop;
  for (std::size_t w = 0; w < words.size(); ++w) {
    for (std::size_t s = 0; s < words[w].syllables.size(); ++s) {
      const SpelledSyllable& spelled = words[w].syllables[s];
      SequenceSyllable syllable;
      syllable.word = static_cast<int>(w);
      syllable.syllable = static_cast<int>(s);
      syllable.stress = spelled.stress;
      syllable.group_final = words[w].group_end && s + 1 == words[w].syllables.size();
      for (const Sound& sound : spelled.onset) append(sequence, syllable, Slot::onset, sound);
      append(sequence, syllable, Slot::nucleus, spelled.nucleus);
      for (const Sound& sound : spelled.coda) append(sequence, syllable, Slot::coda, sound);
      sequence.syllables.push_back(std::move(syllable));
    }
  }
  settle(sequence);
  return sequence;
}

std::string key_of(const std::vector<SequenceSound>& slot) {
  return joined(slot, " ", [](const SoundFacts& facts) { return facts.key; });
}

std::string action_of(const std::vector<SequenceSound>& slot) {
  return joined(slot, ", ", [](const SoundFacts& facts) { return action_of(facts); });
}

double similarity(const std::vector<SequenceSound>& a, const std::vector<SequenceSound>& b) {
  if (a.empty() || b.empty()) return 0;
  double sum = 0;
  for (const SequenceSound& x : a)
    for (const SequenceSound& y : b) sum += similarity(x.facts, y.facts);
  return sum / static_cast<double>(a.size() * b.size());
}

} // namespace mw
