#pragma once

#include "phrase/align.h"
#include "phrase/shifts.h"

namespace mw {

/// Words that sound alike in one accent and not in the other. Where a sound is there in one only (fine and find, air and
/// hair, do and dew) no two places of the phrase would show it. Only words that both accents say, near
/// each other; a weak form counts as its full one.
std::vector<Shift> word_shifts(const Pronunciation& a, const std::vector<PlacedSound>& left, const Pronunciation& b,
                               const std::vector<PlacedSound>& right);

} // namespace mw
