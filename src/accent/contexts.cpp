#include "accent/contexts.h"

#include <algorithm>
#include <array>

namespace mw {
namespace {
// "Word end" stands for morpheme end: the program does not divide words into morphemes.
constexpr std::array<ContextName, 18> names{{
    {Context::before_l, "before l", "the next sound of the word is l", true},
    {Context::before_l_in_syllable, "before l in its syllable",
     "l closes the syllable or is syllabic right after it (dark or vocalised l)", true},
    {Context::before_r, "before r", "the next sound of the word is r", true},
    {Context::before_voiceless, "before voiceless",
     "the next sound of the word is a voiceless consonant that does not open a stressed syllable", true},
    {Context::before_m_or_n, "before m or n", "the next sound of the word is m or n", true},
    {Context::before_nasal, "before nasal", "the next sound of the word is m, n or \u014b", true},
    {Context::before_nasal_and_consonant, "before nasal and consonant",
     "the next sounds of the word are a nasal and another consonant", true},
    {Context::before_velar_or_ng, "before \u014b or \u0261", "the next sound of the word is \u014b or \u0261", true},
    {Context::before_fricative_r_or_end, "before voiced fricative, r or word end",
     "v \u00f0 z \u0292 r or nothing follows in the word (Scottish length rule)", true},
    {Context::before_fricative_r_vowel_or_end, "before voiced fricative, r, vowel or word end",
     "v \u00f0 z \u0292 r, a vowel or nothing follows in the word (Aitken's rule for PRICE)", true},
    {Context::at_word_end, "at word end", "the vowel ends the word", true},
    {Context::open_syllable, "in an open syllable", "no consonant closes the syllable", true},
    {Context::after_w, "after w", "the sound before the vowel is w", true},
    {Context::spelt_er_or_ear, "spelt er or ear", "the word spells its NURSE vowel er or ear", true},
    {Context::spelt_ir, "spelt ir", "the word spells its NURSE vowel ir", true},
    {Context::kit_front, "word-initial, after h, beside velar or before palato-alveolar",
     "the vowel begins the word, follows h, touches k \u0261 \u014b or stands before \u0283 t\u0283 d\u0292", true},
    {Context::short_a_split, "closed syllable, short-a split",
     "m n f \u03b8 s \u0283 b d d\u0292 \u0261 follows and then a consonant or the word end; not in function words",
     true},
    {Context::some_speakers, "some speakers",
     "varies by region or word in a way the program cannot decide; the note says where", false},
}};
} // namespace

std::span<const ContextName> context_names() { return names; }

const ContextName* find_context(std::string_view name) {
  const auto at = std::find_if(names.begin(), names.end(), [&](const ContextName& row) { return row.name == name; });
  return at == names.end() ? nullptr : &*at;
}

} // namespace mw
