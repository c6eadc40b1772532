#pragma once

#include "base/result.h"

#include <string>
#include <string_view>
#include <vector>

namespace mw {

/// Number text without locale: at most `decimals` places, trailing zeros cut, "-0" becomes "0". Never NaN or inf: those
/// are our own mistake.
std::string to_text(double value, int decimals = 3);
std::string to_text(int value);

/// Decimal text to number, whole string, '.' only; nothing on any leftover.
std::optional<double> parse_number(std::string_view text);

/// UTF-8 to code points. A Problem (input) with the code-point offset of the first invalid byte.
Result<std::u32string> decode_utf8(std::string_view text);
std::string encode_utf8(std::u32string_view text);
std::string encode_utf8(char32_t sign);

/// Unicode canonical composition (NFC) and decomposition (NFD) of valid UTF-8.
std::string to_nfc(std::string_view text);
std::string to_nfd(std::string_view text);

/// ASCII lower case; other code points through simple Unicode lower-casing.
std::string to_lower(std::string_view text);

std::vector<std::string> split(std::string_view text, char separator);
std::string_view trim(std::string_view text);
std::string join(const std::vector<std::string>& parts, std::string_view separator);
bool starts_with(std::string_view text, std::string_view prefix);
/// All occurrences of `from` replaced.
std::string replace_all(std::string text, std::string_view from, std::string_view to);

} // namespace mw
