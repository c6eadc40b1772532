#pragma once

#include "base/result.h"
#include "take/take.h"

#include <filesystem>
#include <string>
#include <vector>

namespace mw {

/// One line of a lesson: what is said and how, and what the coach wrote beside it.
struct LessonLine {
  Request request;
  std::string note;
  bool operator==(const LessonLine&) const = default;
};

/// A coach's lesson: one human-readable TOML file.
struct Lesson {
  std::string title;
  std::string note;
  std::string theme = "light"; // light, dark, high
  double slow = 8;             // 1..32
  std::size_t current = 0;     // the line in hand
  std::vector<LessonLine> lines;
  bool operator==(const Lesson&) const = default;
};

/// Problem (input) with file, line and reason: broken TOML, unknown keys, wrong types, values out of range.
Result<Lesson> parse_lesson(std::string_view toml, const std::string& file_name);
/// TOML that parse_lesson reads back to an equal lesson.
std::string write_lesson(const Lesson& lesson);

Result<Lesson> read_lesson(const std::filesystem::path& file);
/// Whole or not at all: written beside the old file and renamed.
Result<Done> save_lesson(const Lesson& lesson, const std::filesystem::path& file);

/// The lesson that the program opens with (assets/lessons/sample.toml).
Result<Lesson> sample_lesson();

} // namespace mw
