#include "text/shaper.h"

#include <doctest/doctest.h>

#include <algorithm>

using namespace mw;

TEST_CASE("text: the fonts are there, and a family that is not there is a problem of kind missing") {
  CHECK(check_fonts().has_value());
  const auto none = find_font_file("Family That Nobody Drew", false);
  REQUIRE_FALSE(none.has_value());
  CHECK(none.error().kind == ProblemKind::missing);
}

TEST_CASE("text: front a and back script a have different glyphs, plain and bold") {
  for (const bool bold : {false, true}) {
    const auto a = shape_line("a", bold), back = shape_line("\u0251", bold);
    REQUIRE(a->glyphs.size() == 1);
    REQUIRE(back->glyphs.size() == 1);
    CHECK(a->glyphs[0].glyph != back->glyphs[0].glyph);
    CHECK_FALSE(*a->glyphs[0].shape == *back->glyphs[0].shape);
  }
}

TEST_CASE("text: the a is the two-storey one: three contours' worth of turns, not the two of a bowl with a stem") {
  const auto a = shape_line("a", false), back = shape_line("\u0251", false);
  const auto moves = [](const Path& p) {
    return std::count_if(p.steps.begin(), p.steps.end(), [](const auto& s) { return std::holds_alternative<Path::Move>(s); });
  };
  CHECK(moves(*a->glyphs[0].shape) >= 2);
  // the hood of a two-storey a reaches further up over the bowl: more cubics than the single storey
  CHECK(a->glyphs[0].shape->steps.size() > back->glyphs[0].shape->steps.size());
}

TEST_CASE("text: stacked marks sit over one another and add no width") {
  const auto plain = shape_line("e", false), one = shape_line("e\u0303", false), two = shape_line("e\u0303\u0301", false);
  CHECK(one->width == doctest::Approx(plain->width).epsilon(0.02));
  CHECK(two->width == doctest::Approx(plain->width).epsilon(0.02));
  CHECK(one->ink_low.y < plain->ink_low.y); // y down: higher ink
  CHECK(two->ink_low.y < one->ink_low.y - 0.05);
}

TEST_CASE("text: no letter of an IPA line is an empty box") {
  for (const char* line : {"\u02C8\u0261l\u0251\u02D0s \u02C8k\u025Bt\u0259\u026Bz", "t\u0361\u0283 d\u032A n\u0325 \u026C\u02BC \u01C3 \u0298 \u0253",
                           "\u0254\u0303\u02D0 \u025A \u0292\u02B2 k\u02B7 \u0275\u031E", "\u2191\u0301\u030C\u02E5\u02E9"})
    for (const auto& g : shape_line(line, false)->glyphs) CHECK_MESSAGE(g.glyph != 0, line);
}

TEST_CASE("text: lines wrap within the width and keep every word; a cut text ends in an ellipsis and fits") {
  const std::string text = "the kettle mender sang to a puzzled spaniel in the shed";
  std::string again;
  for (const auto& line : wrap_text(text, 14, false, 120)) {
    CHECK(text_width(line, 14, false) <= 120);
    again += (again.empty() ? "" : " ") + line;
  }
  CHECK(again == text);
  const std::string cut = cut_text("Kesselflickermeisterwerkst\u00E4tten", 14, false, 80);
  CHECK(cut.ends_with("\u2026"));
  CHECK(text_width(cut, 14, false) <= 80);
}

TEST_CASE("text: invalid bytes and empty text give an empty line, not a crash") {
  CHECK(shape_line("", false)->glyphs.empty());
  CHECK(shape_line("\xff\xfe", true)->glyphs.empty());
}
