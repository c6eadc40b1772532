#include "phrase/spelling_rules.h"

#include "base/text.h"

#include <algorithm>
#include <initializer_list>
#include <optional>

namespace mw {
namespace {
using Set = LexicalSet;
using Words = std::initializer_list<std::string_view>;

bool holds_any(std::string_view word, Words pieces) {
  return std::any_of(pieces.begin(), pieces.end(), [&](std::string_view piece) { return word.find(piece) != std::string_view::npos; });
}
/// The word or an inflected form of it.
bool is_form_of(std::string_view word, Words stems) {
  return std::any_of(stems.begin(), stems.end(), [&](std::string_view stem) {
    if (!starts_with(word, stem)) return false;
    const std::string_view rest = word.substr(stem.size());
    return rest.empty() || rest == "s" || rest == "'s" || rest == "es" || rest == "d" || rest == "ed" || rest == "ing";
  });
}

/// A vowel and the two sounds after it.
struct Spot {
  Phoneme& vowel;
  const Phoneme *next, *second;
  [[nodiscard]] bool before(Words consonants) const {
    return next != nullptr && std::find(consonants.begin(), consonants.end(), next->consonant) != consonants.end();
  }
  [[nodiscard]] bool then(Words consonants) const {
    return second != nullptr && std::find(consonants.begin(), consonants.end(), second->consonant) != consonants.end();
  }
  /// The consonant ends the word, but for the s of a plural.
  bool ends = false;
};

/// salt, false, vault: an a of the spelling before l is THOUGHT in Wells, with LOT as a British variant.
bool has_al(std::string_view word) { return holds_any(word, {"alt", "ald", "als", "ault"}); }

/// on, monster, donkey, curiosity, posture: LOT that the American voice rounds.
bool is_lot(std::string_view word, const Spot& spot) {
  if (spot.before({"n"})) return !holds_any(word, {"gone"});
  if (spot.before({"\u014b"})) return spot.then({"k"});
  return spot.before({"s"}) && holds_any(word, {"osity", "osities", "ostu", "ostor", "oster"});
}

/// office, moth, tong, across, doghouse: CLOTH that both voices leave unrounded.
bool is_cloth(std::string_view word, const Spot& spot) {
  if (spot.before({"f"})) return holds_any(word, {"off"});
  if (spot.before({"\u03b8", "\u014b"})) return spot.ends;
  if (spot.before({"s"})) return spot.ends && holds_any(word, {"oss"});
  return spot.before({"\u0261"}) && holds_any(word, {"dog"}) && !holds_any(word, {"dogma"});
}

/// pants, fantasy, plastic, pasta, passive, astronaut: TRAP that both voices count with BATH. Plant, grant, chant and the
/// like are BATH.
bool is_trap(std::string_view word, const Spot& spot) {
  if (spot.before({"n"}) && spot.then({"t"}))
    return !holds_any(word, {"plant", "grant", "chant", "slant", "vant", "aunt", "an't"});
  if (spot.before({"n", "\u014b"}) && spot.then({"k", "\u03b8"})) return true;
  if (!spot.before({"s"})) return false;
  return holds_any(word, {"astic", "ssiv"}) || starts_with(word, "ast") || is_form_of(word, {"jasper", "casper"}) ||
         (word.back() == 'a' && !holds_any(word, {"master"}));
}

/// or before a consonant letter, as in storm, and not ore, oar, oor, our.
bool has_or_and_consonant(std::string_view word) {
  for (std::size_t at = word.find("or"); at != std::string_view::npos; at = word.find("or", at + 1))
    if (at + 2 < word.size() && std::string_view("aeiouyr'").find(word[at + 2]) == std::string_view::npos) return true;
  return false;
}

/// Words in or with a consonant letter that Wells counts with FORCE.
bool is_force(std::string_view word) {
  return holds_any(word, {"port", "forc", "sword", "ford", "pork", "worn", "porch", "divorc", "horde", "borne", "porcel"}) ||
         is_form_of(word, {"forth", "fort", "torn", "shorn", "forge", "portion", "proportion"});
}

std::optional<Set> set_by_spelling(std::string_view word, const Spot& spot) {
  switch (*spot.vowel.set) {
  case Set::CLOTH:
    if (spot.before({"l"}) && has_al(word)) return Set::THOUGHT;
    return is_lot(word, spot) ? std::optional(Set::LOT) : std::nullopt;
  case Set::LOT:
    if (spot.before({"l"}) && has_al(word)) return Set::THOUGHT;
    return is_cloth(word, spot) ? std::optional(Set::CLOTH) : std::nullopt;
  case Set::BATH:
    return is_trap(word, spot) ? std::optional(Set::TRAP) : std::nullopt;
  case Set::FORCE: // one such vowel a word is the rule
    if (has_or_and_consonant(word) && !is_force(word) && !holds_any(word, {"ore", "oar", "oor", "our"})) return Set::NORTH;
    return std::nullopt;
  case Set::NORTH:
    if (is_force(word) && has_or_and_consonant(word)) return Set::FORCE;
    return holds_any(word, {"fore"}) || (spot.before({"\u0279"}) && !has_or_and_consonant(word) && holds_any(word, {"or"}))
               ? std::optional(Set::FORCE) // foreman, moron
               : std::nullopt;
  default:
    return std::nullopt;
  }
}

/// anything, everybody: the second vowel is the happY of any and every.
void apply_any(std::string_view word, Phonemes& phonemes) {
  if (!(starts_with(word, "any") && word.size() > 4) && !(starts_with(word, "every") && word.size() > 6)) return;
  std::size_t vowel = 0;
  for (auto& phoneme : phonemes)
    if (phoneme.set && ++vowel == 2 && phoneme.set == Set::KIT) phoneme.set = Set::happY;
}

} // namespace

void apply_spelling(std::string_view word, Phonemes& phonemes) {
  if (word.empty()) return;
  for (std::size_t i = 0; i < phonemes.size(); ++i) {
    if (!phonemes[i].set) continue;
    const auto at = [&](std::size_t k) { return k < phonemes.size() ? &phonemes[k] : nullptr; };
    const bool plural = i + 3 == phonemes.size() && (phonemes[i + 2].consonant == "s" || phonemes[i + 2].consonant == "z");
    const Spot spot{phonemes[i], at(i + 1), at(i + 2), i + 2 == phonemes.size() || plural};
    if (const auto set = set_by_spelling(word, spot)) phonemes[i].set = *set;
  }
  apply_any(word, phonemes);
}

} // namespace mw
