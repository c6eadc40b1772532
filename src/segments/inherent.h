#pragma once

#include "ipa/sound.h"

namespace mw {

/// Length of a sound alone in a stressed word-initial syllable of careful speech, and the least it can shrink to; ms.
struct Inherent {
  double inherent_ms = 0, minimum_ms = 0;
};

/// Every sound has one: rows of the published table by letter, else by class of sound; length marks applied.
/// `nucleus`: a consonant that is a nucleus is long.
Inherent inherent_duration(const Sound& sound, bool nucleus);

} // namespace mw
