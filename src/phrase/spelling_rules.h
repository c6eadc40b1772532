#pragma once

#include "phrase/phoneme.h"

#include <string_view>

namespace mw {

/// Lexical sets that neither voice tells apart and the spelling does, by classes of Wells 1982 (from memory): salt has THOUGHT,
/// office and throng CLOTH, monster LOT, plastic and fantasy TRAP, storm NORTH, port and sword FORCE.
void apply_spelling(std::string_view word, Phonemes& phonemes);

} // namespace mw
