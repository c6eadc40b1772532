#include "phrase/sets.h"

#include "base/expect.h"
#include "phrase/mnemonics.h"

#include <algorithm>
#include <iterator>
#include <span>

namespace mw {
namespace {
using Set = LexicalSet;

struct VowelRow {
  std::uint32_t code;
  Set set;
  constexpr VowelRow(std::string_view vowel, Set of) : code(sign_code(vowel)), set(of) {}
};
// value of one voice alone
constexpr VowelRow table[]{{"I", Set::KIT},      {"I2", Set::KIT},    {"E", Set::DRESS},  {"a", Set::TRAP},
                           {"aa", Set::BATH},    {"0", Set::LOT},     {"O2", Set::CLOTH}, {"V", Set::STRUT},
                           {"U", Set::FOOT},     {"i:", Set::FLEECE}, {"eI", Set::FACE},  {"A:", Set::PALM},
                           {"O:", Set::THOUGHT}, {"oU", Set::GOAT},   {"u:", Set::GOOSE}, {"aI", Set::PRICE},
                           {"OI", Set::CHOICE},  {"aU", Set::MOUTH},  {"3:", Set::NURSE}, {"i@3", Set::NEAR},
                           {"e@", Set::SQUARE},  {"A@", Set::START},  {"O@", Set::NORTH}, {"o@", Set::FORCE},
                           {"U@", Set::CURE},    {"i", Set::happY},   {"3", Set::lettER}, {"@", Set::commA}};

Set set_of(const VoiceSound& sound) {
  // the first half of i@ is FLEECE under stress (idea), happY without (area)
  if (sound.vowel == "i@") return sound.stress > 0 ? Set::FLEECE : Set::happY;
  const std::uint32_t code = sign_code(sound.vowel);
  const auto at =
      std::find_if(std::begin(table), std::end(table), [&](const VowelRow& row) { return row.code == code; });
  MW_EXPECT(at != std::end(table));
  return at->set;
}

template <std::size_t N> bool among(std::string_view vowel, const std::string_view (&list)[N]) {
  return std::find(std::begin(list), std::end(list), vowel) != std::end(list);
}

/// What stands next to a vowel, as far as the rules look.
struct Neighbours {
  std::string_view before, after;
};

/// The set of one vowel from both voices, or nothing when they have different words in mind.
std::optional<Set> pair_set(const VoiceSound& us, const VoiceSound& gb, const Neighbours& near) {
  const std::string_view u = us.vowel, g = gb.vowel;
  constexpr std::string_view weak_high[]{"i", "I", "I2"}, back[]{"O2", "O:", "O@", "o@"}, low[]{"a", "aa"};
  if (u == "i" && among(g, weak_high)) return Set::happY;
  if (g == "0") {
    // want, quality are LOT in Wells; the American voice rounds them
    if (among(u, back)) return near.before == "w" && near.after != "\u0279" ? Set::LOT : Set::CLOTH;
    if (u == "0" || u == "A:") return Set::LOT;
    return std::nullopt;
  }
  if (g == "V" && (u == "V" || u == "3:")) return Set::STRUT;
  if (g == "A:" && among(u, low)) return Set::BATH;
  if ((g == "aa" && (u == "a" || u == "aa")) || (u == "aa" && g == "a")) return Set::BATH;
  if (u == "A:" && (g == "A:" || among(g, low))) return Set::PALM;
  // fire: only the American voice marks the r
  if (u == "3" && g == "@" && near.after != "\u0279") return Set::lettER;
  // around, memory: the American voice colours the vowel by the r that begins the next syllable
  if (u == "3" && g == "@") return Set::commA;
  if (set_of(us) == set_of(gb)) return set_of(gb);
  // vowels before r that only the American voice has merged
  constexpr std::string_view before_r[]{"E", "a", "I", "e@", "i@3"};
  if (near.after == "\u0279" && among(g, before_r)) return set_of(gb);
  return std::nullopt;
}

std::vector<std::size_t> vowels_of(const std::vector<VoiceSound>& sounds) {
  std::vector<std::size_t> at;
  for (std::size_t i = 0; i < sounds.size(); ++i)
    if (!sounds[i].vowel.empty()) at.push_back(i);
  return at;
}

void add_alone(Phonemes& phonemes, const std::vector<VoiceSound>& sounds) {
  for (const auto& sound : sounds) {
    if (sound.vowel.empty())
      phonemes.push_back({std::string(sound.consonant)});
    else
      phonemes.push_back({"", set_of(sound), sound.stress});
  }
}

using Stretch = std::span<const VoiceSound>;

/// Consonants between two vowels: the British ones where only a j is missing in the American voice (new), else by norm.
void add_consonants(Phonemes& phonemes, Stretch us, Stretch gb, Norm norm) {
  const auto same = [](const VoiceSound& a, const VoiceSound& b) { return a.consonant == b.consonant; };
  const auto difference = std::mismatch(gb.begin(), gb.end(), us.begin(), us.end(), same);
  const bool yod = gb.size() == us.size() + 1 && difference.first != gb.end() && difference.first->consonant == "j" &&
                   std::equal(difference.first + 1, gb.end(), difference.second, us.end(), same);
  const Stretch& chosen = yod || norm == Norm::british ? gb : us;
  for (auto at = chosen.begin(); at != chosen.end(); ++at) {
    phonemes.push_back({std::string(at->consonant)});
    phonemes.back().loose_yod = yod && at == difference.first;
  }
}

/// What the voices write in a way of their own where English has one set: weak KIT before a vowel is happY (radio),
/// weak FOOT at the end is GOOSE (into), weak ex- is KIT (expect), and l or n with a weak i take in a j after a
/// stressed vowel (million, familiar).
void tidy(Phonemes& phonemes) {
  constexpr Set checked[]{Set::KIT, Set::DRESS, Set::TRAP, Set::STRUT, Set::LOT};
  if (phonemes.size() > 3 && phonemes[0] == Phoneme{"", Set::DRESS} &&
      ((phonemes[1].consonant == "k" && phonemes[2].consonant == "s") ||
       (phonemes[1].consonant == "\u0261" && phonemes[2].consonant == "z")))
    phonemes[0].set = Set::KIT;
  for (std::size_t i = 0; i < phonemes.size(); ++i) {
    // a weak NEAR is two vowels: easier; before r it stays
    const bool before_r = i + 1 < phonemes.size() && phonemes[i + 1].consonant == "\u0279";
    if (phonemes[i].set == Set::NEAR && phonemes[i].stress == 0 && !before_r && i > 0) {
      phonemes[i].set = Set::happY;
      phonemes.insert(phonemes.begin() + static_cast<std::ptrdiff_t>(i) + 1, Phoneme{"", Set::lettER});
    }
    Phoneme& phoneme = phonemes[i];
    if (!phoneme.set || phoneme.stress != 0) continue;
    const bool last = i + 1 == phonemes.size();
    if (phoneme.set == Set::FOOT && last) phoneme.set = Set::GOOSE;
    std::optional<Set> next;
    if (!last) next = phonemes[i + 1].set;
    if (phoneme.set == Set::KIT && next) phoneme.set = Set::happY;
    if (phoneme.set != Set::happY || (next != Set::commA && next != Set::lettER) || i < 2) continue;
    const auto before = phonemes[i - 2].set;
    const std::string& consonant = phonemes[i - 1].consonant;
    const bool after_short = before && phonemes[i - 2].stress > 0 &&
                             std::find(std::begin(checked), std::end(checked), *before) != std::end(checked);
    const bool familiar = before == Set::GOOSE && next == Set::lettER; // peculiar
    if ((after_short || familiar) && (consonant == "l" || consonant == "n")) phoneme = {"j"};
  }
}

/// Where American English keeps a full vowel that British English weakens (military, territory, strawberry), and the endings
/// -ile and -isation (missile, organisation): the two differ by rule.
bool differ_by_rule(const VoiceSound& us, const VoiceSound& gb, std::string_view after) {
  constexpr std::string_view full[]{"e@", "E", "o@", "O@", "O:"}, weak[]{"@", "3"}, reduced[]{"@", "I", "I2", "I#"};
  if (gb.stress == 0 && after == "\u0279" && among(us.vowel, full) && among(gb.vowel, weak)) return true;
  return gb.vowel == "aI" && us.stress == 0 && (after == "l" || after == "z") && among(us.vowel, reduced);
}

/// The set of a vowel that the voices say differently without a rule: the weaker where neither has a stress (observe), else
/// the British one (launch). Words that the two countries really say differently stand in a table (words/national.csv).
Set agreed_set(const VoiceSound& us, const VoiceSound& gb) {
  const auto is_weak = [](const VoiceSound& sound, Set set) { return sound.stress == 0 && set_of(sound) == set; };
  if (us.stress == 0 && gb.stress == 0)
    for (const Set weak : {Set::commA, Set::KIT})
      if (is_weak(us, weak) || is_weak(gb, weak)) return weak;
  return set_of(gb);
}

LexicalWord pair_voices(const VoicedWord& word, Norm norm) {
  VoiceSounds us = parse_mnemonics(word.american);
  const VoiceSounds gb = parse_mnemonics(word.british);
  LexicalWord result;
  result.unknown = us.unknown;
  result.unknown.insert(result.unknown.end(), gb.unknown.begin(), gb.unknown.end());
  const auto u = vowels_of(us.sounds), g = vowels_of(gb.sounds);
  if (u.size() != g.size()) { // one of them swallows a vowel (medicine)
    add_alone(result.phonemes, u.size() > g.size() ? us.sounds : gb.sounds);
    return result;
  }
  const auto consonants = [](const std::vector<VoiceSound>& sounds, const std::vector<std::size_t>& vowels,
                             std::size_t k) {
    const std::size_t start = k == 0 ? 0 : vowels[k - 1] + 1;
    const std::size_t end = k == vowels.size() ? sounds.size() : vowels[k];
    return Stretch(sounds.data() + start, end - start);
  };
  for (std::size_t k = 0; k <= u.size(); ++k) {
    add_consonants(result.phonemes, consonants(us.sounds, u, k), consonants(gb.sounds, g, k), norm);
    if (k == u.size()) break;
    const auto after = consonants(gb.sounds, g, k + 1), before = consonants(gb.sounds, g, k);
    const Neighbours near{before.empty() ? "" : before.back().consonant, after.empty() ? "" : after.front().consonant};
    const VoiceSound &american = us.sounds[u[k]], &british = gb.sounds[g[k]];
    const auto both = pair_set(american, british, near);
    const VoiceSound& own = norm == Norm::american ? american : british;
    const bool by_rule = !both && differ_by_rule(american, british, near.after);
    result.national = result.national || by_rule;
    result.phonemes.push_back({"", both ? *both : by_rule ? set_of(own) : agreed_set(american, british), own.stress});
  }
  return result;
}

} // namespace

LexicalWord classify(const VoicedWord& word, Norm norm) {
  LexicalWord result = pair_voices(word, norm);
  tidy(result.phonemes);
  return result;
}

} // namespace mw
