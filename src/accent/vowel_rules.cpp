#include "accent/vowel_rules.h"

#include "accent/edit.h"
#include "ipa/inventory.h"

#include <algorithm>

// Which sets a rule speaks of: Wells 1982 (from memory); the low back merger shift: Labov, Ash & Boberg 2006 (from memory).
// The vowels taken where an accent offers none of its own: common practice.

namespace mw {
namespace {
using Set = LexicalSet;
constexpr std::string_view length = "\u02D0";

bool starts_with_one_of(const Accent& accent, Set set, std::initializer_list<std::string_view> letters) {
  const std::string& letter = accent.of(set).vowel.letter;
  return std::find(letters.begin(), letters.end(), letter) != letters.end();
}
/// FACE that starts open or central: the sign by which the whole shift is known (London, Australia).
bool has_shifted_glides(const Accent& accent) {
  return starts_with_one_of(accent, Set::FACE, {"\u00E6", "a", "\u0250", "\u028C", "\u0251", "\u0259", "\u025C"});
}
bool has_raised_trap(const Accent& accent) { return starts_with_one_of(accent, Set::TRAP, {"\u025B", "e", "\u026A", "i"}); }
bool has_open_trap(const Accent& accent) { return starts_with_one_of(accent, Set::TRAP, {"a"}); }
/// One low vowel for LOT and THOUGHT: without it an open TRAP has another history (Northern England, Wales).
bool has_low_back_merger(const Accent& accent) {
  return starts_with_one_of(accent, Set::LOT, {"\u0252", "\u0251"}) &&
         accent.of(Set::LOT).vowel == accent.of(Set::THOUGHT).vowel;
}

const std::array rows{
    VowelRule{"FOOT_STRUT_split", SetPair{Set::STRUT, Set::FOOT, false, {}, "\u028C"}},
    VowelRule{"TRAP_BATH_split", SetPair{Set::BATH, Set::TRAP, false, Set::PALM, "\u0251\u02D0"}},
    VowelRule{"LOT_CLOTH_split", SetPair{Set::CLOTH, Set::LOT, false, Set::THOUGHT, "\u0254\u02D0", true}},
    VowelRule{"COT_CAUGHT_merger", SetPair{Set::THOUGHT, Set::LOT, true, {}, "\u0254\u02D0"}},
    VowelRule{"FATHER_BOTHER_merger", SetPair{Set::LOT, Set::PALM, true, {}, "\u0252"}},
    VowelRule{"NORTH_FORCE_merger", SetPair{Set::FORCE, Set::NORTH, true, {}, "o\u02D0"}},
    VowelRule{"PAW_PORE_merger", SetPair{Set::FORCE, Set::THOUGHT, true, {}, "o\u02D0"}},
    VowelRule{"CURE_FORCE_merger", SetPair{Set::CURE, Set::FORCE, true, {}, "\u028A\u0259"}},
    VowelRule{"NEAR_SQUARE_merger", SetPair{Set::SQUARE, Set::NEAR, true, {}, "\u025B\u02D0"}},
    VowelRule{"NURSE_SQUARE_merger", SetPair{Set::NURSE, Set::SQUARE, true, {}, "\u025C\u02D0"}},
    VowelRule{"FOOT_GOOSE_merger", SetPair{Set::FOOT, Set::GOOSE, true, {}, "\u028A"}},
    VowelRule{"TRAP_PALM_merger", SetPair{Set::PALM, Set::TRAP, true, {}, "\u0251\u02D0"}},
    VowelRule{"happY_tensing", SetPair{Set::happY, Set::KIT, false, Set::FLEECE, "i"}},
    VowelRule{"PRICE_monophthongisation", Level{{Set::PRICE}, {"a\u026A"}}},
    VowelRule{"FACE_GOAT_monophthongs", Level{{Set::FACE, Set::GOAT}, {"e\u026A", "o\u028A"}}},
    VowelRule{"GOOSE_fronting", Fronted{Set::GOOSE, true, "\u0289\u02D0", "u\u02D0"}},
    VowelRule{"KIT_centralised", Fronted{Set::KIT, false, "\u0258", "\u026A"}},
    VowelRule{"Canadian_raising_PRICE", Special{Set::PRICE, {"before voiceless", "", ""}, "\u028C\u026A"}},
    VowelRule{"Canadian_raising_MOUTH", Special{Set::MOUTH, {"before voiceless", "", ""}, "\u028C\u028A"}},
    VowelRule{"GOAT_split_before_l", Special{Set::GOAT, {"before l in its syllable", "before l", ""}, "\u0252\u028A"}},
    VowelRule{"short_a_split_or_tensing", Special{Set::TRAP, {"before m or n", "before nasal", "closed syllable, short-a split"}, "e\u0259"}},
    VowelRule{"pin_pen_merger", Special{Set::DRESS, {"before nasal", "before m or n", ""}, "", Set::KIT}},
    VowelRule{"KIT_split", Special{Set::KIT, {"word-initial, after h, beside velar or before palato-alveolar", "", ""}, "\u026A", {}, "\u0268"}},
    VowelRule{"diphthong_shift", SetShift{{{Set::FACE, "\u028C\u026A", "e\u026A"},
                                                {Set::PRICE, "\u0252\u026A", "a\u026A"},
                                                {Set::MOUTH, "\u00E6\u028A", "a\u028A"},
                                                {Set::GOAT, "\u028C\u028A", "o\u028A"},
                                                {Set::FLEECE, "\u0259i", "i\u02D0"}},
                                               has_shifted_glides}},
    VowelRule{"short_front_vowel_raising",
              SetShift{{{Set::TRAP, "\u025B", "\u00E6"}, {Set::DRESS, "e", "\u025B"}}, has_raised_trap}},
    VowelRule{"low_back_merger_shift",
              SetShift{{{Set::TRAP, "a", "\u00E6"}, {Set::DRESS, "\u025B\u031E", "\u025B"}, {Set::KIT, "\u026A\u031E", "\u026A"}},
                            has_open_trap, has_low_back_merger}},
};

std::size_t index_of(Set set) { return static_cast<std::size_t>(set); }
} // namespace

std::span<const VowelRule> vowel_rules() { return rows; }

const VowelRule* find_vowel_rule(std::string_view rule) {
  const auto at = std::find_if(rows.begin(), rows.end(), [&](const VowelRule& row) { return row.rule == rule; });
  return at == rows.end() ? nullptr : &*at;
}

bool is_one(const Accent& accent, const SetPair& row) {
  return same_vowel(accent.of(row.moved).vowel, accent.of(row.with).vowel);
}
bool is_level(const Accent& accent, const Level& row) {
  return std::none_of(row.sets.begin(), row.sets.end(), [&](Set set) { return is_glide(accent.of(set).vowel); });
}
bool is_fronted(const Accent& accent, const Fronted& row) {
  const Letter* letter = find_letter(accent.of(row.set).vowel.letter);
  return letter != nullptr && (letter->backness == "central" || (row.front_counts && letter->backness.ends_with("front")));
}
bool is_named(const Special& row, std::string_view context) {
  return !context.empty() && std::find(row.contexts.begin(), row.contexts.end(), context) != row.contexts.end();
}
bool is_special(const Accent& accent, const Special& row) {
  const auto& contexts = accent.contexts[index_of(row.set)];
  return std::any_of(contexts.begin(), contexts.end(), [&](const ContextValue& value) {
    return is_named(row, value.context) && (!row.as || same_vowel(value.value.vowel, accent.of(*row.as).vowel));
  });
}

Sound levelled(Sound vowel) {
  vowel.glide_letter.clear(), vowel.glide_marks.clear();
  if (std::find(vowel.marks.begin(), vowel.marks.end(), length) == vowel.marks.end()) vowel.marks.emplace_back(length);
  return vowel;
}

} // namespace mw
