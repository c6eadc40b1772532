#include "base/text.h"
#include "ipa/signs.h"

#include <map>

// X-SAMPA: Wells 1995, "Computer-coding the IPA: a proposed extension of SAMPA". Where a code can be read in two ways
// the longest one wins; an underscore is a tie when the two letters form a known pair, else the start of a mark.

namespace mw {
namespace {
struct Code {
  SignKind kind = SignKind::letter;
  const Letter* letter = nullptr;
  const Diacritic* mark = nullptr;
  const Diacritic* second_mark = nullptr; // I\ is ɪ with a mark
};
using Codes = std::map<std::u32string, Code>;

std::u32string wide(const std::string& text) {
  const auto signs = decode_utf8(text);
  return signs ? *signs : std::u32string();
}

/// Letters of one sign; pairs with `_` are put together later like any tie.
Codes make_letter_codes() {
  Codes codes;
  for (const auto& letter : letters()) {
    const bool implosive = letter.manner == "implosive";
    if (letter.xsampa.empty() || (!implosive && letter.xsampa.find('_') != std::string::npos)) continue;
    codes[wide(letter.xsampa)] = {SignKind::letter, &letter, nullptr, nullptr};
  }
  codes[U"P"] = codes[U"v\\"];
  codes[U"I\\"] = {SignKind::letter, find_letter("ɪ"), find_diacritic("\u0308"), nullptr};
  codes[U"U\\"] = {SignKind::letter, find_letter("ʊ"), find_diacritic("\u0308"), nullptr};
  return codes;
}

Codes make_mark_codes() {
  Codes codes;
  for (const auto& mark : diacritics())
    if (mark.xsampa.size() > 0 && codes.count(wide(mark.xsampa)) == 0)
      codes[wide(mark.xsampa)] = {SignKind::mark, nullptr, &mark, nullptr};
  codes[U"_="] = codes[U"="];
  codes[U"_~"] = codes[U"~"];
  codes[U"'"] = codes[U"_j"];
  codes[U"_`"] = codes[U"`"];
  codes.erase(U"_");
  // signs between letters
  codes[U"\""] = {SignKind::stress, nullptr, nullptr, nullptr};
  codes[U"%"] = {SignKind::secondary_stress, nullptr, nullptr, nullptr};
  codes[U"."] = codes[U"-"] = {SignKind::syllable_break, nullptr, nullptr, nullptr};
  codes[U"|"] = codes[U"||"] = {SignKind::group_break, nullptr, nullptr, nullptr};
  codes[U"-\\"] = {SignKind::word_break, nullptr, nullptr, nullptr};
  for (const char32_t* code : {U"!", U"^", U"<R>", U"<F>"})
    codes[code] = {SignKind::intonation, nullptr, nullptr, nullptr};
  return codes;
}

/// Longest code that starts `text`, with its length; none of length 0.
std::pair<std::size_t, const Code*> longest(const Codes& codes, std::u32string_view text) {
  constexpr std::size_t longest_code = 5;
  for (std::size_t length = std::min(longest_code, text.size()); length > 0; --length)
    if (const auto at = codes.find(std::u32string(text.substr(0, length))); at != codes.end())
      return {length, &at->second};
  return {0, nullptr};
}

struct Reader {
  const Codes letter_codes = make_letter_codes(), mark_codes = make_mark_codes();
  std::vector<Sign> signs;

  /// The letter that a mark would stand on: the last one, or the pair it forms with a tied one before.
  [[nodiscard]] const Letter* last_letter() const {
    const Letter* last = nullptr;
    bool tied = false;
    for (auto sign = signs.rbegin(); sign != signs.rend(); ++sign) {
      if (sign->kind == SignKind::tie)
        tied = true;
      else if (sign->kind == SignKind::letter && last == nullptr)
        last = sign->letter;
      else if (sign->kind == SignKind::letter) {
        const Letter* pair = tied ? find_letter(sign->letter->ipa + last->ipa) : nullptr;
        return pair != nullptr ? pair : last;
      } else if (sign->kind != SignKind::mark)
        break;
    }
    return last;
  }

  /// An underscore that ties two letters rather than starting a mark.
  [[nodiscard]] bool is_tie(std::u32string_view rest) const {
    const auto [letter_length, next] = longest(letter_codes, rest.substr(1));
    const Letter* before = last_letter();
    if (before == nullptr || letter_length == 0) return false;
    if (!before->vowel && find_letter(before->ipa + next->letter->ipa) != nullptr) return true;
    const auto [mark_length, mark] = longest(mark_codes, rest);
    const bool vowels = before->vowel && next->letter->vowel;
    return mark_length == 0 || (vowels && mark->mark != nullptr && !is_legal(*mark->mark, *before));
  }

  void push(const Code& code, Span span) {
    signs.push_back({code.kind, code.letter, code.kind == SignKind::letter ? nullptr : code.mark, span});
    if (code.kind == SignKind::letter && code.mark != nullptr)
      signs.push_back({SignKind::mark, nullptr, code.mark, span});
  }

  /// Takes one code; its length, or 0 when nothing fits.
  std::size_t take(std::u32string_view rest, std::size_t at) {
    if (rest[0] > 0x7E || rest[0] <= U' ') {
      const auto pieces = decode_utf8(to_nfd(encode_utf8(rest[0])));
      if (!pieces) return 0;
      for (char32_t piece : *pieces)
        if (!append_ipa_sign(signs, piece, {at, at + 1})) return 0;
      return 1;
    }
    if (rest[0] == U'_' && is_tie(rest)) {
      signs.push_back({SignKind::tie, nullptr, nullptr, {at, at + 1}});
      return 1;
    }
    const auto [letter_length, letter] = longest(letter_codes, rest);
    const auto [mark_length, mark] = longest(mark_codes, rest);
    const std::size_t length = std::max(letter_length, mark_length);
    if (length > 0) push(letter_length >= mark_length ? *letter : *mark, {at, at + length});
    return length;
  }
};
} // namespace

Result<std::vector<Sign>> read_xsampa_signs(std::u32string_view text, Span part) {
  Reader reader;
  for (std::size_t at = part.start; at < part.end;) {
    const std::size_t length = reader.take(text.substr(at, part.end - at), at);
    if (length == 0)
      return sign_problem("this sign is not part of X-SAMPA", text, {at, at + 1}, "use the codes of X-SAMPA");
    at += length;
  }
  return reader.signs;
}

} // namespace mw
