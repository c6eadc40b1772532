#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace mw {

/// Whose habits decide where English-speaking countries differ: "and" in numbers, the order of a date, the name of Z,
/// and words such as tomato.
enum class Norm { american, british };

using Words = std::vector<std::string>;

/// All take strings of ASCII digits and give lower-case words, one spoken word each ("twenty", "one").
/// "105" -> one hundred (and) five. Over 15 digits, or with a leading zero: digit by digit.
Words read_cardinal(std::string_view digits, Norm norm);
/// "21" -> twenty first.
Words read_ordinal(std::string_view digits, Norm norm);
/// One name a digit; 0 is "oh". British habit doubles a repeated digit.
Words read_digits(std::string_view digits, Norm norm);
/// Four digits as a year where English does so (1100 to 1999, 2000 to 2099), else the cardinal.
Words read_year(std::string_view digits, Norm norm);
/// "3", "14" -> three point one four; an empty whole part is not said.
Words read_decimal(std::string_view whole, std::string_view part, Norm norm);
/// "3", "4" -> three quarters; large lower numbers -> "over". Lower number 0 as "over" too.
Words read_fraction(std::string_view upper, std::string_view lower, Norm norm);
/// Hours and minutes of a clock: "7", "05" -> seven oh five; "00" minutes -> o'clock, or nothing when am or pm follows.
Words read_time(std::string_view hours, std::string_view minutes, bool half_day_follows, Norm norm);
/// Amount in a currency whose whole and hundredth are named in the singular: pound/penny, dollar/cent, euro/cent.
struct Currency {
  std::string_view one, many, hundredth, hundredths;
};
Words read_money(std::string_view whole, std::string_view part, const Currency& currency, Norm norm);
/// Day 1..31, month 1..12, year digits or none.
Words read_date(int day, int month, std::string_view year, Norm norm);
/// "1960" -> nineteen sixties; "60" -> sixties. Needs a last digit 0.
Words read_decade(std::string_view digits, Norm norm);
/// 1..12, or 0 when the lower-case word names no month.
int month_of(std::string_view word);
/// The full name of a month 1 to 12, lower case.
std::string month_name(int month);

} // namespace mw
