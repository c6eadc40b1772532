#include "ipa/aliases.h"
#include "ipa/inventory.h"

#include <unordered_map>
#include <vector>

// Letters, places and manners: International Phonetic Association, Handbook (1999) and chart (revised to 2020).
// X-SAMPA: Wells 1995. Which pairs of letters are written as affricates or double articulations: common practice.

namespace mw {
namespace {
struct ConsonantRow {
  const char *ipa, *xsampa, *place, *manner;
  bool voiced;
  const char* learner;
};
struct VowelRow {
  const char *ipa, *xsampa, *height, *backness;
  bool rounded;
  const char* learner;
};

constexpr ConsonantRow consonant_rows[] = {
    // pulmonic, by place
    {"p", "p", "bilabial", "stop", false, "p as in pot"},
    {"b", "b", "bilabial", "stop", true, "b as in boil"},
    {"t", "t", "alveolar", "stop", false, "t as in tin"},
    {"d", "d", "alveolar", "stop", true, "d as in dent"},
    {"ʈ", "t`", "retroflex", "stop", false, ""},
    {"ɖ", "d`", "retroflex", "stop", true, ""},
    {"c", "c", "palatal", "stop", false, ""},
    {"ɟ", "J\\", "palatal", "stop", true, ""},
    {"k", "k", "velar", "stop", false, "c as in copper"},
    {"ɡ", "g", "velar", "stop", true, "g as in gasket"},
    {"q", "q", "uvular", "stop", false, ""},
    {"ɢ", "G\\", "uvular", "stop", true, ""},
    {"ʡ", ">\\", "epiglottal", "stop", false, ""},
    {"ʔ", "?", "glottal", "stop", false, "the catch in the throat in uh-oh"},
    {"m", "m", "bilabial", "nasal", true, "m as in mend"},
    {"ɱ", "F", "labiodental", "nasal", true, "m as in comfort, teeth on lip"},
    {"n", "n", "alveolar", "nasal", true, "n as in nail"},
    {"ɳ", "n`", "retroflex", "nasal", true, ""},
    {"ɲ", "J", "palatal", "nasal", true, ""},
    {"ŋ", "N", "velar", "nasal", true, "ng as in tongs"},
    {"ɴ", "N\\", "uvular", "nasal", true, ""},
    {"ʙ", "B\\", "bilabial", "trill", true, ""},
    {"r", "r", "alveolar", "trill", true, "rolled r"},
    {"ʀ", "R\\", "uvular", "trill", true, ""},
    {"ⱱ", "", "labiodental", "tap", true, ""},
    {"ɾ", "4", "alveolar", "tap", true, "tt as in kettle when it is a quick tap"},
    {"ɽ", "r`", "retroflex", "tap", true, ""},
    {"ɸ", "p\\", "bilabial", "fricative", false, ""},
    {"β", "B", "bilabial", "fricative", true, ""},
    {"f", "f", "labiodental", "fricative", false, "f as in fire"},
    {"v", "v", "labiodental", "fricative", true, "v as in stove"},
    {"θ", "T", "dental", "fricative", false, "th as in thimble"},
    {"ð", "D", "dental", "fricative", true, "th as in this"},
    {"s", "s", "alveolar", "fricative", false, "s as in spout"},
    {"z", "z", "alveolar", "fricative", true, "z as in fizz"},
    {"ʃ", "S", "postalveolar", "fricative", false, "sh as in polish"},
    {"ʒ", "Z", "postalveolar", "fricative", true, "s as in measure"},
    {"ʂ", "s`", "retroflex", "fricative", false, ""},
    {"ʐ", "z`", "retroflex", "fricative", true, ""},
    {"c\u0327", "C", "palatal", "fricative", false, "h as in huge, with friction"},
    {"ʝ", "j\\", "palatal", "fricative", true, ""},
    {"x", "x", "velar", "fricative", false, "ch as in Scottish loch"},
    {"ɣ", "G", "velar", "fricative", true, ""},
    {"χ", "X", "uvular", "fricative", false, ""},
    {"ʁ", "R", "uvular", "fricative", true, ""},
    {"ħ", "X\\", "pharyngeal", "fricative", false, ""},
    {"ʕ", "?\\", "pharyngeal", "fricative", true, ""},
    {"ʜ", "H\\", "epiglottal", "fricative", false, ""},
    {"ʢ", "<\\", "epiglottal", "fricative", true, ""},
    {"h", "h", "glottal", "fricative", false, "h as in handle"},
    {"ɦ", "h\\", "glottal", "fricative", true, "h as in behind, with voice"},
    {"ɬ", "K", "alveolar", "lateral fricative", false, "Welsh ll"},
    {"ɮ", "K\\", "alveolar", "lateral fricative", true, ""},
    {"ʋ", "v\\", "labiodental", "approximant", true, "a loose v, or r made with the lip"},
    {"ɹ", "r\\", "alveolar", "approximant", true, "r as in rivet"},
    {"ɻ", "r\\`", "retroflex", "approximant", true, "r as in rivet, tip curled back"},
    {"j", "j", "palatal", "approximant", true, "y as in yard"},
    {"ɰ", "M\\", "velar", "approximant", true, ""},
    {"l", "l", "alveolar", "lateral", true, "l as in lid"},
    {"ɫ", "5", "alveolar", "lateral", true, "l as in kettle"},
    {"ɭ", "l`", "retroflex", "lateral", true, ""},
    {"ʎ", "L", "palatal", "lateral", true, ""},
    {"ʟ", "L\\", "velar", "lateral", true, ""},
    // other symbols
    {"ʍ", "W", "labial-velar", "fricative", false, "wh as in whistle, with breath"},
    {"w", "w", "labial-velar", "approximant", true, "w as in water"},
    {"ɥ", "H", "labial-palatal", "approximant", true, ""},
    {"ɕ", "s\\", "alveolo-palatal", "fricative", false, ""},
    {"ʑ", "z\\", "alveolo-palatal", "fricative", true, ""},
    {"ɺ", "l\\", "alveolar", "lateral tap", true, ""},
    {"ɧ", "x\\", "postalveolar", "fricative", false, ""},
    // affricates and double articulations
    {"pf", "p_f", "labiodental", "affricate", false, ""},
    {"bv", "b_v", "labiodental", "affricate", true, ""},
    {"pɸ", "p_p\\", "bilabial", "affricate", false, ""},
    {"bβ", "b_B", "bilabial", "affricate", true, ""},
    {"tθ", "t_T", "dental", "affricate", false, ""},
    {"dð", "d_D", "dental", "affricate", true, ""},
    {"ts", "t_s", "alveolar", "affricate", false, "ts as in tsetse"},
    {"dz", "d_z", "alveolar", "affricate", true, ""},
    {"tʃ", "t_S", "postalveolar", "affricate", false, "ch as in patch"},
    {"dʒ", "d_Z", "postalveolar", "affricate", true, "j as in jug"},
    {"tɕ", "t_s\\", "alveolo-palatal", "affricate", false, ""},
    {"dʑ", "d_z\\", "alveolo-palatal", "affricate", true, ""},
    {"ʈʂ", "t`_s`", "retroflex", "affricate", false, ""},
    {"ɖʐ", "d`_z`", "retroflex", "affricate", true, ""},
    {"tɬ", "t_K", "alveolar", "lateral affricate", false, ""},
    {"dɮ", "d_K\\", "alveolar", "lateral affricate", true, ""},
    {"cc\u0327", "c_C", "palatal", "affricate", false, ""},
    {"ɟʝ", "J\\_j\\", "palatal", "affricate", true, ""},
    {"kx", "k_x", "velar", "affricate", false, ""},
    {"ɡɣ", "g_G", "velar", "affricate", true, ""},
    {"qχ", "q_X", "uvular", "affricate", false, ""},
    {"ɢʁ", "G\\_R", "uvular", "affricate", true, ""},
    {"kp", "k_p", "labial-velar", "stop", false, ""},
    {"ɡb", "g_b", "labial-velar", "stop", true, ""},
    {"ŋm", "N_m", "labial-velar", "nasal", true, ""},
    // implosives
    {"ɓ", "b_<", "bilabial", "implosive", true, ""},
    {"ɗ", "d_<", "alveolar", "implosive", true, ""},
    {"ʄ", "J\\_<", "palatal", "implosive", true, ""},
    {"ɠ", "g_<", "velar", "implosive", true, ""},
    {"ʛ", "G\\_<", "uvular", "implosive", true, ""},
    // clicks; a voiced or nasal rear closure is written in front
    {"ʘ", "O\\", "bilabial", "click", false, "a kissing sound"},
    {"ǀ", "|\\", "dental", "click", false, "tut-tut"},
    {"ǃ", "!\\", "alveolar", "click", false, "a cork popping"},
    {"ǂ", "=\\", "palatal", "click", false, ""},
    {"ǁ", "|\\|\\", "alveolar", "lateral click", false, "the gee-up to a horse"},
    {"ɡʘ", "g_O\\", "bilabial", "click", true, ""},
    {"ɡǀ", "g_|\\", "dental", "click", true, ""},
    {"ɡǃ", "g_!\\", "alveolar", "click", true, ""},
    {"ɡǂ", "g_=\\", "palatal", "click", true, ""},
    {"ɡǁ", "g_|\\|\\", "alveolar", "lateral click", true, ""},
    {"ŋʘ", "N_O\\", "bilabial", "nasal click", true, ""},
    {"ŋǀ", "N_|\\", "dental", "nasal click", true, ""},
    {"ŋǃ", "N_!\\", "alveolar", "nasal click", true, ""},
    {"ŋǂ", "N_=\\", "palatal", "nasal click", true, ""},
    {"ŋǁ", "N_|\\|\\", "alveolar", "nasal lateral click", true, ""},
};

constexpr VowelRow vowel_rows[] = {
    {"i", "i", "close", "front", false, "ee as in steel"},
    {"y", "y", "close", "front", true, ""},
    {"ɨ", "1", "close", "central", false, "the weak i of roses"},
    {"ʉ", "}", "close", "central", true, "oo as in spoon, tongue forward"},
    {"ɯ", "M", "close", "back", false, ""},
    {"u", "u", "close", "back", true, "oo as in spoon"},
    {"ɪ", "I", "near-close", "near-front", false, "i as in tin"},
    {"ʏ", "Y", "near-close", "near-front", true, ""},
    {"ʊ", "U", "near-close", "near-back", true, "oo as in cook"},
    {"e", "e", "close-mid", "front", false, "the start of ay in tray"},
    {"ø", "2", "close-mid", "front", true, ""},
    {"ɘ", "@\\", "close-mid", "central", false, "i as in tin in New Zealand speech"},
    {"ɵ", "8", "close-mid", "central", true, "oo as in cook, tongue forward"},
    {"ɤ", "7", "close-mid", "back", false, ""},
    {"o", "o", "close-mid", "back", true, "the start of oa in boat"},
    {"ə", "@", "mid", "central", false, "a as in about"},
    {"ɛ", "E", "open-mid", "front", false, "e as in kettle"},
    {"œ", "9", "open-mid", "front", true, ""},
    {"ɜ", "3", "open-mid", "central", false, "ur as in burn, without r"},
    {"ɞ", "3\\", "open-mid", "central", true, ""},
    {"ʌ", "V", "open-mid", "back", false, "u as in cup"},
    {"ɔ", "O", "open-mid", "back", true, "aw as in straw"},
    {"æ", "{", "near-open", "front", false, "a as in pan"},
    {"ɐ", "6", "near-open", "central", false, "u as in cup, more open"},
    {"a", "a", "open", "front", false, "the start of i in fire"},
    {"ɶ", "&", "open", "front", true, ""},
    {"ɑ", "A", "open", "back", false, "a as in father"},
    {"ɒ", "Q", "open", "back", true, "o as in British pot"},
    {"ɚ", "@`", "mid", "central", false, "er as in mender, with r"},
    {"ɝ", "3`", "open-mid", "central", false, "ur as in burn, with r"},
};

std::string consonant_name(const ConsonantRow& row) {
  std::string manner = row.manner;
  if (manner == "stop") manner = "plosive";
  if (manner == "tap") manner = "tap or flap";
  if (manner == "lateral") manner = "lateral approximant";
  if (std::string_view(row.ipa) == "ɫ") manner = "velarised lateral approximant";
  if (std::string_view(row.ipa) == "ɧ") manner = "and velar fricative";
  return std::string(row.voiced ? "voiced " : "voiceless ") + row.place + " " + manner;
}

std::string vowel_name(const VowelRow& row) {
  const bool r_coloured = std::string_view(row.ipa) == "ɚ" || std::string_view(row.ipa) == "ɝ";
  return std::string(r_coloured ? "r-coloured " : "") + row.height + " " + row.backness +
         (row.rounded ? " rounded" : " unrounded") + " vowel";
}

std::vector<Letter> make_letters() {
  std::vector<Letter> all;
  for (const auto& row : consonant_rows)
    all.push_back({row.ipa, row.xsampa, consonant_name(row), false, row.voiced, row.place, row.manner, "", "", false,
                   row.learner});
  for (const auto& row : vowel_rows)
    all.push_back({row.ipa, row.xsampa, vowel_name(row), true, true, "", "vowel", row.height, row.backness,
                   row.rounded, row.learner});
  return all;
}

const std::vector<Letter>& all_letters() {
  static const std::vector<Letter> all = make_letters();
  return all;
}

using LetterIndex = std::unordered_map<std::string_view, const Letter*>; // asked for one letter at a time, never walked
LetterIndex index_letters() {
  LetterIndex index;
  for (const auto& letter : all_letters()) index.emplace(letter.ipa, &letter);
  return index;
}
} // namespace

std::span<const Letter> letters() { return all_letters(); }

const Letter* find_letter(std::string_view ipa) {
  if (ipa.empty()) return nullptr; // the second half of a sound that is no glide
  static const auto index = index_letters();
  const auto at = index.find(ipa);
  if (at != index.end()) return at->second;
  const auto folded = index.find(without_ties(fold_spelling(ipa)));
  return folded == index.end() ? nullptr : folded->second;
}

std::vector<Sound> chart_ejectives() {
  std::vector<Sound> sounds;
  for (const char* letter : {"p", "t", "k", "s"}) sounds.push_back({letter, {"ʼ"}});
  return sounds;
}

} // namespace mw
