#pragma once

#include "evidence/evidence.h"
#include "evidence/speech.h"
#include "phrase/pronounce.h"

namespace mw {

/// Our own phrases (assets/evidence/phrases.txt), said by the program itself in General American and Southern British at
/// careful, normal and fast rate (3.5, 4.8, 6.6 syllables a second); every `every`-th phrase.
Result<std::vector<SpeechPhrase>> say_phrases(Pronouncer& pronouncer, int every = 1);

/// Running speech: what the motion of those phrases achieves, kind by kind.
Result<EvidenceTable> speech_table(Pronouncer& pronouncer);

/// Lexical sets recovered from the two voices, with and without the override list.
Result<EvidenceTable> lexical_sets_table();

} // namespace mw
