#include "phrase/scanner.h"

#include "base/text.h"
#include "phrase/roman.h"
#include "phrase/scan_text.h"

#include <algorithm>
#include <iterator>

namespace mw {
namespace {

struct Abbreviation {
  std::string_view typed, said;
  bool needs_dot;
};
// what stands before the full stop; several words are parted by a space
constexpr Abbreviation abbreviations[]{
    {"mr", "mister", false},      {"mrs", "missis", false},    {"ms", "miz", false},
    {"mx", "mix", false},         {"lt", "lieutenant", false}, {"sgt", "sergeant", false},
    {"col", "colonel", true},     {"gen", "general", true},    {"sen", "senator", true},
    {"gov", "governor", true},    {"inc", "incorporated", true}, {"ltd", "limited", false},
    {"co", "company", true},      {"corp", "corporation", true}, {"blvd", "boulevard", false},
    {"ln", "lane", true},         {"mt", "mount", false},      {"apt", "apartment", true},
    {"ch", "chapter", true},
    {"dr", "doctor", false},      {"prof", "professor", true}, {"rev", "reverend", true},
    {"capt", "captain", true},    {"jr", "junior", false},     {"sr", "senior", true},
    {"etc", "et cetera", false},  {"vs", "versus", false},     {"approx", "approximately", true},
    {"dept", "department", true}, {"ave", "avenue", true},     {"rd", "road", true},
    {"no", "number", true},       {"fig", "figure", true},     {"vol", "volume", true},
    {"jan", "january", true},     {"feb", "february", true},   {"aug", "august", true},
    {"sept", "september", true},  {"oct", "october", true},    {"nov", "november", true},
    {"dec", "december", true},    {"mon", "monday", true},     {"tues", "tuesday", true},
    {"thurs", "thursday", true},  {"tel", "telephone", true},  {"min", "minutes", true},
    {"max", "maximum", true},     {"p", "page", true},        {"pp", "pages", true}};
constexpr std::string_view before_a_number[]{"no", "p", "pp", "ch", "apt"},
    plain_words[]{"mon", "fig", "dec", "min", "max", "rev", "col", "gen", "co", "inc"};
// only before a date or joined to another day, as most are words too; the first three letters tell the day
constexpr std::string_view days[]{"monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"},
    short_days[]{"mon", "tue", "tues", "wed", "weds", "thu", "thur", "thurs", "fri", "sat", "sun"};

// capitals that are said as a word although they are short or have few vowels, and those said letter by letter
constexpr std::string_view capital_words[]{"AM",  "AN", "AS", "AT", "BE",  "BY",  "DO",  "GO", "HE", "IF",
                                           "IN",  "IS", "IT", "ME", "MY",  "NO",  "OF",  "ON", "OR", "SO",
                                           "TO",  "UP", "US", "WE", "OH",  "AH",  "HI",  "HA", "OW", "MR",
                                           "MRS", "DR", "ST", "MS", "SHH", "HMM", "PSST"};
constexpr std::string_view spelled_words[]{"USA", "UK",   "EU", "UN",  "UAE", "IOU", "ATM", "AI",  "ID",  "IQ",  "OK",
                                           "TV",  "PC",   "CD", "DVD", "DJ",  "PA",  "VIP", "DIY", "FAQ", "CEO", "RSVP",
                                           "IPA", "ASAP", "PE", "www", "tv",  "dj",  "cd",  "dvd", "pc",  "diy", "ok"};

} // namespace

bool Scanner::read_dotted_initials() {
  // e.g., U.S.A.: single letters, each with a full stop
  std::size_t i = at_, count = 0;
  while (is(i, AtomKind::letter) && is_point(i + 1, '.') && !is(i + 2, AtomKind::digit)) i += 2, ++count;
  const bool open = is(i, AtomKind::letter) && !is(i + 1, AtomKind::letter) && count > 0; // U.S.A without the last stop
  if (open) ++i, ++count;
  if (count < 2 && !(count == 1 && is_upper(atoms_[at_].fold) && is(i, AtomKind::space) && atoms_[at_].fold != "I"))
    return false;
  if (is(i, AtomKind::letter)) return false;
  std::size_t unused = 0;
  const std::string pair = letters(at_, unused) + (count == 2 ? letters(at_ + 2, unused) : "");
  if (pair == "eg")
    say({"for", "example"}, at_, i);
  else if (pair == "ie")
    say({"that", "is"}, at_, i);
  else
    for (std::size_t k = at_; k < i; k += 2) say_letter(lower(atoms_[k].fold).front(), k, k + 1);
  const std::size_t next = i;
  at_ = i;
  if (next >= atoms_.size()) pause();
  return true;
}

/// Sat 5 Oct, Tue, Mar 5th, Mon-Fri: a short day or month with a capital where a date or a second day speaks for it.
bool Scanner::read_short_date_name(const std::string& word, std::size_t end, std::size_t next) {
  const std::size_t after = skip_space(is_point(next, ',') ? next + 1 : next);
  std::size_t unused = 0;
  const bool date = is(after, AtomKind::digit), month = month_of(letters(after, unused)) > 0;
  const bool joined = (is(end, AtomKind::hyphen) && among(letters(end + 1, unused), short_days)) ||
                      (at_ > 0 && is(at_ - 1, AtomKind::hyphen) && !out_.words.empty() && among(out_.words.back().key, days));
  const auto starts_as_word = [&](std::string_view name) { return starts_with(name, word.substr(0, 3)); };
  if (among(word, short_days) && (date || month || joined))
    say_short({std::string(*std::find_if(std::begin(days), std::end(days), starts_as_word))}, at_, end);
  else if (month_of(word) > 0 && word.size() <= 4 && word != "may" && date && after > end)
    say_short({month_name(month_of(word))}, at_, end);
  else return false;
  at_ = next;
  return true;
}

bool Scanner::read_abbreviation(std::size_t end) {
  std::size_t unused = 0;
  const std::string word = letters(at_, unused);
  if (unused != end) return false;
  const bool dot = is_point(end, '.');
  const std::size_t after = skip_space(dot ? end + 1 : end);
  const bool capital_follows = atom(after) != nullptr && after > end && is_upper(atoms_[after].fold);
  const std::size_t next = dot ? end + 1 : end;
  if (word == "st" && is_upper(atoms_[at_].fold)) {
    say_short({capital_follows ? "saint" : "street"}, at_, end);
    at_ = next;
    return true;
  }
  if (is_upper(atoms_[at_].fold) && read_short_date_name(word, end, next)) return true;
  const auto row = std::find_if(std::begin(abbreviations), std::end(abbreviations),
                                [&](const Abbreviation& each) { return each.typed == word; });
  if (row == std::end(abbreviations) || (row->needs_dot && !dot)) return false;
  // "no." is a number only before one; words that end a sentence keep their full stop
  if (among(word, before_a_number) && !is(after, AtomKind::digit)) return false;
  if (among(word, plain_words) && sentence_starts(after) && after >= atoms_.size()) return false;
  say_short(split(row->said, ' '), at_, end);
  at_ = next;
  if (after >= atoms_.size()) pause();
  return true;
}

bool Scanner::read_initials(std::size_t end) {
  std::string word;
  std::size_t stop = at_;
  while (stop < end && is(stop, AtomKind::letter)) {
    if (atoms_[stop].fold.size() != 1) return false;
    word += atoms_[stop++].fold;
  }
  // plural or possessive: TVs, BBC's
  const bool plural = word.size() > 2 && word.back() == 's' && stop == end;
  if (plural) word.pop_back(), --stop;
  const bool possessive = stop + 2 == end && is(stop, AtomKind::apostrophe) && lower(atoms_[stop + 1].fold) == "s";
  if (stop != end && !plural && !possessive) return false;
  const bool upper = std::all_of(word.begin(), word.end(), [](char c) { return c >= 'A' && c <= 'Z'; });
  const bool listed = among(word, spelled_words);
  const bool vowelless = word.find_first_of("AEIOUYaeiouy") == std::string::npos;
  const bool shouted = shouted_ && !vowelless; // in a line of capitals only what cannot be a word is spelled
  if (!listed && (!upper || shouted || word.size() < 2 || word.size() > 5 || among(word, capital_words))) return false;
  if (!listed && !vowelless && word.size() > 2) return false;
  for (std::size_t k = 0; k < word.size(); ++k) say_letter(lower(word).at(k), at_ + k, at_ + k + 1);
  if (stop != end) {
    // the ending goes with the last letter
    out_.words.back().key += "'s";
    out_.words.back().text = encode_utf8(text_.substr(stop - 1, end - stop + 1));
    out_.words.back().span.end = end;
  }
  at_ = end;
  return true;
}

bool Scanner::read_numeral(std::size_t end) {
  std::string word;
  for (std::size_t i = at_; i < end; ++i) word += atoms_[i].fold;
  const auto value = read_roman(word);
  if (!value || shouted_ || out_.words.empty() || out_.words.back().group_end) return false;
  const SpokenWord& before = out_.words.back();
  const bool part = counts_parts(before.key), name = before.text.front() >= 'A' && before.text.front() <= 'Z';
  if (before.expanded && !part) return false;
  // a lone I is a person, a lone V or X a letter, unless parts are counted
  if (!part && (word.size() < 2 || !name)) return false;
  if (word == "I" && !is_upper(before.text)) return false;
  const std::string digits = to_text(*value);
  Words words = part ? read_cardinal(digits, norm_) : read_ordinal(digits, norm_);
  if (!part) words.insert(words.begin(), "the");
  say(words, at_, end);
  at_ = end;
  return true;
}

bool Scanner::read_times() {
  const bool sign = is(at_, AtomKind::letter) && lower(atoms_[at_].fold) == "x" && !is(at_ + 1, AtomKind::letter);
  const bool spaced = at_ > 1 && is(at_ - 1, AtomKind::space) && is(at_ - 2, AtomKind::digit) && is(at_ + 1, AtomKind::space) && is(at_ + 2, AtomKind::digit);
  const bool close = at_ > 0 && is(at_ - 1, AtomKind::digit) && is(at_ + 1, AtomKind::digit);
  if (!sign || !(spaced || close)) return false;
  say({"by"}, at_, at_ + 1);
  ++at_;
  return true;
}

bool Scanner::is_dot_of_address(std::size_t i) const {
  constexpr std::string_view ends[]{"com", "org", "net", "co", "uk", "edu", "gov", "ac", "au", "ca", "ie", "nz", "info"};
  if (!is_point(i, '.') || i == 0 || !is(i - 1, AtomKind::letter) || !is(i + 1, AtomKind::letter)) return false;
  std::size_t end = 0;
  const bool after_www = !out_.words.empty() && out_.words.back().letter_name && out_.words.back().key == "w";
  return after_www || among(letters(i + 1, end), ends);
}

void Scanner::read_word() {
  // where the word ends: letters, marks, apostrophes between letters
  std::size_t end = at_;
  const std::size_t start = at_;
  if (is(end, AtomKind::apostrophe)) ++end;
  for (; end < atoms_.size(); ++end) {
    const AtomKind kind = atoms_[end].kind;
    if (kind == AtomKind::letter) continue;
    const bool mark = kind == AtomKind::silent &&
                      ((atoms_[end].point >= 0x300 && atoms_[end].point <= 0x36F) || atoms_[end].point == 0xAD);
    const bool inside = kind == AtomKind::apostrophe && is(end + 1, AtomKind::letter);
    if (!mark && !inside) break;
  }
  if (read_times() || read_numeral(end) || read_dotted_initials() || read_abbreviation(end) || read_initials(end)) return;
  const bool single = end == start + 1 && is(start, AtomKind::letter);
  const std::string letter = single ? lower(atoms_[start].fold) : "";
  const bool hyphened = is(end, AtomKind::hyphen) && is(end + 1, AtomKind::letter);
  // a, I and o' are words; a capital A inside a sentence names the letter
  const bool article =
      letter == "a" && !hyphened && !is(end, AtomKind::digit) && (!is_upper(atoms_[start].fold) || sentence_starts(start) || shouted_);
  if (single && letter.size() == 1 && !article && letter != "i")
    say_letter(letter.front(), start, end);
  else
    say_typed(start, end);
  at_ = end;
}

} // namespace mw
