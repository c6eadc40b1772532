#include "phrase/reading.h"

#include "base/text.h"
#include "phrase/scan_text.h"
#include "phrase/scanner.h"

#include <algorithm>
#include <iterator>

namespace mw {
namespace {

// words that begin with an apostrophe
constexpr std::string_view clipped[]{"em",  "tis", "twas", "cause", "bout",  "til",
                                     "til", "cos", "n",    "round", "neath", "twill"};

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

void Scanner::say_short(const Words& words, std::size_t start, std::size_t end) {
  say(words, start, end);
  if (words.size() == 1) out_.words.back().text = encode_utf8(text_.substr(start, end - start));
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
  if (is_dot_of_address(at_)) say({"dot"}, at_, at_ + 1);
  else if (atom.kind == AtomKind::pause) pause();
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
