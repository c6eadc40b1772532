#include "accent/rules.h"

#include "accent/accent.h"
#include "base/expect.h"
#include "base/text.h"

#include <algorithm>

namespace mw {
namespace {
constexpr std::string_view yes_no = "yes|no|variable";

// `from`: 0.5 where the sources call the variable form usual, 0.7 to 0.8 where they call it occasional, casual or
// local; the numbers are ours. Rules of vowels act where the values of the file say otherwise (vowel_rules.cpp and
// phrase/chain_vowels.cpp). Splits, and what conservative or elocutionary speech keeps, belong to careful speech.
constexpr bool careful = true;
constexpr RuleName names[]{
    {"national_norm", "American|British",
     "whose words, numbers and dates (tomato, schedule, zed) the accent goes with"},
    {"rhotic", yes_no, "r is said in every position, not only before a vowel", 0.7, careful},
    {"linking_r", yes_no, "an r of the spelling comes back before a vowel", 0.3},
    {"intrusive_r", yes_no, "an r is put between a non-high vowel and a vowel", 0.6},
    {"r_realisation", "bunched|tip-up|tap|trill|retroflex|labiodental|uvular", "the usual shape of r"},
    {"t_flapping", yes_no, "t and d between vowels become a tap before an unstressed vowel", 0.75},
    {"t_glottalling", yes_no, "t becomes a catch in the throat", 0.5},
    {"t_glottalling_where", "before syllabic n|before consonants|word-final|everywhere",
     "where t becomes a catch in the throat; each place includes the ones before it"},
    {"t_slit_fricative", yes_no, "t after a vowel is weakened to a slit fricative", 0.8},
    {"th_fronting", yes_no, "\u03b8 and \u00f0 become f and v", 0.75},
    {"th_fronting_where", "everywhere|not word-initial", "where \u03b8 and \u00f0 become f and v"},
    {"th_stopping", yes_no, "\u03b8 and \u00f0 become stops", 0.75},
    {"th_stopping_where", "everywhere|initial \u00f0", "where \u03b8 and \u00f0 become stops"},
    {"th_stop", "dental|alveolar", "which stops \u03b8 and \u00f0 become"},
    {"l_quality", "clear everywhere|clear onset, dark coda|dark everywhere",
     "where the back of the tongue rises for l"},
    {"l_vocalisation", yes_no, "l after the vowel becomes a back vowel", 0.7},
    {"yod_dropping_after_t_d_n", yes_no, "no j in new, tune, duke", 0.5},
    {"yod_dropping_after_s_l_z", yes_no, "no j in suit, lute, assume", 0.3},
    {"yod_coalescence_stressed", yes_no, "tj and dj become t\u0283 and d\u0292 in stressed syllables", 0.5},
    {"h_dropping", yes_no, "h is left out in content words", 0.7},
    {"wh_distinction", yes_no, "which does not sound like witch", 0.3, careful},
    {"ng_coalescence", yes_no, "no \u0261 after \u014b in singer", 0.7, careful},
    {"g_dropping", yes_no, "-ing is said with n", 0.8},
    {"aspiration_of_p_t_k", yes_no, "p t k have a puff of air before a stressed vowel", 0.7, careful},
    {"retroflex_t_d", yes_no, "t and d are made with the tip curled back", 0.5},
    {"v_w_merger", yes_no, "v and w are one sound", 0.8},
    {"final_cluster_reduction", yes_no, "a final t or d after a consonant is left out", 0.6},
    {"palatal_glide_after_velars", yes_no, "k and \u0261 are followed by j before an open front vowel", 0.8},
    {"happY_tensing", yes_no, "happY has the FLEECE vowel", 0.7, careful},
    {"weak_vowel_merger", yes_no, "unstressed KIT and commA are one vowel", 0.8},
    {"FOOT_STRUT_split", yes_no, "FOOT differs from STRUT", 0.7, careful},
    {"TRAP_BATH_split", yes_no, "BATH differs from TRAP", 0.7, careful},
    {"LOT_CLOTH_split", yes_no, "CLOTH has the THOUGHT vowel", 0.7, careful},
    {"COT_CAUGHT_merger", yes_no, "LOT and THOUGHT are one vowel", 0.7},
    {"FATHER_BOTHER_merger", yes_no, "PALM and LOT are one vowel", 0.7},
    {"NORTH_FORCE_merger", yes_no, "NORTH and FORCE are one vowel", 0.7},
    {"PAW_PORE_merger", yes_no, "THOUGHT and FORCE are one vowel", 0.7},
    {"CURE_FORCE_merger", yes_no, "CURE and FORCE are one vowel", 0.7},
    {"Mary_marry_merry_merger", yes_no, "TRAP and DRESS before r have the SQUARE vowel", 0.7},
    {"mirror_nearer_merger", yes_no, "KIT before r has the NEAR vowel", 0.7},
    {"hurry_furry_merger", yes_no, "STRUT before r has the NURSE vowel", 0.7},
    {"pin_pen_merger", yes_no, "KIT and DRESS are one vowel before a nasal", 0.7},
    {"NEAR_SQUARE_merger", yes_no, "NEAR and SQUARE are one vowel", 0.7},
    {"NURSE_SQUARE_merger", yes_no, "NURSE and SQUARE are one vowel", 0.7},
    {"fir_fur_fern_distinct", yes_no, "NURSE is split by spelling", 0.7},
    {"FOOT_GOOSE_merger", yes_no, "FOOT and GOOSE are one vowel", 0.7},
    {"TRAP_PALM_merger", yes_no, "TRAP and PALM are one vowel", 0.7},
    {"KIT_split", yes_no, "KIT has two clearly different values", 0.7},
    {"KIT_centralised", yes_no, "KIT is central everywhere", 0.7},
    {"short_a_split_or_tensing", yes_no, "TRAP is raised in some or all places before a nasal", 0.7},
    {"PRICE_monophthongisation", yes_no, "PRICE does not glide", 0.7},
    {"Canadian_raising_PRICE", yes_no, "PRICE starts higher before a voiceless consonant", 0.7},
    {"Canadian_raising_MOUTH", yes_no, "MOUTH starts higher before a voiceless consonant", 0.7},
    {"Scottish_vowel_length_rule", yes_no, "vowels are long before r, v \u00f0 z \u0292 and the word end", 0.7},
    {"FACE_GOAT_monophthongs", yes_no, "FACE and GOAT do not glide", 0.7},
    {"diphthong_shift", yes_no, "the long vowels and glides have moved round the vowel space", 0.7},
    {"GOAT_split_before_l", yes_no, "GOAT before dark l is very different", 0.7},
    {"GOOSE_fronting", yes_no, "GOOSE is central or front", 0.7},
    {"smoothing", yes_no, "fire and power lose the middle of their glide", 0.8},
    {"short_front_vowel_raising", yes_no, "TRAP and DRESS are raised", 0.7},
    {"low_back_merger_shift", yes_no, "TRAP, DRESS and KIT are lowered or drawn back", 0.7},
    {"syllabic_consonants", "yes|no", "schwa and l or n become one syllabic consonant (kettle, button)"},
    {"syllable_timing_tendency", yes_no, "syllables are more even, weak ones less reduced", 0.5, false,
     "told only: it is a fact of timing over whole phrases, and no published figure says how much longer weak syllables are"},
    {"full_vowels_in_weak_forms", yes_no, "function words keep their full vowels", 0.3, careful},
};
} // namespace

std::span<const RuleName> rule_names() { return names; }

const RuleName* find_rule(std::string_view name) {
  const auto at =
      std::find_if(std::begin(names), std::end(names), [&](const RuleName& row) { return row.name == name; });
  return at == std::end(names) ? nullptr : &*at;
}

bool allows(const RuleName& rule, std::string_view value) {
  const auto values = split(rule.values, '|');
  return std::find(values.begin(), values.end(), value) != values.end();
}

bool holds(const Accent& accent, std::string_view rule, double casual) {
  const std::string_view value = accent.rule(rule);
  if (value == "yes") return true;
  if (value != "variable") return false;
  const RuleName* row = find_rule(rule);
  MW_EXPECT(row != nullptr);
  return row->careful ? casual < row->from : casual >= row->from;
}

Answer answer_of(const Accent& accent, std::string_view rule, double casual) {
  const std::string_view value = accent.rule(rule);
  if (value == "yes") return Answer::yes;
  if (value == "no") return Answer::no;
  if (value != "variable") return Answer::as_written;
  const RuleName* row = find_rule(rule);
  MW_EXPECT(row != nullptr);
  if (casual >= row->from) return row->careful ? Answer::no : Answer::yes;
  if (casual < careful_below) return row->careful ? Answer::yes : Answer::no;
  return Answer::as_written;
}

} // namespace mw
