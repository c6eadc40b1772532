#include "base/assets.h"
#include "base/text.h"

#include <doctest/doctest.h>

using namespace mw;

TEST_CASE("text: numbers have a point, no trailing zeros and no minus zero") {
  CHECK(to_text(1.5) == "1.5");
  CHECK(to_text(-0.0001, 3) == "0");
  CHECK(to_text(1234567.0, 2) == "1234567");
  CHECK(to_text(0.1 + 0.2, 3) == "0.3");
}

TEST_CASE("text: parse_number refuses leftovers") {
  CHECK(parse_number("2.5") == 2.5);
  CHECK_FALSE(parse_number("2.5x").has_value());
  CHECK_FALSE(parse_number("").has_value());
  CHECK_FALSE(parse_number("nan").has_value());
}

TEST_CASE("text: invalid UTF-8 is a problem that says where") {
  const auto bad = decode_utf8("ab\xff");
  REQUIRE_FALSE(bad.has_value());
  CHECK(bad.error().span == Span{2, 3});
}

TEST_CASE("text: decoding and encoding are inverse, normal forms meet") {
  const std::string word = "t\u0361\u0283\u00e3";
  CHECK(encode_utf8(*decode_utf8(word)) == word);
  CHECK(to_nfd("\u00e3") == "a\u0303");
  CHECK(to_nfc("a\u0303") == "\u00e3");
  // letters of the IPA alone, and with what may join or part them
  for (const char* text : {"k\u025bt", "\u0283\u0294", "\u0261\u02d0"}) CHECK((to_nfc(text) == text && to_nfd(text) == text));
  CHECK(to_nfc("\u025b\u0303") == "\u025b\u0303");
  CHECK(to_nfd("\u025b\u00e3") == "\u025ba\u0303");
  CHECK(to_nfc("\u025ba\u0303") == "\u025b\u00e3");
}

TEST_CASE("csv: quotes, commas and line ends; ragged rows are refused with their line") {
  const auto table = parse_csv("a,b\n\"x, \"\"y\"\"\",2\r\n3,4\n", "t");
  REQUIRE(table.has_value());
  CHECK(table->rows.size() == 2);
  CHECK(table->rows[0][0] == "x, \"y\"");
  const auto bad = parse_csv("a,b\n1,2\n1\n", "t.csv");
  REQUIRE_FALSE(bad.has_value());
  CHECK(bad.error().where == "t.csv line 3");
}

TEST_CASE("write_file: refuses an existing target, and a folder that is not there") {
  const auto file = std::filesystem::temp_directory_path() / "mouthwright-write-test";
  std::filesystem::remove(file);
  CHECK(write_file(file, "one", false).has_value());
  const auto again = write_file(file, "two", false);
  REQUIRE_FALSE(again.has_value());
  CHECK(again.error().kind == ProblemKind::output);
  CHECK(*read_file(file) == "one");
  CHECK(write_file(file, "two", true).has_value());
  CHECK(*read_file(file) == "two");
  std::filesystem::remove(file);
  CHECK_FALSE(write_file("/nonexistent-folder/x", "y", false).has_value());
}
