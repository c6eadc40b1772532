#include "scene/accent_chart.h"

#include "accent/edit.h"
#include "score/targets.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

using namespace mw;

namespace {

double apart(VowelPlace a, VowelPlace b) { return std::hypot(a.x - b.x, a.y - b.y); }

/// Worst and mean distance between where a vowel was dropped and where it is, over the whole chart.
struct Miss { double worst = 0, mean = 0; };
Miss miss_of(Lips lips) {
  Miss out;
  int n = 0;
  for (int i = 0; i <= 40; ++i)
    for (int j = 0; j <= 40; ++j, ++n) {
      const VowelPlace wanted = with_lips({i / 40.0, j / 40.0, 0}, lips), got = *vowel_place(vowel_at(wanted));
      CHECK(lips_of(got) == lips);
      out.worst = std::max(out.worst, apart(wanted, got)), out.mean += apart(wanted, got);
    }
  out.mean /= n;
  return out;
}

} // namespace

TEST_CASE("accent chart: a dropped vowel is written with a letter that stands there, lips as asked for") {
  for (const Lips lips : {Lips::spread, Lips::half}) {
    const Miss miss = miss_of(lips);
    CHECK(miss.worst <= 0.1);
    CHECK(miss.mean <= 0.04);
  }
  // the chart has no rounded letter in the middle of its lowest third
  const Miss miss = miss_of(Lips::round);
  CHECK(miss.worst <= vowel_grid);
  CHECK(miss.mean <= 0.045);
}

TEST_CASE("accent chart: a vowel dropped where it is stays what it is") {
  int count = 0;
  for (const char* ipa : {"i", "y", "\u026A", "e", "\u00F8", "\u025B", "\u00E6", "a", "\u0251", "\u0252", "\u0254", "o", "u", "\u028A", "\u0289", "\u0259", "\u025C", "\u0250", "\u028C", "e\u031E", "o\u031D", "\u0251\u031F"}) {
    CAPTURE(ipa);
    const Sound vowel = parse_set_value(ipa)->vowel;
    const VowelPlace place = *vowel_place(vowel);
    const Sound again = vowel_at(place);
    CHECK(apart(place, *vowel_place(again)) < 0.01);
    if (vowel.marks.empty()) CHECK(again.letter == vowel.letter);
    ++count;
  }
  CHECK(count > 20);
}

TEST_CASE("accent chart: the tongue goes where the vowel was dropped") {
  const auto anatomy = read_anatomy("adult-male");
  REQUIRE(anatomy.has_value());
  const auto targets = read_targets(**anatomy);
  REQUIRE(targets.has_value());
  // a third of the chart apart must be told apart in the mouth: lower means lower, further back means further back
  int pairs = 0, right = 0;
  const auto pose = [&](double x, double y) { return *pose_of(**anatomy, **targets, vowel_at({x, y, 0})); };
  for (double x = 0; x <= 1.001; x += 0.1)
    for (double y = 0; y <= 0.601; y += 0.1) {
      right += pose(x, y + 0.4).body_y < pose(x, y).body_y || pose(x, y + 0.4).jaw_opening > pose(x, y).jaw_opening + 1;
      ++pairs;
    }
  for (double y = 0; y <= 1.001; y += 0.1)
    for (double x = 0; x <= 0.501; x += 0.1) {
      const Pose front = pose(x, y), back = pose(x + 0.5, y);
      right += back.body_x > front.body_x || back.root > front.root;
      ++pairs;
    }
  MESSAGE(right << " of " << pairs);
  CHECK(right == pairs);
}

TEST_CASE("accent chart: lips are turned from spread to a little rounded to rounded and round again, in the mouth too") {
  const auto anatomy = read_anatomy("adult-male");
  const auto targets = read_targets(**anatomy);
  for (const VowelPlace at : {VowelPlace{0, 0, 0}, VowelPlace{0, 0.6, 0}, VowelPlace{1, 0.3, 0}, VowelPlace{0.5, 0.3, 0}, VowelPlace{1, 1, 0}}) {
    VowelPlace place = at;
    Lips lips = Lips::spread;
    double last = -1;
    for (int i = 0; i < 3; ++i, lips = next(lips)) {
      place = with_lips(place, lips);
      const Sound vowel = vowel_at(place);
      CHECK(lips_of(*vowel_place(vowel)) == lips);
      const double rounding = pose_of(**anatomy, **targets, vowel)->lip_rounding;
      CHECK(rounding > last);
      last = rounding;
    }
    CHECK(lips == Lips::spread);
  }
}

TEST_CASE("accent chart: length and other marks stay with a vowel that is moved; its other end stays where it is") {
  const Sound held = parse_set_value("\u0254\u02D0")->vowel, glide = parse_set_value("\u0259\u028A")->vowel;
  const Sound moved = moved_vowel(held, {1, 1.0 / 3, 1 - 1.0 / 6}, false);
  CHECK(moved.letter == "o");
  CHECK(std::find(moved.marks.begin(), moved.marks.end(), "\u02D0") != moved.marks.end());
  const Sound start = moved_vowel(glide, {1, 1.0 / 3, 1 - 1.0 / 6}, false), end = moved_vowel(glide, {0, 0, 0}, true);
  CHECK(start == parse_set_value("o\u028A")->vowel);
  CHECK(end == parse_set_value("\u0259i")->vowel);
}

TEST_CASE("accent chart: every value that a drag can give can be written and read again") {
  const Accent start = *read_accent("SSBE");
  for (const LexicalSet set : {LexicalSet::GOAT, LexicalSet::NURSE, LexicalSet::KIT})
    for (int i = 0; i <= 20; ++i)
      for (int j = 0; j <= 20; ++j) {
        const Accent edited = with_vowel(start, set, moved_vowel(start.of(set).vowel, with_lips({i / 20.0, j / 20.0, 0}, static_cast<Lips>((i + j) % 3)), set == LexicalSet::GOAT && i % 2 == 0));
        const auto again = parse_set_value(edited.of(set).ipa);
        REQUIRE_MESSAGE(again.has_value(), edited.of(set).ipa);
        CHECK(again->vowel == edited.of(set).vowel);
      }
}

TEST_CASE("accent chart: a set dropped on another of its kind becomes one with it, with other lips it does not") {
  const Accent accent = *read_accent("SSBE");
  const Sound foot = accent.of(LexicalSet::FOOT).vowel;
  CHECK(set_under(accent, LexicalSet::STRUT, foot, 0.03) == LexicalSet::FOOT);
  CHECK_FALSE(set_under(accent, LexicalSet::STRUT, parse_set_value("\u0258")->vowel, 0.03)); // the same place, lips spread
  CHECK_FALSE(set_under(accent, LexicalSet::STRUT, parse_set_value("\u0275i")->vowel, 0.03)); // glides
  CHECK_FALSE(set_under(accent, LexicalSet::FOOT, foot, 0.001) == LexicalSet::FOOT);         // never itself
}

TEST_CASE("accent chart: merged sets are one point with both names, apart they are two; the start accent shows where it differs") {
  const Accent start = *read_accent("SSBE");
  const auto rows = [&](const Accent& accent) {
    AccentChartView view;
    view.rect = {0, 0, 690, 560};
    view.accent = &accent, view.start = &start;
    view.shown = {LexicalSet::FOOT, LexicalSet::STRUT, LexicalSet::KIT};
    std::vector<std::string> out;
    int diamonds = 0;
    for (const Mark& mark : compose_accent_chart(view).marks)
      if (const auto* text = std::get_if<Text>(&mark)) {
        if (text->mark.role == "set-label") out.push_back(text->mark.id);
      } else if (const auto* stroke = std::get_if<Stroke>(&mark)) diamonds += stroke->mark.role == "set" && stroke->colour == light_theme().edge;
    out.push_back(std::to_string(diamonds));
    return out;
  };
  CHECK(rows(start) == std::vector<std::string>{"FOOT", "STRUT", "KIT", "0"});
  CHECK(rows(with_merged(start, LexicalSet::STRUT, LexicalSet::FOOT)) == std::vector<std::string>{"FOOT, STRUT", "KIT", "1"});
}

TEST_CASE("accent chart: labels of whole accents do not cover each other") {
  const auto list = list_accents();
  for (const AccentName& row : *list) {
    CAPTURE(row.id);
    const Accent accent = *read_accent(row.id);
    AccentChartView view;
    view.rect = {0, 0, 690, 560};
    view.accent = &accent;
    for (int i = 0; i < lexical_set_count; ++i) view.shown.push_back(static_cast<LexicalSet>(i));
    view.in_hand = LexicalSet::GOAT;
    const auto chart = compose_accent_chart(view);
    std::vector<Vec2> at;
    for (const Mark& mark : chart.marks)
      if (const auto* text = std::get_if<Text>(&mark); text && text->mark.role == "set-label") at.push_back(text->at);
    CHECK(at.size() > 8);
    for (std::size_t a = 0; a < at.size(); ++a)
      for (std::size_t b = 0; b < a; ++b) CHECK((std::abs(at[a].y - at[b].y) > 11 || std::abs(at[a].x - at[b].x) > 20));
  }
}

TEST_CASE("accent chart: the place of a vowel is told in plain words, its marks too") {
  CHECK(place_words(parse_set_value("o\u031E")->vowel) == "at o, a little lower");
  CHECK(place_words(parse_set_value("o\u031E\u028A")->vowel, true) == "at \u028A");
  CHECK(place_words(parse_set_value("\u0251\u031F\u02D0")->vowel) == "at \u0251, further forward");
}
