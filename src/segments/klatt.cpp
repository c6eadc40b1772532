#include "segments/klatt.h"

#include "ipa/inventory.h"
#include "segments/inherent.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace mw {
namespace {
/// What the rules ask about a sound's surroundings.
struct Place {
  const Segment* self = nullptr;
  const Segment *before = nullptr, *after = nullptr; // none across a pause
  bool nucleus = false;
  bool group_final_syllable = false; // no further nucleus before the pause
  bool word_final_syllable = false, polysyllabic = false;
};

bool is_nucleus(const Segment& segment) { return segment.slot == Slot::nucleus; }
bool bears(const Sound& sound, std::string_view mark) {
  return std::find(sound.marks.begin(), sound.marks.end(), mark) != sound.marks.end();
}
bool is_voiced(const Sound& sound) {
  const Letter* letter = find_letter(sound.letter);
  return letter != nullptr && ((letter->voiced && !bears(sound, "\u0325")) || bears(sound, "\u032C"));
}
bool has_manner(const Sound& sound, std::string_view manner) {
  const Letter* letter = find_letter(sound.letter);
  return letter != nullptr && letter->manner.find(manner) != std::string::npos;
}
bool is_plosive(const Sound& sound) {
  return has_manner(sound, "stop") || has_manner(sound, "affricate") || has_manner(sound, "implosive");
}
bool is_liquid_or_glide(const Sound& sound) {
  const Letter* letter = find_letter(sound.letter);
  return letter != nullptr && (letter->manner == "approximant" || letter->manner == "lateral");
}
bool is_nasal(const Sound& sound) {
  const Letter* letter = find_letter(sound.letter);
  return letter != nullptr && letter->manner == "nasal";
}
bool is_sonorant(const Sound& sound) { return is_nasal(sound) || is_liquid_or_glide(sound); }

/// Rule 9: a vowel's percentage by what follows it.
double following_percent(const Place& place) {
  if (place.self->word_final) return 120;
  if (place.after == nullptr || is_nucleus(*place.after)) return 100;
  const Sound& next = place.after->sound;
  if (is_nasal(next)) return 85;
  if (is_plosive(next)) return is_voiced(next) ? 120 : 70;
  return has_manner(next, "fricative") && is_voiced(next) ? 160 : 100;
}

double nucleus_percent(const Place& place) {
  const Segment& self = *place.self;
  double percent = 1;
  if (place.group_final_syllable)
    percent *= 1.4; // rule 2
  else
    percent *= 0.6;                                                                              // rule 3a
  if (!place.word_final_syllable) percent *= 0.85;                                               // rule 4
  if (place.polysyllabic) percent *= 0.8;                                                        // rule 5
  if (self.stress == 0) percent *= !place.word_final_syllable && !self.word_initial ? 0.5 : 0.7; // rules 7a, 7b
  if (!self.syllabic) {
    const double follows = following_percent(place) / 100; // rule 9
    percent *= place.group_final_syllable ? follows : 0.7 + 0.3 * follows;
    if (place.after != nullptr && is_nucleus(*place.after)) percent *= 1.2;   // rule 10a
    if (place.before != nullptr && is_nucleus(*place.before)) percent *= 0.7; // rule 10b
  }
  return percent;
}

double consonant_percent(const Place& place) {
  const Segment& self = *place.self;
  double percent = 1;
  if (place.group_final_syllable && self.slot == Slot::coda) {
    percent *= 1.4;                              // rule 2
    if (is_sonorant(self.sound)) percent *= 1.4; // rule 3b
  }
  if (!self.word_initial) percent *= 0.85;                                                                 // rule 6
  if (self.stress == 0) percent *= self.slot == Slot::onset && is_liquid_or_glide(self.sound) ? 0.5 : 0.7; // 7c, 7d
  const bool left = place.before != nullptr && !is_nucleus(*place.before);
  const bool right = place.after != nullptr && !is_nucleus(*place.after);
  if (left && right)
    percent *= 0.5; // rule 10c
  else if (left || right)
    percent *= 0.7; // rule 10d
  return percent;
}

bool is_voiceless_stop(const Sound& sound) {
  return has_manner(sound, "stop") && !is_voiced(sound) && !bears(sound, "ʼ");
}

/// Onset p t k of a stressed syllable, not after s; or one with the mark.
bool is_aspirated(const Place& place) {
  const Segment& self = *place.self;
  if (bears(self.sound, "ʰ")) return true;
  if (bears(self.sound, "˭")) return false;
  const Letter* letter = find_letter(self.sound.letter);
  if (!is_voiceless_stop(self.sound) || letter == nullptr || letter->place == "glottal" ||
      letter->place == "epiglottal")
    return false;
  const bool after_s = place.before != nullptr && place.before->sound.letter == "s" &&
                       place.before->slot == Slot::onset && place.before->word == self.word &&
                       place.before->syllable == self.syllable;
  return self.slot == Slot::onset && self.stress > 0 && !after_s;
}

RuleDuration rule_duration(const Place& place) {
  const Segment& self = *place.self;
  const Inherent ms = inherent_duration(self.sound, place.nucleus);
  double least = ms.minimum_ms;
  const bool tap = has_manner(self.sound, "tap");                   // a weak sound already
  if (self.stress == 0 && !tap) least *= place.nucleus ? 0.5 : 0.8; // rule 7; consonants Klatt 1976
  const double percent = place.nucleus ? nucleus_percent(place) : consonant_percent(place);
  RuleDuration rule{least, std::max(ms.inherent_ms - least, 0.0) * percent, place.nucleus, tap};
  // rule 11 gives 25 ms to the vowel after a voiceless stop, for the aspiration; a part stays with the vowel, and the
  // stop gets what brings it near the 96-122 ms of word-initial p t k in connected speech (Crystal & House 1988)
  if (is_aspirated(place)) rule.stretch_s += 40;
  if (place.nucleus && self.stress > 0 && place.before != nullptr && is_voiceless_stop(place.before->sound))
    rule.least_s += 15;
  if (bears(self.sound, "ʼ")) rule.least_s += 25; // the folds open only after the release: common practice
  rule.least_s /= 1000;
  rule.stretch_s /= 1000;
  return rule;
}

/// Whether no nucleus follows up to the end of the group.
bool is_group_final(const std::vector<Segment>& segments, std::size_t at, bool loop) {
  for (std::size_t i = at;; ++i) {
    if (i > at && is_nucleus(segments[i])) return false;
    if (segments[i].group_final) return true;
    if (i + 1 == segments.size()) return !loop;
  }
}

std::vector<Place> find_places(const std::vector<Segment>& segments, bool loop) {
  std::vector<Place> places(segments.size());
  const std::size_t n = segments.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Segment& self = segments[i];
    Place& place = places[i];
    place.self = &self;
    place.nucleus = is_nucleus(self);
    if (i > 0 || loop) {
      const Segment& before = segments[(i + n - 1) % n];
      if (!before.group_final) place.before = &before;
    }
    if ((i + 1 < n || loop) && !self.group_final) place.after = &segments[(i + 1) % n];
    place.group_final_syllable = is_group_final(segments, i, loop);
    int last_syllable = 0;
    for (std::size_t k = i; k < n && segments[k].word == self.word; ++k) last_syllable = segments[k].syllable;
    place.word_final_syllable = self.syllable == last_syllable;
    place.polysyllabic = last_syllable > 0;
  }
  return places;
}
} // namespace

std::vector<RuleDuration> apply_rules(const std::vector<Segment>& segments, bool loop) {
  std::vector<RuleDuration> rules;
  for (const auto& place : find_places(segments, loop)) rules.push_back(rule_duration(place));
  return rules;
}

Tempo::Tempo(double k) {
  constexpr double careful = 1.35; // 3.5 syllables a second over 350 trial phrases
  // up to careful speech the part above the least gives most (least: power 0.3, so that 0.45 leaves 0.78 of it)
  stretch = std::min(k, careful);
  least = std::pow(stretch, 0.3);
  // beyond it vowels take the time, consonants a part of it, a tap none
  vowel = k > careful ? k / careful : 1;
  consonant = k > careful ? std::pow(k / careful, 0.45) : 1;
}

double duration_at(const RuleDuration& rule, const Tempo& tempo) {
  constexpr double floor_s = 0.020;
  double length = rule.least_s * tempo.least + rule.stretch_s * tempo.stretch;
  if (!rule.tap) length *= rule.vowel ? tempo.vowel : tempo.consonant;
  return std::max(length, floor_s);
}

} // namespace mw
