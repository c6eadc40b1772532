#pragma once

#include "clash/features.h"

#include <string>

namespace mw {

/// What has to change between two sounds, in a few words a student knows: "only the voice", "the tip lies a little
/// further back". True of the model's goals. Empty for equal keys.
std::string difference(const SoundFacts& a, const SoundFacts& b);

/// The same as a clause for a sentence: "only the voice changes", "t stops the air, s lets it hiss".
std::string difference_clause(const SoundFacts& a, const SoundFacts& b);

/// A feel cue for telling two sounds apart.
std::string feel_of_difference(const SoundFacts& a, const SoundFacts& b);

/// The part of the mouth that must choose between the two: for titles and spotlights.
Articulator part_between(const SoundFacts& a, const SoundFacts& b);

/// "tip", "back", "lips": the one-word name of an articulator in running text ("tip back, then back tip").
std::string_view short_name(Articulator articulator);

/// What the sound asks of its articulator: "the tip up on the ridge behind the teeth".
std::string want_of(const SoundFacts& sound);

} // namespace mw
