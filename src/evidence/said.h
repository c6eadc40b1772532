#pragma once

#include "evidence/speech.h"
#include "phrase/pronounce.h"

namespace mw {

/// Our own phrases (assets/evidence/phrases.txt), said by the program itself in General American and Southern British at
/// careful, normal and fast rate (3.5, 4.8, 6.6 syllables a second); every `every`-th phrase.
Result<std::vector<SpeechPhrase>> say_phrases(Pronouncer& pronouncer, int every = 1);

} // namespace mw
