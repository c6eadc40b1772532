#include "phrase/scanner.h"

#include "base/text.h"

#include <algorithm>
#include <array>

namespace mw {
namespace {

struct PartRow {
  char32_t sign;
  std::string_view upper, lower;
};
constexpr PartRow parts[]{{0xBC, "1", "4"},   {0xBD, "1", "2"},   {0xBE, "3", "4"},
                          {0x2153, "1", "3"}, {0x2154, "2", "3"}, {0x215B, "1", "8"},
                          {0x215C, "3", "8"}, {0x215D, "5", "8"}, {0x215E, "7", "8"}};

const PartRow* find_part(char32_t sign) {
  const auto at =
      std::find_if(std::begin(parts), std::end(parts), [&](const PartRow& row) { return row.sign == sign; });
  return at == std::end(parts) ? nullptr : at;
}

int small_number(std::string_view digits) {
  if (digits.empty() || digits.size() > 2) return -1;
  int value = 0;
  for (const char digit : digits) value = value * 10 + (digit - '0');
  return value;
}

/// "2 1/2", "2\u00bd": two and a half.
Words mixed(std::string_view upper, std::string_view lower, Norm norm) {
  Words words = read_fraction(upper, lower, norm);
  if (upper == "1") words.front() = std::string(1, 'a');
  words.insert(words.begin(), std::string("and"));
  return words;
}

} // namespace

std::optional<Scanner::Run> Scanner::run(std::size_t i) const {
  if (!is(i, AtomKind::digit)) return std::nullopt;
  Run result{{}, i};
  while (is(result.end, AtomKind::digit)) result.digits += atoms_[result.end++].fold;
  // thousands: groups of exactly three after commas
  if (result.digits.size() > 3) return result;
  const auto group = [&](std::size_t k) {
    return is_point(k, ',') && is(k + 1, AtomKind::digit) && is(k + 2, AtomKind::digit) && is(k + 3, AtomKind::digit) &&
           !is(k + 4, AtomKind::digit);
  };
  while (group(result.end)) {
    for (std::size_t k = 1; k <= 3; ++k) result.digits += atoms_[result.end + k].fold;
    result.end += 4;
    result.grouped = true;
  }
  return result;
}

bool Scanner::read_number() {
  if (read_money()) return true;
  const bool minus = is(at_, AtomKind::hyphen) && is(at_ + 1, AtomKind::digit) && after_boundary(at_);
  if (minus) {
    say({"minus"}, at_, at_ + 1);
    ++at_;
    return true;
  }
  if (is_point(at_, '+') && read_phone()) return true;
  if (is(at_, AtomKind::apostrophe) || is_point(at_, '.')) {
    // '60s, .5
    if (!is(at_ + 1, AtomKind::digit) || is(at_ - 1, AtomKind::digit)) return false;
    return is_point(at_, '.') ? read_parts() : read_decade_or_ordinal();
  }
  if (const PartRow* part = atom(at_) ? find_part(atoms_[at_].point) : nullptr) {
    say(read_fraction(part->upper, part->lower, norm_), at_, at_ + 1);
    at_ = read_unit(at_ + 1, true);
    return true;
  }
  if (!is(at_, AtomKind::digit)) return false;
  if (read_clock() || read_calendar() || read_phone() || read_parts() || read_decade_or_ordinal() || read_range())
    return true;
  read_plain_number();
  return true;
}

std::size_t Scanner::read_half_day(std::size_t i) {
  const std::size_t start = skip_space(i);
  const auto dot = [&](std::size_t k) -> std::size_t { return is_point(k, '.') ? 1 : 0; };
  const auto lower = [&](std::size_t k) { return is(k, AtomKind::letter) ? to_lower(atoms_[k].fold) : std::string(); };
  const std::string half = lower(start);
  if (half != "a" && half != "p") return i;
  const std::size_t second = start + 1 + dot(start + 1);
  if (lower(second) != "m" || is(second + 1, AtomKind::letter)) return i;
  std::size_t end = second + 1;
  if (second > start + 1) end += dot(end);
  say_letter(half.front(), start, start + 1);
  say_letter('m', second, second + 1);
  return end;
}

bool Scanner::read_clock() {
  const auto hours = run(at_);
  const bool colon = hours && is_point(hours->end, ':'); // 11.30 is a time only before am or pm
  if (!hours || hours->digits.size() > 2 || !(colon || is_point(hours->end, '.'))) return false;
  const auto minutes = run(hours->end + 1);
  if (!minutes || minutes->digits.size() != 2 || is_point(minutes->end, ':')) return false;
  if (small_number(hours->digits) > 24 || small_number(minutes->digits) > 59) return false;
  // look whether am or pm follows before the hour is said
  std::size_t end = 0;
  const std::string next = letters(skip_space(minutes->end), end);
  const bool half_day = next == "am" || next == "pm" || ((next == "a" || next == "p") && is_point(end, '.'));
  if (!colon && !half_day) return false;
  say(read_time(hours->digits, minutes->digits, half_day, norm_), at_, minutes->end);
  at_ = read_half_day(minutes->end);
  return true;
}

bool Scanner::read_calendar() {
  const auto first = run(at_);
  if (!first || first->grouped) return false;
  const auto separator = atom(first->end);
  if (separator == nullptr || (separator->point != '/' && separator->point != '-' && separator->point != '.'))
    return false;
  const auto second = run(first->end + 1);
  if (!second || !is_point(second->end, separator->point)) return false;
  const auto third = run(second->end + 1);
  if (!third || is_point(third->end, '/') || is_point(third->end, '-')) return false;
  int day = small_number(first->digits), month = small_number(second->digits);
  std::string year = third->digits;
  if (first->digits.size() == 4) {
    year = first->digits;
    day = small_number(third->digits);
  } else if (norm_ == Norm::american) {
    std::swap(day, month);
  }
  if (month > 12 && day <= 12) std::swap(day, month);
  const bool dated = day >= 1 && day <= 31 && month >= 1 && month <= 12 && (year.size() == 4 || year.size() == 2);
  if (!dated) return false;
  say(read_date(day, month, year, norm_), at_, third->end);
  at_ = third->end;
  return true;
}

bool Scanner::read_phone() {
  const bool plus = is_point(at_, '+');
  std::vector<std::pair<Span, std::string>> groups;
  std::size_t i = at_ + (plus ? 1 : 0), total = 0;
  bool hyphen = false;
  while (is(i, AtomKind::digit)) {
    const std::size_t start = i;
    std::string digits;
    while (is(i, AtomKind::digit)) digits += atoms_[i++].fold;
    total += digits.size();
    groups.push_back({{start, i}, digits});
    std::size_t next = i;
    while (is_point(next, ' ') || is_point(next, ')') || is_point(next, '(') || is(next, AtomKind::hyphen)) ++next;
    if (next > i && next <= i + 2 && is(next, AtomKind::digit)) {
      hyphen = hyphen || is(i, AtomKind::hyphen);
      i = next;
    }
  }
  if (groups.empty() || total < 7 || total > 20) return false;
  const bool tailed =
      groups.back().second.size() == 4 && groups.size() > 1 && groups[groups.size() - 2].second.size() == 3;
  const bool coded = plus || groups.front().second.front() == '0';
  if (!coded && !(groups.size() > 1 && tailed && hyphen)) return false;
  if (plus) say({"plus"}, at_, at_ + 1);
  for (std::size_t k = 0; k < groups.size(); ++k) {
    say(read_digits(groups[k].second, norm_), groups[k].first.start, groups[k].first.end);
    if (k + 1 < groups.size()) pause();
  }
  at_ = groups.back().first.end;
  return true;
}

bool Scanner::read_point() {
  // 3.14, .5, 1.2.3
  const std::size_t start = at_;
  const auto whole = run(at_);
  std::size_t end = whole ? whole->end : at_;
  if (!is_point(end, '.') || !is(end + 1, AtomKind::digit)) return false;
  bool zero = whole && whole->digits == "0"; // its name belongs to the decimal: nought point five
  Words words = whole && !zero ? read_cardinal(whole->digits, norm_) : Words{};
  while (is_point(end, '.') && is(end + 1, AtomKind::digit)) {
    std::string digits;
    for (++end; is(end, AtomKind::digit); ++end) digits += atoms_[end].fold;
    for (auto& word : read_decimal(zero ? "0" : "", digits, norm_)) words.push_back(std::move(word));
    zero = false;
  }
  say(words, start, end);
  at_ = read_unit(end, false);
  return true;
}

std::optional<std::pair<Scanner::Run, Scanner::Run>> Scanner::fraction(std::size_t i) const {
  const auto upper = run(i);
  if (!upper || !(is_point(upper->end, '/') || is_point(upper->end, 0x2044))) return std::nullopt;
  const auto lower = run(upper->end + 1);
  if (!lower || is_point(lower->end, '/') || upper->digits.size() > 4 || lower->digits.size() > 4) return std::nullopt;
  return std::pair{*upper, *lower};
}

bool Scanner::read_parts() {
  if (read_point()) return true;
  const std::size_t start = at_;
  const auto whole = run(at_);
  if (!whole) return false;
  const auto say_mixed = [&](std::string_view upper, std::string_view lower, std::size_t end) {
    Words words = read_cardinal(whole->digits, norm_);
    for (auto& word : mixed(upper, lower, norm_)) words.push_back(std::move(word));
    say(words, start, end);
    at_ = read_unit(end, false);
    return true;
  };
  // 2\u00bd
  if (const PartRow* part = atom(whole->end) ? find_part(atoms_[whole->end].point) : nullptr)
    return say_mixed(part->upper, part->lower, whole->end + 1);
  // 3/4, 24/7
  if (const auto simple = fraction(at_)) {
    const auto& [upper, lower] = *simple;
    const bool always = upper.digits == "24" && lower.digits == "7", day = upper.digits == "9" && lower.digits == "11";
    Words words = always ? Words{"twenty", "four", "seven"} : day ? Words{"nine", "eleven"} : read_fraction(upper.digits, lower.digits, norm_);
    if (upper.digits == lower.digits && upper.digits.size() == 2) { // 50/50
      const Words half = read_cardinal(upper.digits, norm_);
      words = half;
      words.insert(words.end(), half.begin(), half.end());
    }
    say(words, start, lower.end);
    at_ = lower.end;
    return true;
  }
  // 2 1/2
  const auto rest = is_point(whole->end, ' ') ? fraction(whole->end + 1) : std::nullopt;
  if (!rest) return false;
  const int upper = small_number(rest->first.digits), lower = small_number(rest->second.digits);
  if (upper < 1 || upper >= lower) return false;
  return say_mixed(rest->first.digits, rest->second.digits, rest->second.end);
}

bool Scanner::read_decade_or_ordinal() {
  const std::size_t first = is(at_, AtomKind::apostrophe) ? at_ + 1 : at_;
  const auto number = run(first);
  if (!number) return false;
  std::size_t end = number->end;
  std::size_t suffix_at = is(end, AtomKind::apostrophe) ? end + 1 : end;
  const std::string suffix = letters(suffix_at, end);
  const bool round = number->digits.back() == '0' && (number->digits.size() == 4 || number->digits.size() == 2);
  if (suffix == "s" && round && number->digits != "00") {
    say(read_decade(number->digits, norm_), at_, end);
    at_ = end;
    return true;
  }
  const bool ordinal = suffix == "st" || suffix == "nd" || suffix == "rd" || suffix == "th";
  if (!ordinal || first != at_ || suffix_at != number->end) return false;
  say(read_ordinal(number->digits, norm_), at_, end);
  at_ = end;
  return true;
}

bool Scanner::read_range() {
  const auto low = run(at_);
  if (!low || !is(low->end, AtomKind::hyphen)) return false;
  const auto high = run(low->end + 1);
  if (!high || low->digits.size() > 4 || high->digits.size() > 4 || is(high->end, AtomKind::hyphen)) return false;
  say(low->grouped ? read_cardinal(low->digits, norm_) : read_year(low->digits, norm_), at_, low->end);
  say({"to"}, low->end, low->end + 1);
  at_ = low->end + 1; // the second number is read with what follows it
  return true;
}

void Scanner::read_plain_number() {
  const auto number = run(at_);
  const std::size_t start = at_;
  const int day = number->grouped ? -1 : small_number(number->digits);
  // 5 May, May 5
  std::size_t word_end = 0;
  const std::string next = letters(skip_space(number->end), word_end);
  const int month = month_of(next);
  const bool month_named = month > 0 && (next != "may" || is_point(skip_space(number->end), 'M'));
  if (day >= 1 && day <= 31 && month_named) {
    say(read_date(day, month, "", Norm::british), start, word_end);
    at_ = is_point(word_end, '.') && next.size() <= 4 && next != "may" ? word_end + 1 : word_end;
    return;
  }
  const bool after_month = !out_.words.empty() && !out_.words.back().group_end && month_of(out_.words.back().key) > 0 &&
                           (out_.words.back().key != "may" || out_.words.back().text.front() == 'M');
  if (day >= 1 && day <= 31 && after_month) {
    if (norm_ == Norm::british) say({"the"}, start, number->end);
    say(read_ordinal(number->digits, norm_), start, number->end);
    at_ = number->end;
    return;
  }
  say(number->grouped ? read_cardinal(number->digits, norm_) : read_year(number->digits, norm_), start, number->end);
  const std::size_t after = read_half_day(number->end);
  at_ = after != number->end ? after : read_unit(number->end, number->digits == "1");
}

} // namespace mw
