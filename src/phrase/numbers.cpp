#include "phrase/numbers.h"

#include "base/expect.h"

#include <array>
#include <cstdint>

namespace mw {
namespace {
using Name = std::string_view;
constexpr std::array<Name, 20> small{"zero",     "one",     "two",     "three",     "four",     "five",    "six",
                                     "seven",    "eight",   "nine",    "ten",       "eleven",   "twelve",  "thirteen",
                                     "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"};
constexpr std::array<Name, 10> tens{"",      "",      "twenty",  "thirty", "forty",
                                    "fifty", "sixty", "seventy", "eighty", "ninety"};
constexpr std::array<Name, 5> scales{"", "thousand", "million", "billion", "trillion"};
constexpr std::array<Name, 20> small_ordinals{"zeroth",    "first",     "second",      "third",      "fourth",
                                              "fifth",     "sixth",     "seventh",     "eighth",     "ninth",
                                              "tenth",     "eleventh",  "twelfth",     "thirteenth", "fourteenth",
                                              "fifteenth", "sixteenth", "seventeenth", "eighteenth", "nineteenth"};
constexpr std::array<Name, 13> months{"",     "january", "february",  "march",   "april",    "may",     "june",
                                      "july", "august",  "september", "october", "november", "december"};
constexpr std::size_t most_digits = 15; // beyond the trillions nobody reads a number as a number

void add(Words& words, Name name) { words.emplace_back(name); }
void add(Words& words, const Words& more) { words.insert(words.end(), more.begin(), more.end()); }

std::uint64_t to_number(std::string_view digits) {
  std::uint64_t value = 0;
  for (const char digit : digits) value = value * 10 + static_cast<std::uint64_t>(digit - '0');
  return value;
}

void add_below_hundred(Words& words, std::uint64_t value) {
  if (value < 20) return add(words, small[value]);
  add(words, tens[value / 10]);
  if (value % 10 != 0) add(words, small[value % 10]);
}

void add_below_thousand(Words& words, std::uint64_t value, bool with_and) {
  if (value >= 100) {
    add(words, small[value / 100]);
    add(words, "hundred");
    if (value % 100 == 0) return;
    if (with_and) add(words, "and");
  }
  add_below_hundred(words, value % 100);
}

Words cardinal(std::uint64_t value, Norm norm) {
  const bool with_and = norm == Norm::british;
  if (value == 0) return {std::string(small[0])};
  std::array<std::uint64_t, 5> groups{};
  for (auto& group : groups) {
    group = value % 1000;
    value /= 1000;
  }
  Words words;
  for (std::size_t i = groups.size(); i-- > 0;) {
    if (groups[i] == 0) continue;
    if (i == 0 && with_and && !words.empty() && groups[0] < 100) add(words, "and");
    add_below_thousand(words, groups[i], with_and);
    if (i > 0) add(words, scales[i]);
  }
  return words;
}

/// The ordinal of the last word of a cardinal.
std::string to_ordinal(const std::string& word) {
  for (std::size_t i = 0; i < small.size(); ++i)
    if (word == small[i]) return std::string(small_ordinals[i]);
  if (word.back() == 'y') return word.substr(0, word.size() - 1) + "ieth";
  return word + "th";
}

std::string plural(std::string word) {
  if (word.back() == 'y') return word.substr(0, word.size() - 1) + "ies";
  if (word.back() == 'f') return word.substr(0, word.size() - 1) + "ves";
  return word + "s";
}

bool all_zero(std::string_view digits) { return digits.find_first_not_of('0') == std::string_view::npos; }
} // namespace

Words read_digits(std::string_view digits, Norm norm) {
  Words words;
  for (std::size_t i = 0; i < digits.size(); ++i) {
    const bool pair = i + 1 < digits.size() && digits[i] == digits[i + 1];
    const bool run =
        pair && ((i + 2 < digits.size() && digits[i + 2] == digits[i]) || (i > 0 && digits[i - 1] == digits[i]));
    if (norm == Norm::british && pair && !run) {
      add(words, "double");
      ++i;
    }
    add(words, digits[i] == '0' ? Name("oh") : small[static_cast<std::size_t>(digits[i] - '0')]);
  }
  return words;
}

Words read_cardinal(std::string_view digits, Norm norm) {
  const bool coded = digits.size() > 1 && digits.front() == '0';
  if (digits.size() > most_digits || coded) return read_digits(digits, norm);
  return cardinal(to_number(digits), norm);
}

Words read_ordinal(std::string_view digits, Norm norm) {
  if (digits.size() > most_digits) return read_digits(digits, norm);
  Words words = cardinal(to_number(digits), norm);
  words.back() = to_ordinal(words.back());
  return words;
}

Words read_year(std::string_view digits, Norm norm) {
  const std::uint64_t year = digits.size() == 4 ? to_number(digits) : 0;
  const bool in_pairs = (year >= 1100 && year < 2000) || (year >= 2010 && year < 2100);
  if (!in_pairs) return read_cardinal(digits, norm);
  Words words;
  add_below_hundred(words, year / 100);
  const std::uint64_t rest = year % 100;
  if (rest == 0)
    add(words, "hundred");
  else {
    if (rest < 10) add(words, "oh");
    add_below_hundred(words, rest);
  }
  return words;
}

Words read_decimal(std::string_view whole, std::string_view part, Norm norm) {
  Words words;
  if (whole == "0")
    add(words, norm == Norm::british ? Name("nought") : Name("zero"));
  else if (!whole.empty())
    add(words, read_cardinal(whole, norm));
  add(words, "point");
  for (const char digit : part)
    add(words, digit == '0' && norm == Norm::british ? Name("nought") : small[static_cast<std::size_t>(digit - '0')]);
  return words;
}

Words read_fraction(std::string_view upper, std::string_view lower, Norm norm) {
  Words words = read_cardinal(upper, norm);
  const std::uint64_t parts = lower.size() <= 4 ? to_number(lower) : 0;
  const bool one = upper == "1";
  // beyond twentieths people say "over", but for round hundredths and thousandths
  if (parts < 2 || (parts > 20 && parts != 100 && parts != 1000)) {
    add(words, "over");
    add(words, read_cardinal(lower, norm));
    return words;
  }
  std::string name = parts == 2 ? "half" : parts == 4 ? "quarter" : read_ordinal(lower, norm).back();
  words.push_back(one ? name : plural(name));
  return words;
}

Words read_time(std::string_view hours, std::string_view minutes, bool half_day_follows, Norm norm) {
  Words words = cardinal(to_number(hours), norm);
  if (minutes == "00") {
    const std::uint64_t hour = to_number(hours);
    if (half_day_follows) return words;
    add(words, hour >= 1 && hour <= 12 ? Name("o'clock") : Name("hundred"));
    return words;
  }
  if (minutes.front() == '0') add(words, "oh");
  add_below_hundred(words, to_number(minutes));
  return words;
}

Words read_money(std::string_view whole, std::string_view part, const Currency& currency, Norm norm) {
  Words words;
  const bool whole_said = !whole.empty() && !all_zero(whole);
  const bool part_said = !part.empty() && !all_zero(part);
  if (whole_said || !part_said) {
    add(words, whole.empty() ? Words{"zero"} : read_cardinal(whole, norm));
    add(words, whole == "1" ? currency.one : currency.many);
  }
  if (!part_said) return words;
  const std::uint64_t cents = to_number(part.size() == 1 ? std::string(part) + "0" : std::string(part));
  if (whole_said && norm == Norm::american) add(words, "and");
  add(words, cardinal(cents, norm));
  if (!whole_said || norm == Norm::american) add(words, cents == 1 ? currency.hundredth : currency.hundredths);
  return words;
}

Words read_date(int day, int month, std::string_view year, Norm norm) {
  MW_EXPECT(day >= 1 && day <= 31 && month >= 1 && month <= 12);
  Words words;
  const Words nth = read_ordinal(std::to_string(day), norm);
  const Name name = months[static_cast<std::size_t>(month)];
  if (norm == Norm::american) {
    add(words, name);
    add(words, nth);
  } else {
    add(words, "the");
    add(words, nth);
    add(words, "of");
    add(words, name);
  }
  if (!year.empty()) add(words, read_year(year, norm));
  return words;
}

Words read_decade(std::string_view digits, Norm norm) {
  Words words = digits.size() == 2 ? cardinal(to_number(digits), norm) : read_year(digits, norm);
  words.back() = plural(words.back());
  return words;
}

std::string month_name(int month) {
  MW_EXPECT(month >= 1 && month <= 12);
  return std::string(months[static_cast<std::size_t>(month)]);
}

int month_of(std::string_view word) {
  for (std::size_t i = 1; i < months.size(); ++i) {
    if (word == months[i] || (word.size() == 3 && word == months[i].substr(0, 3)) || (i == 9 && word == "sept"))
      return static_cast<int>(i);
  }
  return 0;
}

} // namespace mw
