#pragma once

#include <span>
#include <string_view>

namespace mw {

/// The surroundings in which an accent may give a lexical set another value. The phrase stage decides which hold.
enum class Context {
  before_l,
  before_l_in_syllable,
  before_r,
  before_voiceless,
  before_m_or_n,
  before_nasal,
  before_nasal_and_consonant,
  before_velar_or_ng,
  before_fricative_r_or_end,
  before_fricative_r_vowel_or_end,
  at_word_end,
  open_syllable,
  after_w,
  spelt_er_or_ear,
  spelt_ir,
  kit_front,
  short_a_split,
  some_speakers
};
struct ContextName {
  Context context;
  std::string_view name;    // as written in accent files
  std::string_view meaning; // one plain sentence, with its limits
  bool evaluated;           // false: kept and shown, never applied
};
/// All names that an accent file may use, in the order of the enumeration.
std::span<const ContextName> context_names();
const ContextName* find_context(std::string_view name);

} // namespace mw
