#pragma once

#include "phrase/atoms.h"
#include "phrase/reading.h"

#include <functional>
#include <optional>

namespace mw {

/// Walks over a phrase once, from left to right; each `read_` member takes what it can say at `at` and moves on.
class Scanner {
public:
  Scanner(std::u32string_view text, Norm norm);
  Reading read();

private:
  /// A run of digits; commas between groups of three are left out of `digits`.
  struct Run {
    std::string digits;
    std::size_t end;
    bool grouped = false;
  };

  [[nodiscard]] const Atom* atom(std::size_t i) const { return i < atoms_.size() ? &atoms_[i] : nullptr; }
  [[nodiscard]] bool is(std::size_t i, AtomKind kind) const { return i < atoms_.size() && atoms_[i].kind == kind; }
  [[nodiscard]] bool is_point(std::size_t i, char32_t point) const {
    return i < atoms_.size() && atoms_[i].point == point;
  }
  [[nodiscard]] std::string letters(std::size_t start, std::size_t& end) const; // lower case, folded
  [[nodiscard]] std::size_t skip_space(std::size_t i) const;
  [[nodiscard]] std::optional<Run> run(std::size_t i) const;
  [[nodiscard]] std::optional<std::pair<Run, Run>> fraction(std::size_t i) const; // upper and lower number
  [[nodiscard]] bool after_boundary(std::size_t i) const; // nothing, space, bracket or quote stands before
  [[nodiscard]] bool sentence_starts(std::size_t i) const;

  void say(const Words& words, std::size_t start, std::size_t end);
  void say_short(const Words& words, std::size_t start, std::size_t end); // Dr: said in full, written as typed
  void say_typed(std::size_t start, std::size_t end);
  void say_letter(char letter, std::size_t start, std::size_t end);
  void pause();
  void leave_unsaid(std::size_t start, std::size_t end);

  void read_word();
  bool read_abbreviation(std::size_t end);
  bool read_short_date_name(const std::string& word, std::size_t end, std::size_t next);
  bool read_dotted_initials();
  bool read_initials(std::size_t end);
  bool read_numeral(std::size_t end); // Henry VIII, act II
  bool read_times();                  // 2 x 4
  [[nodiscard]] bool is_dot_of_address(std::size_t i) const;
  void read_sign();
  void read_other();

  bool read_number();
  bool read_money();
  bool read_clock();
  bool read_calendar();
  bool read_phone();
  bool read_point();
  bool read_parts();
  bool read_decade_or_ordinal();
  bool read_range();
  void read_plain_number();
  std::size_t read_unit(std::size_t i, bool one);
  std::size_t read_half_day(std::size_t i);

  std::u32string_view text_;
  std::vector<Atom> atoms_;
  Norm norm_;
  Reading out_;
  std::size_t at_ = 0;
  std::size_t note_end_ = 0; // where the last note about unsaid signs ends
  bool shouted_ = false;     // no lower-case letter in the phrase
};

} // namespace mw
