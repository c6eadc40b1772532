#include "phrase/atoms.h"

#include "base/text.h"

#include <algorithm>
#include <iterator>

namespace mw {
namespace {

bool is_ascii_letter(char32_t point) { return (point >= 'a' && point <= 'z') || (point >= 'A' && point <= 'Z'); }

// Latin letters that Unicode does not take apart.
struct Fold {
  char32_t point;
  std::string_view ascii;
};
constexpr Fold folds[]{{0xC6, "AE"},    {0xE6, "ae"},    {0x152, "OE"},  {0x153, "oe"},  {0xD8, "O"},
                       {0xF8, "o"},     {0xDF, "ss"},    {0x1E9E, "SS"}, {0xD0, "Th"},   {0xF0, "th"},
                       {0xDE, "Th"},    {0xFE, "th"},    {0x141, "L"},   {0x142, "l"},   {0x110, "D"},
                       {0x111, "d"},    {0x131, "i"},    {0xFB00, "ff"}, {0xFB01, "fi"}, {0xFB02, "fl"},
                       {0xFB03, "ffi"}, {0xFB04, "ffl"}, {0x126, "H"},   {0x127, "h"},   {0x17F, "s"}};

std::string fold_letter(char32_t point) {
  if (is_ascii_letter(point)) return std::string(1, static_cast<char>(point));
  if (point < 0xC0) return {};
  for (const Fold& row : folds)
    if (row.point == point) return std::string(row.ascii);
  // Latin letters with marks: the base letter of the decomposition
  const bool latin = point <= 0x24F || (point >= 0x1E00 && point <= 0x1EFF);
  if (!latin) return {};
  const std::string apart = to_nfd(encode_utf8(point));
  if (apart.empty() || !is_ascii_letter(static_cast<unsigned char>(apart.front()))) return {};
  return apart.substr(0, 1);
}

template <std::size_t N> bool among(char32_t point, const char32_t (&list)[N]) {
  return std::find(std::begin(list), std::end(list), point) != std::end(list);
}

constexpr char32_t apostrophes[]{'\'', 0x2019, 0x2018, 0x2BC, 0x2BB, 0x2032, 0xFF07, 0x60, 0xB4};
constexpr char32_t hyphens[]{'-', 0x2010, 0x2011, 0x2212, 0x2013};
constexpr char32_t pauses[]{',',  '.',    ';',    ':',    '!',    '?',    '(',    ')',    '[',    ']',    '{',    '}',
                            '|',  '\n',   '\r',   '\v',   '\f',   0x85,   0x2014, 0x2015, 0x2026, 0x2028, 0x2029, 0xA1,
                            0xBF, 0x3001, 0x3002, 0xFF0C, 0xFF0E, 0xFF01, 0xFF1F, 0x203C, 0x2047, 0x2048, 0x2049};
constexpr char32_t quotes[]{'"', 0x201C, 0x201D, 0x201E, 0x201F, 0x201A, 0x201B, 0xAB, 0xBB, 0x2039, 0x203A, 0x2033};
constexpr char32_t signs[]{'&',  '%',    '+',    '=',    '@',    '#',    '$',    '/',    '_',
                           0xA2, 0xA3,   0xA5,   0x20AC, 0xB0,   0xD7,   0xF7,   0xBC,   0xBD,
                           0xBE, 0x2153, 0x2154, 0x215B, 0x215C, 0x215D, 0x215E, 0x2044, 0xB1};

bool is_space(char32_t point) {
  return point == ' ' || point == '\t' || point == 0xA0 || point == 0x1680 || (point >= 0x2000 && point <= 0x200A) ||
         point == 0x202F || point == 0x205F || point == 0x3000;
}
bool is_silent(char32_t point) {
  return (point >= 0x300 && point <= 0x36F) || point == 0xAD || (point >= 0x200B && point <= 0x200F) ||
         point == 0x2060 || (point >= 0xFE00 && point <= 0xFE0F) || point == 0xFEFF || among(point, quotes);
}

Atom to_atom(char32_t point) {
  if (std::string fold = fold_letter(point); !fold.empty()) return {AtomKind::letter, point, std::move(fold)};
  if (point >= '0' && point <= '9') return {AtomKind::digit, point, std::string(1, static_cast<char>(point))};
  if (among(point, apostrophes)) return {AtomKind::apostrophe, point, "'"};
  if (is_space(point)) return {AtomKind::space, point};
  if (among(point, hyphens)) return {AtomKind::hyphen, point, "-"};
  if (among(point, pauses)) return {AtomKind::pause, point};
  if (among(point, signs)) return {AtomKind::sign, point};
  if (is_silent(point)) return {AtomKind::silent, point};
  return {AtomKind::unsayable, point};
}

} // namespace

std::vector<Atom> to_atoms(std::u32string_view text) {
  std::vector<Atom> atoms;
  atoms.reserve(text.size());
  for (const char32_t point : text) atoms.push_back(to_atom(point));
  return atoms;
}

} // namespace mw
