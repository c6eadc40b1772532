#include "phrase/mnemonics.h"

#include <algorithm>
#include <array>
#include <iterator>

namespace mw {
namespace {

// Closed inventory of the two voices, measured on 10,000 common words. `vowels` and `consonants` are what one sign
// stands for, vowels first.
struct Row {
  std::string_view sign;
  std::string_view vowels[2];
  std::string_view consonant;
};
constexpr Row table[]{{"I", {"I"}, ""},         {"E", {"E"}, ""},    {"a", {"a"}, ""},        {"aa", {"aa"}, ""},
                      {"0", {"0"}, ""},         {"O2", {"O2"}, ""},  {"02", {"0"}, ""},       {"V", {"V"}, ""},
                      {"U", {"U"}, ""},         {"i:", {"i:"}, ""},  {"eI", {"eI"}, ""},      {"A:", {"A:"}, ""},
                      {"A#", {"A:"}, ""},       {"a:", {"A:"}, ""},  {"O:", {"O:"}, ""},      {"O", {"O:"}, ""},
                      {"oU", {"oU"}, ""},       {"u:", {"u:"}, ""},  {"aI", {"aI"}, ""},      {"aI2", {"aI"}, ""},
                      {"OI", {"OI"}, ""},       {"aU", {"aU"}, ""},  {"3:", {"3:"}, ""},      {"i@3", {"i@3"}, ""},
                      {"e@", {"e@"}, ""},       {"A@", {"A@"}, ""},  {"O@", {"O@"}, ""},      {"o@", {"o@"}, ""},
                      {"U@", {"U@"}, ""},       {"i", {"i"}, ""},    {"3", {"3"}, ""},        {"@", {"@"}, ""},
                      {"@2", {"@"}, ""},        {"@5", {"@"}, ""},   {"a#", {"@"}, ""},       {"e#", {"I2"}, ""},
                      {"I2", {"I2"}, ""},       {"I#", {"I2"}, ""},  {"i@", {"i@", "@"}, ""}, {"aI@", {"aI", "@"}, ""},
                      {"aI3", {"aI", "3"}, ""}, {"@L", {"@"}, "l"},  {"n-", {"@"}, "n"},      {"u", {"u:"}, ""},
                      {"p", {}, "p"},           {"b", {}, "b"},      {"t", {}, "t"},          {"t#", {}, "t"},
                      {"t2", {}, "t"},          {"t[", {}, "t"},     {"?", {}, "t"},          {"d", {}, "d"},
                      {"k", {}, "k"},           {"g", {}, "\u0261"}, {"tS", {}, "t\u0283"},   {"dZ", {}, "d\u0292"},
                      {"f", {}, "f"},           {"v", {}, "v"},      {"T", {}, "\u03b8"},     {"D", {}, "\u00f0"},
                      {"s", {}, "s"},           {"z", {}, "z"},      {"S", {}, "\u0283"},     {"Z", {}, "\u0292"},
                      {"h", {}, "h"},           {"m", {}, "m"},      {"n", {}, "n"},          {"N", {}, "\u014b"},
                      {"l", {}, "l"},           {"l#", {}, "l"},     {"r", {}, "\u0279"},     {"r-", {}, "\u0279"},
                      {"w", {}, "w"},           {"w#", {}, "w"},     {"j", {}, "j"},          {"x", {}, "x"}};
// pauses, length and transition signs; @- is a very short schwa that may be left out (camera, real)
constexpr std::string_view silent[]{";", ":", "_", "_:", "_|", "_!", "@-", "|", "||", "-", "=", "%"};

constexpr auto codes = [] {
  std::array<std::uint32_t, std::size(table)> all{};
  for (std::size_t i = 0; i < all.size(); ++i) all[i] = sign_code(table[i].sign);
  return all;
}();

const Row* find(std::string_view sign) {
  const auto at = std::find(codes.begin(), codes.end(), sign_code(sign));
  return at == codes.end() || sign.empty() ? nullptr : &table[at - codes.begin()];
}

void add(VoiceSounds& result, std::string_view sign) {
  int stress = 0;
  while (!sign.empty() && (sign.front() == '\'' || sign.front() == ',')) {
    if (stress != 1) stress = sign.front() == '\'' ? 1 : 2;
    sign.remove_prefix(1);
  }
  if (sign.empty() || std::find(std::begin(silent), std::end(silent), sign) != std::end(silent)) return;
  const Row* row = find(sign);
  if (row == nullptr) return result.unknown.emplace_back(sign), void();
  for (const auto vowel : row->vowels) {
    if (vowel.empty()) continue;
    result.sounds.push_back({"", vowel, stress});
    stress = 0;
  }
  if (!row->consonant.empty()) result.sounds.push_back({row->consonant, "", 0});
}
/// period, zero: i@ before r is NEAR.
void join_near(std::vector<VoiceSound>& sounds) {
  for (std::size_t i = 0; i + 2 < sounds.size(); ++i) {
    if (sounds[i].vowel != "i@" || sounds[i + 1].vowel != "@" || sounds[i + 2].consonant != "\u0279") continue;
    sounds[i].vowel = "i@3";
    sounds.erase(sounds.begin() + static_cast<std::ptrdiff_t>(i) + 1);
  }
}
} // namespace

VoiceSounds parse_mnemonics(std::string_view text) {
  VoiceSounds result;
  result.sounds.reserve(text.size() / 2 + 1); // a sign and its point
  std::size_t start = 0;
  for (std::size_t i = 0; i <= text.size(); ++i) {
    if (i < text.size() && text[i] != '.' && text[i] != ' ') continue;
    if (i > start) add(result, text.substr(start, i - start));
    start = i + 1;
  }
  join_near(result.sounds);
  return result;
}

} // namespace mw
