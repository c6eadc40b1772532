#include "phrase/reading.h"

#include "base/text.h"
#include "phrase/scanner.h"

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
    {"dr", "doctor", false},      {"prof", "professor", true}, {"rev", "reverend", true},
    {"capt", "captain", true},    {"jr", "junior", false},     {"sr", "senior", true},
    {"etc", "et cetera", false},  {"vs", "versus", false},     {"approx", "approximately", true},
    {"dept", "department", true}, {"ave", "avenue", true},     {"rd", "road", true},
    {"no", "number", true},       {"fig", "figure", true},     {"vol", "volume", true},
    {"jan", "january", true},     {"feb", "february", true},   {"aug", "august", true},
    {"sept", "september", true},  {"oct", "october", true},    {"nov", "november", true},
    {"dec", "december", true},    {"mon", "monday", true},     {"tues", "tuesday", true},
    {"thurs", "thursday", true},  {"tel", "telephone", true},  {"min", "minutes", true},
    {"max", "maximum", true}};

// capitals that are said as a word although they are short or have few vowels, and those said letter by letter
constexpr std::string_view capital_words[]{"AM",  "AN", "AS", "AT", "BE",  "BY",  "DO",  "GO", "HE", "IF",
                                           "IN",  "IS", "IT", "ME", "MY",  "NO",  "OF",  "ON", "OR", "SO",
                                           "TO",  "UP", "US", "WE", "OH",  "AH",  "HI",  "HA", "OW", "MR",
                                           "MRS", "DR", "ST", "MS", "SHH", "HMM", "PSST"};
constexpr std::string_view spelled_words[]{"USA", "UK",   "EU", "UN",  "UAE", "IOU", "ATM", "AI",  "ID",  "IQ",  "OK",
                                           "TV",  "PC",   "CD", "DVD", "DJ",  "PA",  "VIP", "DIY", "FAQ", "CEO", "RSVP",
                                           "IPA", "ASAP", "PE", "tv",  "dj",  "cd",  "dvd", "pc",  "diy", "ok"};
// words that begin with an apostrophe
constexpr std::string_view clipped[]{"em",  "tis", "twas", "cause", "bout",  "til",
                                     "til", "cos", "n",    "round", "neath", "twill"};

template <std::size_t N> bool among(std::string_view word, const std::string_view (&list)[N]) {
  return std::find(std::begin(list), std::end(list), word) != std::end(list);
}
bool is_upper(const std::string& fold) { return !fold.empty() && fold.front() >= 'A' && fold.front() <= 'Z'; }

/// Lower case of ASCII, which is all that atoms fold to.
std::string lower(std::string text) {
  for (char& c : text)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return text;
}

std::string name_of(char32_t point) {
  if (point >= 0x20 && point != 0x7F && !(point >= 0x80 && point < 0xA0) && point < 0xE000) return encode_utf8(point);
  constexpr std::string_view digits = "0123456789ABCDEF";
  std::string hex;
  for (int shift = 20; shift >= 0; shift -= 4)
    if (shift < 16 || (point >> shift) != 0) hex += digits[(point >> shift) & 15];
  return "U+" + hex;
}

} // namespace

Scanner::Scanner(std::u32string_view text, Norm norm) : text_(text), atoms_(to_atoms(text)), norm_(norm) {
  shouted_ = std::none_of(atoms_.begin(), atoms_.end(),
                          [](const Atom& atom) { return atom.kind == AtomKind::letter && !is_upper(atom.fold); });
}

std::string Scanner::letters(std::size_t start, std::size_t& end) const {
  std::string word;
  end = start;
  while (is(end, AtomKind::letter)) word += atoms_[end++].fold;
  return lower(std::move(word));
}

std::size_t Scanner::skip_space(std::size_t i) const { return is_point(i, ' ') || is_point(i, 0xA0) ? i + 1 : i; }

bool Scanner::after_boundary(std::size_t i) const {
  if (i == 0) return true;
  const AtomKind before = atoms_[i - 1].kind;
  return before == AtomKind::space || before == AtomKind::pause || before == AtomKind::silent;
}

bool Scanner::sentence_starts(std::size_t i) const {
  while (i > 0 && (atoms_[i - 1].kind == AtomKind::space || atoms_[i - 1].kind == AtomKind::silent ||
                   atoms_[i - 1].kind == AtomKind::apostrophe))
    --i;
  if (i == 0) return true;
  const char32_t before = atoms_[i - 1].point;
  return before == '.' || before == '!' || before == '?' || before == '\n' || before == ':';
}

void Scanner::say(const Words& words, std::size_t start, std::size_t end) {
  for (const auto& word : words) {
    SpokenWord spoken{word, word, {start, end}};
    spoken.expanded = true;
    out_.words.push_back(std::move(spoken));
  }
}

void Scanner::say_letter(char letter, std::size_t start, std::size_t end) {
  SpokenWord spoken{encode_utf8(text_.substr(start, end - start)), std::string(1, letter), {start, end}};
  spoken.letter_name = true;
  out_.words.push_back(std::move(spoken));
}

void Scanner::say_typed(std::size_t start, std::size_t end) {
  const bool capital = is_upper(atoms_[start].fold) && !sentence_starts(start);
  std::size_t from = start;
  std::string key;
  // very long runs are said in pieces
  const auto flush = [&](std::size_t to) {
    if (key.find_first_not_of('\'') == std::string::npos) return;
    std::string typed = encode_utf8(text_.substr(from, to - from));
    if (typed.size() > to - from) typed = to_nfc(typed); // not ASCII
    SpokenWord spoken{std::move(typed), lower(key), {from, to}};
    spoken.capital = capital;
    out_.words.push_back(std::move(spoken));
    key.clear();
    from = to;
  };
  for (std::size_t i = start; i < end; ++i) {
    if (key.size() + atoms_[i].fold.size() > longest_key) flush(i);
    if (atoms_[i].kind == AtomKind::letter || atoms_[i].kind == AtomKind::apostrophe) key += atoms_[i].fold;
  }
  flush(end);
}

void Scanner::pause() {
  if (!out_.words.empty()) out_.words.back().group_end = true;
}

void Scanner::leave_unsaid(std::size_t start, std::size_t end) {
  // neighbouring signs share one note
  if (!out_.notes.empty() && note_end_ == start) {
    Note& last = out_.notes.back();
    last.span->end = end;
    note_end_ = end;
    last.text = "these signs cannot be said and were left out";
    return;
  }
  out_.notes.push_back(
      {"unsaid", "\"" + name_of(text_[start]) + "\" cannot be said and was left out", Span{start, end}});
  note_end_ = end;
}

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

bool Scanner::read_abbreviation(std::size_t end) {
  std::size_t unused = 0;
  const std::string word = letters(at_, unused);
  if (unused != end) return false;
  const bool dot = is_point(end, '.');
  const std::size_t after = skip_space(dot ? end + 1 : end);
  const bool capital_follows = atom(after) != nullptr && after > end && is_upper(atoms_[after].fold);
  const std::size_t next = dot ? end + 1 : end;
  if (word == "st" && is_upper(atoms_[at_].fold)) {
    say({capital_follows ? "saint" : "street"}, at_, end);
    at_ = next;
    return true;
  }
  const auto row = std::find_if(std::begin(abbreviations), std::end(abbreviations),
                                [&](const Abbreviation& each) { return each.typed == word; });
  if (row == std::end(abbreviations) || (row->needs_dot && !dot)) return false;
  // "no." is a number only before one; words that end a sentence keep their full stop
  if (word == "no" && !is(after, AtomKind::digit)) return false;
  const bool plain_word =
      word == "mon" || word == "fig" || word == "dec" || word == "min" || word == "max" || word == "rev";
  if (plain_word && sentence_starts(after) && after >= atoms_.size()) return false;
  say(split(row->said, ' '), at_, end);
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
  if (!listed && (!upper || shouted_ || word.size() < 2 || word.size() > 5 || among(word, capital_words))) return false;
  const bool vowelless = word.find_first_of("AEIOUYaeiouy") == std::string::npos;
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
  if (read_dotted_initials() || read_abbreviation(end) || read_initials(end)) return;
  const bool single = end == start + 1 && is(start, AtomKind::letter);
  const std::string letter = single ? lower(atoms_[start].fold) : "";
  const bool hyphened = is(end, AtomKind::hyphen) && is(end + 1, AtomKind::letter);
  // a, I and o' are words; a capital A inside a sentence names the letter
  const bool article =
      letter == "a" && !hyphened && (!is_upper(atoms_[start].fold) || sentence_starts(start) || shouted_);
  if (single && letter.size() == 1 && !article && letter != "i")
    say_letter(letter.front(), start, end);
  else
    say_typed(start, end);
  at_ = end;
}

void Scanner::read_sign() {
  const std::size_t i = at_++;
  const bool between_letters = i > 0 && is(i - 1, AtomKind::letter) && is(i + 1, AtomKind::letter);
  switch (atoms_[i].point) {
  case '&':
    return say({"and"}, i, i + 1);
  case '%':
    return say({"percent"}, i, i + 1);
  case '+':
    return say({"plus"}, i, i + 1);
  case '=':
    return say({"equals"}, i, i + 1);
  case '@':
    return say({"at"}, i, i + 1);
  case '#':
    return say({is(i + 1, AtomKind::digit) ? "number" : "hash"}, i, i + 1);
  case '$':
    return say({"dollar"}, i, i + 1);
  case 0xA3:
    return say({"pound"}, i, i + 1);
  case 0x20AC:
    return say({"euro"}, i, i + 1);
  case 0xA5:
    return say({"yen"}, i, i + 1);
  case 0xA2:
    return say({"cent"}, i, i + 1);
  case 0xB0:
    return say({"degrees"}, i, i + 1);
  case 0xD7:
    return say({"times"}, i, i + 1);
  case 0xF7:
    return say({"divided", "by"}, i, i + 1);
  case 0xB1:
    return say({"plus", "or", "minus"}, i, i + 1);
  case '_':
    return; // parts words
  default:
    break;
  }
  if (!between_letters) leave_unsaid(i, i + 1);
}

void Scanner::read_other() {
  const Atom& atom = atoms_[at_];
  if (atom.kind == AtomKind::pause) pause();
  if (atom.kind == AtomKind::unsayable) leave_unsaid(at_, at_ + 1);
  // a hyphen between spaces is a dash, as is a doubled one; U+2013 between words too
  if (atom.kind == AtomKind::hyphen) {
    const bool dash = (after_boundary(at_) && (at_ + 1 >= atoms_.size() || is(at_ + 1, AtomKind::space))) ||
                      is(at_ + 1, AtomKind::hyphen) || atom.point == 0x2013;
    if (dash) pause();
  }
  ++at_;
}

Reading Scanner::read() {
  while (at_ < atoms_.size()) {
    if (read_number()) continue;
    const AtomKind kind = atoms_[at_].kind;
    std::size_t end = 0;
    const bool clip = kind == AtomKind::apostrophe && after_boundary(at_) && among(letters(at_ + 1, end), clipped);
    if (kind == AtomKind::letter || clip)
      read_word();
    else if (kind == AtomKind::sign)
      read_sign();
    else
      read_other();
  }
  pause();
  return std::move(out_);
}

Result<Reading> read_phrase(std::string_view phrase, Norm norm) {
  const auto text = decode_utf8(phrase);
  if (!text) {
    Problem problem = text.error();
    problem.kind = ProblemKind::input;
    return problem;
  }
  if (text->size() > longest_phrase)
    return Problem{ProblemKind::input,
                   "the phrase has more than " + to_text(static_cast<int>(longest_phrase)) + " characters", "",
                   "say it in parts", Span{longest_phrase, text->size()}};
  Reading reading = Scanner(*text, norm).read();
  if (reading.words.empty())
    return Problem{ProblemKind::input, "there is nothing in the phrase that can be said", "", "type a word",
                   Span{0, text->size()}};
  return reading;
}

} // namespace mw
