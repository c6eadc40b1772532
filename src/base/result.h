#pragma once

#include "base/expect.h"

#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <variant>

namespace mw {

/// A stretch of text in Unicode code points, end exclusive.
struct Span {
  std::size_t start = 0;
  std::size_t end = 0;
  bool operator==(const Span&) const = default;
};

/// Whose problem it is; the command line turns it into its exit code (contract: 1, 2, 3, 4, 5).
enum class ProblemKind { usage = 1, input = 2, output = 3, fault = 4, missing = 5 };

/// What went wrong, where, and what to try; written for a phonetics student, not for us.
struct Problem {
  ProblemKind kind = ProblemKind::input;
  std::string what;
  std::string where; // file, line, option or quoted sign; may be empty
  std::string remedy; // "try ..."; may be empty
  std::optional<Span> span{}; // in the phrase, when it is about text
  bool operator==(const Problem&) const = default;
};

/// Something odd but usable, kept inside a value and shown by every face.
struct Note {
  std::string kind; // guess, unsaid, choice, strain, ...
  std::string text;
  std::optional<Span> span{};
  bool operator==(const Note&) const = default;
};

/// A value or a Problem, with the member names of std::expected.
template <typename T> class [[nodiscard]] Result {
public:
  Result(T value) : state_(std::in_place_index<0>, std::move(value)) {}
  Result(Problem problem) : state_(std::in_place_index<1>, std::move(problem)) {}

  [[nodiscard]] bool has_value() const { return state_.index() == 0; }
  explicit operator bool() const { return has_value(); }
  /// The value; asking for it when there is none is our own mistake.
  [[nodiscard]] const T& value() const& { MW_EXPECT(has_value()); return std::get<0>(state_); }
  [[nodiscard]] T& value() & { MW_EXPECT(has_value()); return std::get<0>(state_); }
  [[nodiscard]] T&& value() && { MW_EXPECT(has_value()); return std::get<0>(std::move(state_)); }
  [[nodiscard]] const Problem& error() const { MW_EXPECT(!has_value()); return std::get<1>(state_); }
  const T& operator*() const& { return value(); }
  T& operator*() & { return value(); }
  T&& operator*() && { return std::move(*this).value(); }
  const T* operator->() const { return &value(); }
  T* operator->() { return &value(); }
  /// Applies `f` (T -> Result<U>) to the value, or hands the problem on.
  template <typename F> auto and_then(F&& f) const& -> decltype(f(std::declval<const T&>())) {
    if (has_value()) return std::forward<F>(f)(value());
    return error();
  }
  /// Applies `f` (T -> U) to the value, or hands the problem on.
  template <typename F> auto transform(F&& f) const& -> Result<decltype(f(std::declval<const T&>()))> {
    if (has_value()) return std::forward<F>(f)(value());
    return error();
  }

private:
  std::variant<T, Problem> state_;
};

/// A success without a value.
struct Done {
  bool operator==(const Done&) const = default;
};

} // namespace mw
