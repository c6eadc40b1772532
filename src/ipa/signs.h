#pragma once

#include "base/result.h"
#include "ipa/inventory.h"
#include "ipa/parse.h"

#include <string>
#include <vector>

namespace mw {

/// What one or several code points of a transcription say. Steps between text and sounds, used inside this layer.
enum class SignKind { letter, mark, tie, stress, secondary_stress, syllable_break, word_break, group_break, intonation };
struct Sign {
  SignKind kind = SignKind::letter;
  const Letter* letter = nullptr;       // kind letter
  const Diacritic* mark = nullptr;      // kind mark
  Span span;                            // code points of the input
};

/// Reads text into signs. Brackets round the whole are skipped. Problem (input): a sign of neither notation.
Result<std::vector<Sign>> read_signs(std::u32string_view text, Notation notation);
Result<std::vector<Sign>> read_ipa_signs(std::u32string_view text, Span part);
Result<std::vector<Sign>> read_xsampa_signs(std::u32string_view text, Span part);

/// One IPA code point (its own spelling, any normalisation) as signs, appended; false when the IPA has none such.
bool append_ipa_sign(std::vector<Sign>& signs, char32_t sign, Span span);

/// A sound with the input it came from, and what stood before it.
struct SpelledSound {
  Sound sound;
  Span span;
  SignKind before = SignKind::letter; // letter: nothing stood between this sound and the one before
};
/// Joins letters, marks and ties into sounds (affricates, double articulations, glides) and leaves the breaks as
/// entries without a letter. Problem (input): a mark that does not fit its letter, a tie between letters that form no
/// sound, a mark with no letter.
Result<std::vector<SpelledSound>> join_signs(const std::vector<Sign>& signs, std::u32string_view text);

/// A problem about the signs in `span`: quoted, with code point and position counted from 1.
Problem sign_problem(const std::string& what, std::u32string_view text, Span span, const std::string& remedy);

} // namespace mw
