#include "ipa/aliases.h"
#include "ipa/inventory.h"

#include <algorithm>
#include <map>

// Marks and their meanings: International Phonetic Association, Handbook (1999) and chart (revised to 2020). X-SAMPA:
// Wells 1995. On which letters a mark makes sense is our own reading of these meanings; each rule stands below.

namespace mw {
namespace {
using L = const Letter&;

bool has(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }
bool one_of(const std::string& text, std::initializer_list<std::string_view> choices) {
  return std::find(choices.begin(), choices.end(), text) != choices.end();
}

// classes of letters
bool coronal(L l) { return one_of(l.place, {"dental", "alveolar", "postalveolar", "alveolo-palatal", "retroflex"}); }
bool dorsal(L l) { return one_of(l.place, {"palatal", "labial-palatal", "velar", "labial-velar", "uvular"}); }
bool throat(L l) { return one_of(l.place, {"pharyngeal", "epiglottal"}); }
bool glottal(L l) { return l.place == "glottal"; }
bool click(L l) { return has(l.manner, "click"); }
bool tap(L l) { return has(l.manner, "tap"); }
bool fricative(L l) { return has(l.manner, "fricative"); }
bool affricate(L l) { return has(l.manner, "affricate"); }
bool plosive(L l) { return l.manner == "stop"; }
bool nasal(L l) { return l.manner == "nasal"; }
bool approximant(L l) { return one_of(l.manner, {"approximant", "lateral"}); }
bool semivowel(L l) { return one_of(l.ipa, {"j", "w", "ɥ", "ɰ"}); }
bool sonorant(L l) { return nasal(l) || approximant(l) || l.manner == "trill"; }
bool rounded_consonant(L l) { return one_of(l.ipa, {"w", "ʍ", "ɥ"}); }

// where the marks may stand
bool nowhere(L) { return false; }
bool on_voiced(L l) { return l.voiced; }
bool on_voiceless(L l) { return !l.voiced && !(plosive(l) && (glottal(l) || throat(l))); } // closed folds cannot sound
bool on_voiced_above_glottis(L l) { return l.voiced && !glottal(l); }                      // ɦ is breathy already
bool on_aspirable(L l) {
  return !glottal(l) && (plosive(l) || affricate(l) || (fricative(l) && !l.voiced) || click(l));
}
bool on_tip_sounds(L l) { return one_of(l.place, {"dental", "alveolar"}) && !click(l); }
bool on_dental_or_alveolar(L l) {
  return l.place == "alveolar" || (l.place == "dental" && !click(l));
} // θ: behind, not between the teeth
bool on_tip_or_blade(L l) { return coronal(l) && l.place != "alveolo-palatal"; }
bool on_tongue_sounds(L l) { return l.vowel || coronal(l) || dorsal(l); }
bool on_not_central(L l) { return l.vowel && l.backness != "central"; }
bool on_not_schwa(L l) { return l.vowel && l.height != "mid"; }
bool on_raisable(L l) {
  return l.vowel || (!glottal(l) && (approximant(l) || l.manner == "trill" || tap(l) || fricative(l)));
}
bool on_lowerable(L l) { return on_raisable(l) || (plosive(l) && !glottal(l) && l.place != "epiglottal"); }
bool on_vowels(L l) { return l.vowel; }
bool on_lip_shaped(L l) { return l.vowel || rounded_consonant(l); }
bool on_coronal_or_labial(L l) {
  return !l.vowel && l.place != "alveolo-palatal" && l.ipa != "ɫ" && l.ipa != "l" &&
         (coronal(l) || has(l.place, "labi")) && !dorsal(l) && !click(l);
}
bool on_syllabic(L l) { return (sonorant(l) && !semivowel(l)) || (fricative(l) && !rounded_consonant(l)); }
bool on_nasalisable(L l) {
  return l.vowel || (!nasal(l) && (sonorant(l) || tap(l) || fricative(l))) || l.manner == "click";
}
bool on_holdable(L l) { return !tap(l) && !click(l); }
bool on_shortenable(L l) { return l.vowel || sonorant(l); }
bool on_tone_bearing(L l) { return l.vowel || sonorant(l); }
bool on_stops(L l) { return plosive(l) || l.manner == "implosive"; }
bool on_not_r_coloured(L l) { return l.vowel && !one_of(l.ipa, {"ɚ", "ɝ", "ə", "ɜ"}); }
bool on_unrounded_consonants(L l) { return !l.vowel && !rounded_consonant(l); }
bool on_not_palatal(L l) { return !l.vowel && !has(l.place, "palatal") && !click(l); }
/// Alveolo-palatals are made with the raised front of the tongue: palatalised by nature.
bool has_raised_front(L l) { return l.place == "alveolo-palatal"; }
bool on_not_velar(L l) {
  return !l.vowel && !has(l.place, "velar") && l.place != "uvular" && !throat(l) && l.ipa != "ɫ" && !click(l) &&
         !has_raised_front(l);
}
bool on_not_throat(L l) { return !throat(l) && !click(l) && !has_raised_front(l); }
bool on_oral_stops(L l) { return plosive(l) && !glottal(l); }
bool on_coronal_stops(L l) { return plosive(l) && coronal(l); }
bool on_ejectable(L l) {
  return !l.voiced && !glottal(l) && (plosive(l) || fricative(l) || affricate(l)) && l.ipa != "ʍ";
}

/// Marks of one family exclude each other on a letter.
enum class Family {
  own,
  phonation,
  place,
  tip,
  fronting,
  centring,
  height,
  root,
  rounding,
  throat,
  release,
  syllabicity,
  length,
  tone,
  tone_letter
};

struct Row {
  const char *ipa, *xsampa, *name;
  bool moves_shape;
  Family family;
  bool (*stands)(L);
};

constexpr Row rows[] = {
    {"\u0325", "_0", "voiceless", true, Family::phonation, on_voiced},
    {"\u032C", "_v", "voiced", true, Family::phonation, on_voiceless},
    {"\u0324", "_t", "breathy voiced", true, Family::phonation, on_voiced_above_glottis},
    {"\u0330", "_k", "creaky voiced", true, Family::phonation, on_voiced_above_glottis},
    {"\u033C", "_N", "linguolabial", true, Family::place, on_tip_sounds},
    {"\u032A", "_d", "dental", true, Family::place, on_dental_or_alveolar},
    {"\u033A", "_a", "apical", true, Family::tip, on_tip_or_blade},
    {"\u033B", "_m", "laminal", true, Family::tip, on_tip_or_blade},
    {"\u031F", "_+", "advanced", true, Family::fronting, on_tongue_sounds},
    {"\u0320", "_-", "retracted", true, Family::fronting, on_tongue_sounds},
    {"\u0308", "_\"", "centralised", true, Family::centring, on_not_central},
    {"\u033D", "_x", "mid-centralised", true, Family::centring, on_not_schwa},
    {"\u031D", "_r", "raised", true, Family::height, on_raisable},
    {"\u031E", "_o", "lowered", true, Family::height, on_lowerable},
    {"\u0318", "_A", "advanced tongue root", true, Family::root, on_vowels},
    {"\u0319", "_q", "retracted tongue root", true, Family::root, on_vowels},
    {"\u0339", "_O", "more rounded", true, Family::rounding, on_lip_shaped},
    {"\u031C", "_c", "less rounded", true, Family::rounding, on_lip_shaped},
    {"\u0334", "_e", "velarised or pharyngealised", true, Family::throat, on_coronal_or_labial},
    {"\u0329", "=", "syllabic", false, Family::syllabicity, on_syllabic},
    {"\u032F", "_^", "non-syllabic", false, Family::syllabicity, on_vowels},
    {"\u0303", "~", "nasalised", true, Family::own, on_nasalisable},
    {"\u0306", "_X", "extra-short", false, Family::length, on_shortenable},
    {"\u030B", "_T", "extra high tone", false, Family::tone, on_tone_bearing},
    {"\u0301", "_H", "high tone", false, Family::tone, on_tone_bearing},
    {"\u0304", "_M", "mid tone", false, Family::tone, on_tone_bearing},
    {"\u0300", "_L", "low tone", false, Family::tone, on_tone_bearing},
    {"\u030F", "_B", "extra low tone", false, Family::tone, on_tone_bearing},
    {"\u030C", "_R", "rising tone", false, Family::tone, on_tone_bearing},
    {"\u0302", "_F", "falling tone", false, Family::tone, on_tone_bearing},
    {"\u1DC4", "_H_T", "high rising tone", false, Family::tone, on_tone_bearing},
    {"\u1DC5", "_B_L", "low rising tone", false, Family::tone, on_tone_bearing},
    {"\u1DC8", "_R_F", "rising-falling tone", false, Family::tone, on_tone_bearing},
    {"\u031A", "_}", "no audible release", false, Family::release, on_stops},
    {"˞", "`", "rhoticity", true, Family::own, on_not_r_coloured},
    {"ʷ", "_w", "labialised", true, Family::own, on_unrounded_consonants},
    {"ʲ", "_j", "palatalised", true, Family::own, on_not_palatal},
    {"ˠ", "_G", "velarised", true, Family::throat, on_not_velar},
    {"ˤ", "_?\\", "pharyngealised", true, Family::throat, on_not_throat},
    {"ⁿ", "_n", "nasal release", true, Family::release, on_oral_stops},
    {"ˡ", "_l", "lateral release", true, Family::release, on_coronal_stops},
    {"ʰ", "_h", "aspirated", true, Family::release, on_aspirable},
    {"ʼ", "_>", "ejective", true, Family::release, on_ejectable},
    {"ː", ":", "long", false, Family::length, on_holdable},
    {"ˑ", ":\\", "half-long", false, Family::length, on_holdable},
    {"˥", "_T", "extra high tone letter", false, Family::tone_letter, on_tone_bearing},
    {"˦", "_H", "high tone letter", false, Family::tone_letter, on_tone_bearing},
    {"˧", "_M", "mid tone letter", false, Family::tone_letter, on_tone_bearing},
    {"˨", "_L", "low tone letter", false, Family::tone_letter, on_tone_bearing},
    {"˩", "_B", "extra low tone letter", false, Family::tone_letter, on_tone_bearing},
    // signs that stand between letters
    {"ˈ", "\"", "primary stress", false, Family::own, nowhere},
    {"ˌ", "%", "secondary stress", false, Family::own, nowhere},
    {"|", "|", "minor (foot) group", false, Family::own, nowhere},
    {"‖", "||", "major (intonation) group", false, Family::own, nowhere},
    {".", ".", "syllable break", false, Family::own, nowhere},
    {"‿", "-\\", "linking", false, Family::own, nowhere},
    {"\u0361", "_", "tie bar", false, Family::own, nowhere},
    {"ꜜ", "!", "downstep", false, Family::own, nowhere},
    {"ꜛ", "^", "upstep", false, Family::own, nowhere},
    {"↗", "<R>", "global rise", false, Family::own, nowhere},
    {"↘", "<F>", "global fall", false, Family::own, nowhere},
};

const std::vector<Diacritic>& all_diacritics() {
  static const std::vector<Diacritic> all = [] {
    std::vector<Diacritic> made;
    for (const auto& row : rows) made.push_back({row.ipa, row.xsampa, row.name, row.moves_shape});
    return made;
  }();
  return all;
}

const Row* row_of(const Diacritic& diacritic) {
  for (const auto& row : rows)
    if (diacritic.ipa == row.ipa) return &row;
  return nullptr;
}
} // namespace

std::span<const Diacritic> diacritics() { return all_diacritics(); }

const Diacritic* find_diacritic(std::string_view ipa) {
  const std::string folded = ipa == "\u035C" ? "\u0361" : ipa == "||" ? "‖" : fold_spelling(ipa);
  for (const auto& diacritic : all_diacritics())
    if (diacritic.ipa == folded) return &diacritic;
  return nullptr;
}

bool is_legal(const Diacritic& diacritic, const Letter& letter) {
  const Row* row = row_of(diacritic);
  return row != nullptr && row->stands(letter);
}

bool exclude_each_other(const Diacritic& one, const Diacritic& other) {
  const Row *a = row_of(one), *b = row_of(other);
  if (a == nullptr || b == nullptr) return false;
  if (a->family == Family::tone_letter) return b->family == Family::tone;
  if (b->family == Family::tone_letter) return a->family == Family::tone;
  if (a == b) return one.ipa != "ː"; // extra-long is written with two signs
  return a->family != Family::own && a->family == b->family;
}

bool is_tone(const Diacritic& diacritic) {
  const Row* row = row_of(diacritic);
  return row != nullptr && (row->family == Family::tone || row->family == Family::tone_letter);
}

} // namespace mw
