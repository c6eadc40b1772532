#include "scene/describe.h"
#include "scene/sheet.h"
#include "support/scene_take.h"

#include "ipa/inventory.h"
#include "text/shaper.h"

#include <functional>
#include <set>

using namespace mw;

namespace {

void each_mark(const std::vector<Mark>& marks, const std::function<void(const Mark&)>& f) {
  for (const Mark& m : marks) {
    f(m);
    if (const auto* g = std::get_if<Group>(&m)) each_mark(g->marks, f);
  }
}

std::vector<Text> texts(const Scene& scene) {
  std::vector<Text> out;
  each_mark(scene.marks, [&](const Mark& m) { if (const auto* t = std::get_if<Text>(&m)) out.push_back(*t); });
  return out;
}

Take with_clash(const char* ipa) {
  Take take = take_of_ipa(ipa);
  Clash c;
  c.kind = ClashKind::tug;
  c.level = 2;
  c.start_s = take.track.segments[1].start_s, c.end_s = c.start_s + 0.05;
  c.articulators = {Articulator::body};
  c.segments = {0, 1};
  c.text = "One sound holds the back of the tongue down and back while the next one calls it up and forward, and both pull for a while.";
  c.feel = "Hold the first sound; let only the back of the tongue go, then close the rest.";
  take.clashes = {c, c};
  return take;
}

} // namespace

TEST_CASE("sheet: the whole of Feel it and the caution are on the page, inside its margins, on every paper") {
  const Take take = with_clash("\u02C8\u0261l\u0251\u02D0s \u02C8k\u025Bt\u0259\u026Bz \u02C8b\u0279\u0251\u02D0s");
  Tracer tracer(take.anatomy);
  for (const Paper paper : {Paper::a4, Paper::letter, Paper::a3}) {
    const auto pages = compose_sheet(take, tracer, {nullptr, paper, ""});
    REQUIRE(pages.size() == 1);
    const Vec2 size = paper_size(paper);
    CHECK(pages[0].width == size.x);
    const double k = paper == Paper::a3 ? size.x / 595.28 : 1;
    std::string all;
    for (const Text& t : texts(pages[0])) {
      all += t.text + " ";
      CHECK(t.at.y * k < size.y - 10);
      const double w = text_width(t.text, t.size, t.bold), left = t.at.x - (t.anchor == Anchor::start ? 0 : t.anchor == Anchor::middle ? w / 2 : w);
      CHECK_MESSAGE(left * k > 20, t.text);
      CHECK_MESSAGE((left + w) * k < size.x - 20, t.text);
    }
    for (const char* word : {"first", "sound;", "then", "rest.", "doctor.", "medical"}) CHECK_MESSAGE(all.find(word) != std::string::npos, word);
  }
}

TEST_CASE("sheet: long phrases run on to further pages, and no sound of the score is lost") {
  std::string ipa;
  for (int i = 0; i < 14; ++i) ipa += "\u02C8k\u025Bt\u0259\u026Bz ";
  const Take take = take_of_ipa(ipa);
  Tracer tracer(take.anatomy);
  std::size_t sounds = 0;
  const auto pages = compose_sheet(take, tracer, {});
  CHECK(pages.size() >= 2);
  for (const Scene& page : pages)
    for (const Text& t : texts(page)) sounds += t.mark.role == "sound" && t.size < 15;
  CHECK(sounds == take.track.segments.size());
}

TEST_CASE("sheet: nothing of the practice part touches the caution, with a title of two lines too") {
  for (const char* ipa : {"\u02C8k\u025Bt\u0259\u026Bz", "\u02C8k\u025Bt\u0259\u026Bz \u02C8k\u025Bt\u0259\u026Bz \u02C8k\u025Bt\u0259\u026Bz \u02C8k\u025Bt\u0259\u026Bz \u02C8k\u025Bt\u0259\u026Bz \u02C8k\u025Bt\u0259\u026Bz \u02C8k\u025Bt\u0259\u026Bz \u02C8k\u025Bt\u0259\u026Bz"})
    for (const Paper paper : {Paper::a4, Paper::letter}) {
      const Take take = with_clash(ipa);
      Tracer tracer(take.anatomy);
      double caution = 0, above = 0;
      for (const Text& t : texts(compose_sheet(take, tracer, {nullptr, paper, ""})[0])) {
        if (t.mark.role == "caution") caution = t.at.y;
        else above = std::max(above, t.at.y);
      }
      CHECK(above + 8 < caution);
    }
}

TEST_CASE("sheet: in print nothing is told by colour: every colour is a grey, clashes are hatched, flags have pips") {
  const Take take = with_clash("\u02C8\u0261l\u0251\u02D0s \u02C8k\u025Bt\u0259\u026Bz");
  Tracer tracer(take.anatomy);
  std::size_t hatches = 0, pips = 0;
  const auto grey = [](Colour c) { return c.r == c.g && c.g == c.b; };
  each_mark(compose_sheet(take, tracer, {})[0].marks, [&](const Mark& m) {
    if (const auto* f = std::get_if<Fill>(&m)) {
      if (const auto* c = std::get_if<Colour>(&f->paint)) CHECK(grey(*c));
      if (const auto* h = std::get_if<Hatch>(&f->paint)) {
        hatches += f->mark.role == "clash";
        CHECK(grey(h->ground));
      }
      pips += f->mark.role == "flag-pip";
    } else if (const auto* s = std::get_if<Stroke>(&m)) CHECK(grey(s->colour));
  });
  CHECK(hatches >= 3);
  CHECK(pips >= 4);
}

TEST_CASE("words of a sound: every letter of the inventory has some") {
  for (const Letter& letter : letters()) {
    CHECK_MESSAGE(!describe_sound(Sound{letter.ipa}).what.empty(), letter.ipa);
  }
  CHECK(describe_sound(*parse_sound("k", Notation::ipa)).what == "back closes");
  CHECK(describe_sound(*parse_sound("b", Notation::ipa)).what == "lips close");
  CHECK(describe_sound(*parse_sound("i", Notation::ipa)).what == "tongue high and forward");
  CHECK(describe_sound(*parse_sound("a\u026A", Notation::ipa)).what == "tongue glides up");
}

TEST_CASE("respelling: stressed syllables in capitals, English letters") {
  const Take take = take_of_ipa("\u02C8k\u025Bt\u0259\u026Bz");
  CHECK(respell(take.pronunciation.words[0]).substr(0, 2) == "KE");
  CHECK(respell(take.pronunciation.words[0]).ends_with("uhlz"));
}

TEST_CASE("wall chart: every letter is there, each mouth once, and a part is the same drawing enlarged") {
  const auto anatomy = *read_anatomy("adult-male");
  const auto targets = *read_targets(*anatomy);
  Tracer tracer(anatomy);
  WallChartView view;
  const Scene all = compose_wall_chart(tracer, *targets, view);
  std::set<std::string> letters_shown;
  std::size_t windows = 0;
  each_mark(all.marks, [&](const Mark& m) {
    if (const auto* t = std::get_if<Text>(&m); t && t->mark.role == "letter") letters_shown.insert(t->text);
    if (const auto* g = std::get_if<Group>(&m)) windows += g->mark.role == "window";
  });
  for (const char* ipa : {"p", "\u0261", "\u0295", "\u026E", "\u029F", "\u0298", "\u029B", "s\u02BC", "\u0267", "\u0252", "\u0276", "\u025E"}) CHECK_MESSAGE(letters_shown.contains(ipa), ipa);
  CHECK(windows == 41 + 14 + 7 + 16); // consonant cells, other airstreams, other symbols, vowel places
  view.part = ChartPart::vowels;
  const Scene part = compose_wall_chart(tracer, *targets, view);
  CHECK(std::get<Group>(part.marks[0]).a > 1.5 * std::get<Group>(all.marks[0]).a);
}
