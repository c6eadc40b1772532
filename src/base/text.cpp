#include "base/text.h"

#include <charconv>
#include <cmath>
#include <cstdlib>
#include <utf8proc.h>

namespace mw {
namespace {
std::string normalise(std::string_view text, int options) {
  utf8proc_uint8_t* out = nullptr;
  const auto length = utf8proc_map(reinterpret_cast<const utf8proc_uint8_t*>(text.data()),
                                   static_cast<utf8proc_ssize_t>(text.size()), &out,
                                   static_cast<utf8proc_option_t>(options));
  if (length < 0) return std::string(text);
  std::string result(reinterpret_cast<const char*>(out), static_cast<std::size_t>(length));
  std::free(out); // allocated by the library with malloc
  return result;
}
} // namespace

std::string to_text(double value, int decimals) {
  MW_EXPECT(std::isfinite(value));
  char buffer[64];
  const auto [end, error] = std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::fixed, decimals);
  MW_EXPECT(error == std::errc());
  std::string text(buffer, end);
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

std::string to_text(int value) { return std::to_string(value); }

std::optional<double> parse_number(std::string_view text) {
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
  return value;
}

Result<std::u32string> decode_utf8(std::string_view text) {
  std::u32string out;
  out.reserve(text.size());
  auto at = reinterpret_cast<const utf8proc_uint8_t*>(text.data());
  auto left = static_cast<utf8proc_ssize_t>(text.size());
  while (left > 0) {
    utf8proc_int32_t sign = 0;
    const auto used = utf8proc_iterate(at, left, &sign);
    if (used <= 0)
      return Problem{ProblemKind::input, "the text is not valid UTF-8", "sign " + std::to_string(out.size() + 1),
                     "save or paste the text as UTF-8", Span{out.size(), out.size() + 1}};
    out.push_back(static_cast<char32_t>(sign));
    at += used;
    left -= used;
  }
  return out;
}

std::string encode_utf8(char32_t sign) {
  utf8proc_uint8_t buffer[4];
  const auto length = utf8proc_encode_char(static_cast<utf8proc_int32_t>(sign), buffer);
  return {reinterpret_cast<const char*>(buffer), static_cast<std::size_t>(length)};
}

std::string encode_utf8(std::u32string_view text) {
  std::string out;
  for (char32_t sign : text) out += encode_utf8(sign);
  return out;
}

namespace {
/// Signs that every normal form leaves as they are: ASCII and the letters U+0240 to U+02BF, most of the IPA's.
bool is_normal(std::string_view text) {
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto byte = [&](std::size_t k) { return static_cast<unsigned char>(text[k]); };
    if (byte(i) < 0x80) continue;
    const bool letter = (byte(i) == 0xC9 || byte(i) == 0xCA) && i + 1 < text.size() && byte(i + 1) >= 0x80 && byte(i + 1) < 0xC0;
    if (!letter) return false;
    ++i;
  }
  return true;
}
} // namespace

std::string to_nfc(std::string_view text) {
  return is_normal(text) ? std::string(text) : normalise(text, UTF8PROC_STABLE | UTF8PROC_COMPOSE);
}
std::string to_nfd(std::string_view text) {
  return is_normal(text) ? std::string(text) : normalise(text, UTF8PROC_STABLE | UTF8PROC_DECOMPOSE);
}

std::string to_lower(std::string_view text) {
  const auto signs = decode_utf8(text);
  if (!signs) return std::string(text);
  std::string out;
  for (char32_t sign : *signs)
    out += encode_utf8(static_cast<char32_t>(utf8proc_tolower(static_cast<utf8proc_int32_t>(sign))));
  return out;
}

std::vector<std::string> split(std::string_view text, char separator) {
  std::vector<std::string> parts;
  std::size_t start = 0;
  for (std::size_t i = 0; i <= text.size(); ++i)
    if (i == text.size() || text[i] == separator) {
      parts.emplace_back(text.substr(start, i - start));
      start = i + 1;
    }
  return parts;
}

std::string_view trim(std::string_view text) {
  const char* blanks = " \t\r\n";
  const auto first = text.find_first_not_of(blanks);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

std::string join(const std::vector<std::string>& parts, std::string_view separator) {
  std::string out;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i > 0) out += separator;
    out += parts[i];
  }
  return out;
}

bool starts_with(std::string_view text, std::string_view prefix) { return text.substr(0, prefix.size()) == prefix; }

std::string replace_all(std::string text, std::string_view from, std::string_view to) {
  MW_EXPECT(!from.empty());
  for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
    text.replace(at, from.size(), to);
  return text;
}

} // namespace mw
