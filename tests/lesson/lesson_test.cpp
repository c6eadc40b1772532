#include "lesson/lesson.h"

#include "base/assets.h"

#include <doctest/doctest.h>
#include <random>

using namespace mw;

namespace {
Lesson rehearsal() {
  Lesson lesson{.title = "Act \"two\"", .note = "mind the\nkettle", .theme = "dark", .slow = 4, .current = 1, .lines = {}};
  lesson.lines.push_back({{.phrase = "Mend it.", .accent = "SSBE", .rate = 3.25, .corrections = {{"mend", "/m\u025bnd/"}}}, "slowly"});
  lesson.lines.push_back({{.phrase = "'kEt@l", .notation = Notation::xsampa, .loop = true}, ""});
  return lesson;
}
} // namespace

TEST_CASE("lesson: what is written is read back equal") {
  const auto back = parse_lesson(write_lesson(rehearsal()), "t");
  REQUIRE_MESSAGE(back.has_value(), (back ? "" : back.error().what));
  CHECK(*back == rehearsal());
}

TEST_CASE("lesson: the sample lesson reads and has three lines to take") {
  const auto sample = sample_lesson();
  REQUIRE(sample.has_value());
  CHECK(sample->lines.size() == 3);
}

TEST_CASE("lesson: a wrong type, an unknown key, a value out of range and broken TOML name file and line") {
  struct Case { const char* toml; const char* where; };
  for (const Case& c : {Case{"title = 3", "f line 1"}, Case{"title = \"x\"\nslow = 99", "f line 2"}, Case{"colour = 1", "f line 1"},
                        Case{"[[line]]\nphrase = \"a\"\nspeed = 2", "f line 3"}, Case{"title = \"x", "f line 1"},
                        Case{"line = 4", "f line 1"}, Case{"[[line]]\nanatomy = \"giant\"", "f line 2"}}) {
    const auto read = parse_lesson(c.toml, "f");
    REQUIRE_MESSAGE(!read.has_value(), c.toml);
    CHECK(read.error().where == c.where);
    CHECK(read.error().kind == ProblemKind::input);
  }
}

TEST_CASE("lesson: a truncated or scrambled file is a problem or a lesson, never a crash") {
  const std::string good = write_lesson(rehearsal());
  std::mt19937 random(3);
  for (int i = 0; i < 500; ++i) {
    std::string bad = good.substr(0, random() % (good.size() + 1));
    if (!bad.empty() && i % 2 == 0) bad[random() % bad.size()] = static_cast<char>(random() % 256);
    const auto read = parse_lesson(bad, "f");
    CHECK((read.has_value() || !read.error().what.empty()));
  }
}

TEST_CASE("lesson: saving replaces the old file whole") {
  const auto file = std::filesystem::temp_directory_path() / "mouthwright-lesson-test.toml";
  CHECK(save_lesson(rehearsal(), file).has_value());
  CHECK(*read_lesson(file) == rehearsal());
  std::filesystem::remove(file);
}
