#include "ipa/signs.h"

#include "base/text.h"
#include "ipa/aliases.h"

#include <algorithm>

namespace mw {
namespace {
bool is_blank(char32_t sign) {
  return sign == ' ' || sign == '\t' || sign == '\n' || sign == '\r' || sign == 0xA0 || sign == 0x202F ||
         sign == 0x203F;
}
bool is_unseen(char32_t sign) { return (sign >= 0x200B && sign <= 0x200D) || sign == 0xFEFF || sign == 0x2060; }

SignKind kind_between(char32_t sign) {
  switch (sign) {
  case 0x2C8:
    return SignKind::stress;
  case 0x2CC:
    return SignKind::secondary_stress;
  case U'.':
    return SignKind::syllable_break;
  case U'|':
  case 0x2016:
    return SignKind::group_break;
  case tie_above:
  case tie_below:
    return SignKind::tie;
  case 0xA71C:
  case 0xA71B:
  case 0x2197:
  case 0x2198:
    return SignKind::intonation;
  default:
    return is_blank(sign) ? SignKind::word_break : SignKind::letter;
  }
}

/// The stretch inside /.../ or [...] and the blanks round it.
Span inner_part(std::u32string_view text) {
  Span part{0, text.size()};
  const auto strip = [&] {
    while (part.start < part.end && (is_blank(text[part.start]) || is_unseen(text[part.start]))) ++part.start;
    while (part.end > part.start && (is_blank(text[part.end - 1]) || is_unseen(text[part.end - 1]))) --part.end;
  };
  strip();
  if (part.end < part.start + 2) return part;
  const char32_t first = text[part.start], last = text[part.end - 1];
  if ((first == U'/' && last == U'/') || (first == U'[' && last == U']')) {
    ++part.start;
    --part.end;
    strip();
  }
  return part;
}

struct Placed {
  char32_t sign;
  Span span;
};

/// NFD of each code point with its place in the input; a cedilla is drawn to its letter past other marks.
std::vector<Placed> decompose(std::u32string_view text, Span part) {
  std::vector<Placed> out;
  std::size_t letter = 0;
  for (std::size_t i = part.start; i < part.end; ++i) {
    const auto pieces = decode_utf8(to_nfd(encode_utf8(text[i])));
    if (!pieces) continue; // a code point always decodes
    for (char32_t piece : *pieces) {
      if (piece == 0x327 && letter + 1 <= out.size())
        out.insert(out.begin() + static_cast<std::ptrdiff_t>(letter) + 1, {piece, {i, i + 1}});
      else
        out.push_back({piece, {i, i + 1}});
      if (find_letter(encode_utf8(piece)) != nullptr) letter = out.size() - 1;
    }
  }
  return out;
}
} // namespace

Problem sign_problem(const std::string& what, std::u32string_view text, Span span, const std::string& remedy) {
  std::string points;
  for (std::size_t i = span.start; i < span.end && i < text.size(); ++i)
    points += (points.empty() ? "" : " ") + code_point_name(text[i]);
  const std::string quoted = encode_utf8(text.substr(span.start, span.end - span.start));
  return Problem{ProblemKind::input, what,
                 "sign " + std::to_string(span.start + 1) + " “" + quoted + "” (" + points + ")", remedy, span};
}

bool append_ipa_sign(std::vector<Sign>& signs, char32_t sign, Span span) {
  if (is_unseen(sign)) return true;
  if (const auto kind = kind_between(sign); kind != SignKind::letter) {
    signs.push_back({kind, nullptr, nullptr, span});
    return true;
  }
  const auto ours = other_spelling(sign);
  if (!ours.empty()) {
    for (char32_t piece : ours)
      if (!append_ipa_sign(signs, piece, span)) return false;
    return true;
  }
  const std::string text = encode_utf8(sign);
  if (const Letter* letter = find_letter(text); letter != nullptr) {
    signs.push_back({SignKind::letter, letter, nullptr, span});
    return true;
  }
  if (const Diacritic* mark = find_diacritic(text); mark != nullptr) {
    signs.push_back({SignKind::mark, nullptr, mark, span});
    return true;
  }
  return false;
}

Result<std::vector<Sign>> read_ipa_signs(std::u32string_view text, Span part) {
  std::vector<Sign> signs;
  const auto placed = decompose(text, part);
  for (std::size_t i = 0; i < placed.size(); ++i) {
    if (placed[i].sign == 0x327 && !signs.empty() && signs.back().letter == find_letter("c")) {
      signs.back().letter = find_letter("c\u0327");
      signs.back().span.end = std::max(signs.back().span.end, placed[i].span.end);
    } else if (!append_ipa_sign(signs, placed[i].sign, placed[i].span)) {
      const bool apostrophe = placed[i].sign == U'\'';
      return sign_problem("this sign is not part of the IPA", text, placed[i].span,
                          apostrophe ? "write ˈ for stress or ʼ for an ejective"
                                     : "use the letters and marks of the IPA chart");
    }
  }
  return signs;
}

Result<std::vector<Sign>> read_signs(std::u32string_view text, Notation notation) {
  MW_EXPECT(notation != Notation::text);
  const Span part = inner_part(text);
  return notation == Notation::ipa ? read_ipa_signs(text, part) : read_xsampa_signs(text, part);
}

} // namespace mw
