#include "ipa/aliases.h"

#include "base/text.h"

#include <algorithm>

namespace mw {
namespace {
struct Alias {
  char32_t sign;
  std::u32string_view ours;
};

// sorted by sign. Handbook 1999 appendices (withdrawn letters, marks above descenders); look-alikes: common practice
constexpr Alias aliases[] = {
    {U'!', U"\u01C3"},        // typewriter click
    {U':', U"\u02D0"},        // typewriter length
    {U'g', U"\u0261"},        //
    {0x269, U"\u026A"},       // withdrawn iota for ɪ
    {0x277, U"\u028A"},       // withdrawn closed omega for ʊ
    {0x2A3, U"d\u0361z"},     // ligatures
    {0x2A4, U"d\u0361\u0292"},
    {0x2A5, U"d\u0361\u0291"},
    {0x2A6, U"t\u0361s"},
    {0x2A7, U"t\u0361\u0283"},
    {0x2A8, U"t\u0361\u0255"},
    {0x2B1, U"\u02B0"},       // hooked superscript h
    {0x2D4, U"\u031D"},       // spacing raised, lowered, advanced, retracted
    {0x2D5, U"\u031E"},
    {0x2D6, U"\u031F"},
    {0x2D7, U"\u0320"},
    {0x30A, U"\u0325"},       // voiceless above
    {0x30D, U"\u0329"},       // syllabic above
    {0x311, U"\u032F"},       // non-syllabic above
    {0x331, U"\u0320"},       // macron below for retracted
    {0x3B1, U"\u0251"},       // Greek look-alikes
    {0x3B3, U"\u0263"},
    {0x3B5, U"\u025B"},
    {0x3C6, U"\u0278"},
    {0x4D9, U"\u0259"},       // Cyrillic schwa
    {0x1D7B, U"\u026A\u0308"}, // barred small capital i
    {0x1D7F, U"\u028A\u0308"}, // barred upsilon
    {0x2019, U"\u02BC"},      // typographic apostrophe
    {0x222B, U"\u0283"},      // integral sign for esh
    {0xA7B5, U"\u03B2"},      // Latin beta, chi
    {0xAB53, U"\u03C7"},
};
} // namespace

std::u32string_view other_spelling(char32_t sign) {
  const auto at = std::lower_bound(std::begin(aliases), std::end(aliases), sign,
                                   [](const Alias& alias, char32_t wanted) { return alias.sign < wanted; });
  if (at == std::end(aliases) || at->sign != sign) return {};
  return at->ours;
}

std::string fold_spelling(std::string_view text) {
  const auto signs = decode_utf8(to_nfd(text));
  if (!signs) return std::string(text);
  std::u32string out;
  for (char32_t sign : *signs) {
    const auto ours = other_spelling(sign);
    if (ours.empty()) out += sign;
    else out += ours;
  }
  return encode_utf8(out);
}

std::string without_ties(std::string text) {
  return replace_all(replace_all(std::move(text), encode_utf8(tie_above), ""), encode_utf8(tie_below), "");
}

std::string code_point_name(char32_t sign) {
  constexpr char digits[] = "0123456789ABCDEF";
  std::string hex;
  for (auto rest = static_cast<unsigned>(sign); rest != 0 || hex.size() < 4; rest /= 16)
    hex.insert(hex.begin(), digits[rest % 16]);
  return "U+" + hex;
}

} // namespace mw
