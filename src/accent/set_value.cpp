#include "accent/accent.h"

#include "base/text.h"
#include "ipa/inventory.h"
#include "ipa/parse.h"

namespace mw {
namespace {

/// Letters with the marks that follow them, one text each: "a\u02d0" -> {"a\u02d0"}, "\u0251\u026a" -> {"\u0251",
/// "\u026a"}.
std::vector<std::string> part_letters(std::string_view ipa) {
  std::vector<std::string> parts;
  const auto signs = decode_utf8(to_nfd(ipa));
  for (const char32_t sign : *signs) {
    const std::string text = encode_utf8(sign);
    const bool letter = find_letter(text) != nullptr;
    if (letter || parts.empty())
      parts.push_back(text);
    else
      parts.back() += text;
  }
  return parts;
}

Problem misfit(const std::string& ipa, const std::string& why) {
  return {ProblemKind::input, why, ipa, "write one vowel letter or two, with marks, and \u0279 for an r after them"};
}

} // namespace

Result<SetValue> parse_set_value(const std::string& ipa) {
  if (const auto signs = decode_utf8(ipa); !signs) return signs.error();
  SetValue value;
  value.ipa = ipa;
  std::vector<std::string> parts = part_letters(ipa);
  if (parts.size() > 1 && parts.back() == "\u0279") {
    value.r_follows = true;
    parts.pop_back();
  }
  if (parts.empty() || parts.size() > 2) return misfit(ipa, "this is not one vowel or one glide");
  std::vector<Sound> halves;
  for (const auto& part : parts) {
    const auto sound = parse_sound(part, Notation::ipa);
    if (!sound) return misfit(ipa, sound.error().what);
    if (!is_vowel(*sound) || is_glide(*sound)) return misfit(ipa, "\"" + part + "\" is not a vowel");
    halves.push_back(*sound);
  }
  value.vowel = halves.front();
  if (halves.size() == 2) {
    value.vowel.glide_letter = halves.back().letter;
    value.vowel.glide_marks = halves.back().marks;
  }
  return value;
}

} // namespace mw
