#include "phrase/scanner.h"

#include "base/text.h"
#include "phrase/scan_text.h"

#include <algorithm>
#include <iterator>

namespace mw {
namespace {

struct CurrencyRow {
  char32_t sign;
  Currency names;
};
constexpr CurrencyRow currencies[]{{'$', {"dollar", "dollars", "cent", "cents"}},
                                   {0xA3, {"pound", "pounds", "penny", "pence"}},
                                   {0x20AC, {"euro", "euros", "cent", "cents"}},
                                   {0xA5, {"yen", "yen", "sen", "sen"}}};

struct UnitRow {
  std::string_view sign, one, many;
};
// several words are parted by a space
constexpr UnitRow units[]{{"km", "kilometre", "kilometres"},
                          {"cm", "centimetre", "centimetres"},
                          {"mm", "millimetre", "millimetres"},
                          {"m", "metre", "metres"},
                          {"kg", "kilogram", "kilograms"},
                          {"g", "gram", "grams"},
                          {"mg", "milligram", "milligrams"},
                          {"l", "litre", "litres"},
                          {"ml", "millilitre", "millilitres"},
                          {"lb", "pound", "pounds"},
                          {"lbs", "pound", "pounds"},
                          {"oz", "ounce", "ounces"},
                          {"tsp", "teaspoon", "teaspoons"},
                          {"tbsp", "tablespoon", "tablespoons"},
                          {"ft", "foot", "feet"},
                          {"in", "inch", "inches"},
                          {"mph", "mile an hour", "miles an hour"},
                          {"kmh", "kilometre an hour", "kilometres an hour"},
                          {"hz", "hertz", "hertz"},
                          {"khz", "kilohertz", "kilohertz"},
                          {"db", "decibel", "decibels"},
                          {"kb", "kilobyte", "kilobytes"},
                          {"mb", "megabyte", "megabytes"},
                          {"gb", "gigabyte", "gigabytes"},
                          {"s", "second", "seconds"},
                          {"ms", "millisecond", "milliseconds"},
                          {"min", "minute", "minutes"},
                          {"mins", "minute", "minutes"},
                          {"sec", "second", "seconds"},
                          {"secs", "second", "seconds"},
                          {"yr", "year", "years"},
                          {"yrs", "year", "years"},
                          {"wk", "week", "weeks"},
                          {"wks", "week", "weeks"},
                          {"pt", "point", "points"},
                          {"pts", "point", "points"},
                          {"kph", "kilometre an hour", "kilometres an hour"},
                          {"x", "time", "times"},
                          {"h", "hour", "hours"},
                          {"hr", "hour", "hours"},
                          {"hrs", "hour", "hours"},
                          {"p", "penny", "pence"},
                          {"k", "thousand", "thousand"}};

struct MagnitudeRow {
  std::string_view sign, word;
};
constexpr MagnitudeRow magnitudes[]{{"k", "thousand"},      {"m", "million"},       {"mn", "million"},
                                    {"bn", "billion"},      {"b", "billion"},       {"thousand", "thousand"},
                                    {"million", "million"}, {"billion", "billion"}, {"trillion", "trillion"}};

} // namespace

bool Scanner::read_money() {
  const Atom* sign = atom(at_);
  const auto row = std::find_if(std::begin(currencies), std::end(currencies),
                                [&](const CurrencyRow& each) { return sign != nullptr && each.sign == sign->point; });
  if (row == std::end(currencies)) return false;
  const std::size_t start = at_;
  const auto whole = run(at_ + 1);
  if (!whole) return false;
  std::size_t end = whole->end;
  std::string part;
  if (is_point(end, '.'))
    if (const auto digits = run(end + 1)) part = digits->digits, end = digits->end;
  // millions and the like come before the name of the currency
  std::size_t word_end = end;
  const std::string word = letters(skip_space(end), word_end);
  const auto magnitude = std::find_if(std::begin(magnitudes), std::end(magnitudes),
                                      [&](const MagnitudeRow& each) { return each.sign == word; });
  Words words;
  if (magnitude != std::end(magnitudes)) {
    words = part.empty() ? read_cardinal(whole->digits, norm_) : read_decimal(whole->digits, part, norm_);
    words.emplace_back(magnitude->word);
    words.emplace_back(row->names.many);
    end = word_end;
  } else if (part.size() > 2) {
    words = read_decimal(whole->digits, part, norm_);
    words.emplace_back(row->names.many);
  } else {
    words = mw::read_money(whole->digits, part, row->names, norm_);
  }
  say(words, start, end);
  at_ = end;
  return true;
}

std::size_t Scanner::read_unit(std::size_t i, bool one) {
  const std::size_t start = skip_space(i);
  const auto degree = [&](std::size_t k) { return is_point(k, 0xB0); };
  if (is_point(start, '%')) {
    say({"percent"}, start, start + 1);
    return start + 1;
  }
  if (is_point(start, 0xA2)) {
    say({one ? "cent" : "cents"}, start, start + 1);
    return start + 1;
  }
  if (degree(start)) {
    std::size_t end = start + 1;
    say({one ? "degree" : "degrees"}, start, end);
    const std::string scale = letters(end, end);
    if (scale == "c")
      say({"celsius"}, end - 1, end);
    else if (scale == "f")
      say({"fahrenheit"}, end - 1, end);
    else
      return start + 1;
    return end;
  }
  std::size_t end = start;
  std::string sign = letters(start, end);
  if (sign == "km" && is_point(end, '/') && is_point(end + 1, 'h') && !is(end + 2, AtomKind::letter))
    sign = "kmh", end += 2;
  const auto row =
      std::find_if(std::begin(units), std::end(units), [&](const UnitRow& each) { return each.sign == sign; });
  // "in", a lone p, k or s or a capital after a space is more likely a word or a name; 100 m and 5 g are measures
  const bool letter = sign == "p" || sign == "k" || sign == "s" || sign == "x" || (sign.size() == 1 && is_upper(atoms_[start].fold));
  const bool doubtful = start != i && (letter || sign == "in");
  if (row == std::end(units) || doubtful) return i;
  say(split(one ? row->one : row->many, ' '), start, end);
  return end;
}

} // namespace mw
