#include "scene/frame.h"
#include "scene/score_panel.h"
#include "scene/vowel_chart.h"
#include "support/scene_take.h"

#include "base/text.h"

#include <cmath>
#include <functional>
#include <set>

using namespace mw;

namespace {

const char* phrase = "\u02C8\u0261l\u0251\u02D0s \u02C8k\u025Bt\u0259\u026Bz \u02C8b\u0279\u0251\u02D0s \u02C8l\u025B\u026Ad\u0259\u026Bz";

void each_mark(const std::vector<Mark>& marks, const std::function<void(const Mark&)>& f) {
  for (const Mark& m : marks) {
    f(m);
    if (const auto* g = std::get_if<Group>(&m)) each_mark(g->marks, f);
  }
}

std::vector<Text> texts(const std::vector<Mark>& marks) {
  std::vector<Text> out;
  each_mark(marks, [&](const Mark& m) { if (const auto* t = std::get_if<Text>(&m)) out.push_back(*t); });
  return out;
}

} // namespace

TEST_CASE("score panel: every sound stands in its slot, in order, and the time axis turns back") {
  const Take take = take_of_ipa(phrase);
  ScoreView view;
  view.rect = {560, 97, 700, 272};
  view.time = take.track.segments[4].start_s + 0.01;
  const ScorePicture p = compose_score_panel(take, view);
  REQUIRE(p.sounds.size() == take.track.segments.size());
  for (std::size_t i = 0; i < p.sounds.size(); ++i) {
    CHECK(p.sounds[i].first == i);
    CHECK(p.sounds[i].second.x == doctest::Approx(p.x_of(take.track.segments[i].start_s)));
    if (i) CHECK(p.sounds[i].second.x >= p.sounds[i - 1].second.right() - 1e-6);
  }
  CHECK(p.time_of(p.x_of(0.77)) == doctest::Approx(0.77));
  CHECK(p.words.size() == 4);
}

TEST_CASE("score panel: lanes show intent and outcome, and print carries the articulator by hatch and word") {
  const Take take = take_of_ipa(phrase);
  ScoreView view;
  view.rect = {0, 0, 700, 272};
  view.theme = &print_theme();
  std::set<std::string> traces, lanes, hatched;
  each_mark(compose_score_panel(take, view).group.marks, [&](const Mark& m) {
    if (const auto* s = std::get_if<Stroke>(&m); s && s->mark.role == "movement") traces.insert(s->mark.id);
    if (const auto* t = std::get_if<Text>(&m); t && t->mark.role == "lane-name") lanes.insert(t->text);
    if (const auto* f = std::get_if<Fill>(&m); f && f->mark.role == "gesture" && std::holds_alternative<Hatch>(f->paint)) hatched.insert(f->mark.id);
  });
  CHECK(traces.size() == 7);
  CHECK(lanes == std::set<std::string>{"lips", "tip", "back", "root", "soft palate", "jaw", "voice box"});
  CHECK(hatched.contains("tip"));
  CHECK(hatched.contains("body"));
}

TEST_CASE("score panel: flags closer than 22 u fold into one that counts the others") {
  Take take = take_of_ipa(phrase);
  Clash c;
  c.articulators = {Articulator::tip};
  c.segments = {3, 4};
  c.start_s = 0.6, c.end_s = 0.62;
  take.clashes = {c, c, c};
  ScoreView view;
  view.rect = {0, 0, 700, 272};
  const ScorePicture p = compose_score_panel(take, view);
  CHECK(p.flags.size() == 1);
  bool counted = false;
  for (const Text& t : texts(p.group.marks)) counted = counted || t.text == "+2";
  CHECK(counted);
}

TEST_CASE("pages: cover all sounds in order, none longer than asked, ends at words where there is one near") {
  const Take take = take_of_ipa("k\u025Bt k\u025Bt k\u025Bt k\u025Bt k\u025Bt k\u025Bt k\u025Bt k\u025Bt k\u025Bt k\u025Bt k\u025Bt k\u025Bt k\u025Bt k\u025Bt");
  for (const std::size_t most : {5u, 10u, 24u, 100u}) {
    std::size_t next = 0;
    for (const Page& page : pages_of(take, most)) {
      CHECK(page.first == next);
      CHECK(page.last - page.first + 1 <= most);
      next = page.last + 1;
      if (next < take.track.segments.size()) CHECK(take.track.segments[page.last].word != take.track.segments[next].word);
    }
    CHECK(next == take.track.segments.size());
  }
}

TEST_CASE("bars: each has its own word, as the difficulty has it") {
  Difficulty d;
  d.bar_words = {"easy", "moderate", "demanding", "very demanding"};
  d.bar_lengths = {0.1, 0.4, 0.6, 0.9};
  std::vector<std::string> words;
  for (const Text& text : texts(compose_bars(d, print_theme(), {0, 0, 400, 100}, 1).marks))
    if (text.mark.role == "bar-word") words.push_back(text.text);
  CHECK(words == std::vector<std::string>(d.bar_words.begin(), d.bar_words.end()));
}

TEST_CASE("vowel chart: letters lie where the IPA chart has them, and marks move them the right way") {
  const auto place = [](const char* ipa, bool end = false) { return *vowel_place(*parse_sound(ipa, Notation::ipa), end); };
  CHECK(place("i").x == 0);
  CHECK(place("i").y == 0);
  CHECK(place("\u0251").x == 1);
  CHECK(place("\u0251").y == 1);
  CHECK(place("u").rounding > 0.5);
  CHECK(place("i").rounding == 0);
  CHECK(place("e\u031E").y > place("e").y);
  CHECK(place("u\u0308").x < place("u").x);
  CHECK(place("a\u026A", true).y < place("a\u026A").y);
  CHECK_FALSE(vowel_place(*parse_sound("k", Notation::ipa)).has_value());
}

TEST_CASE("vowel chart: the tongue of a table vowel stands at that vowel") {
  const auto anatomy = *read_anatomy("adult-male");
  const auto targets = *read_targets(*anatomy);
  for (const char* symbol : {"i", "a", "u", "\u0251", "\u025B"}) {
    const auto now = tongue_place(*targets, targets->vowel(symbol)->pose), row = vowel_place({symbol});
    REQUIRE(now.has_value());
    CHECK(std::hypot(now->x - row->x, now->y - row->y) < 0.12);
  }
}

TEST_CASE("frame: any size from 64 x 64 gives a picture, and words are left out where they could not be read") {
  const Take take = take_of_ipa(phrase);
  Tracer tracer(take.anatomy);
  for (const auto& [w, h] : {std::pair{64.0, 64.0}, {64.0, 2000.0}, {2000.0, 64.0}, {320.0, 240.0}, {1280.0, 720.0}, {720.0, 1280.0}, {8192.0, 8192.0}}) {
    INFO(w, " ", h);
    FrameView view;
    view.width = w, view.height = h;
    const Scene scene = compose_frame(take, tracer, 0.5, view);
    CHECK(scene.width == w);
    CHECK(scene.marks.size() >= 1);
    for (const Text& t : texts(scene.marks)) {
      CHECK(t.size >= 5);
      CHECK(t.at.y <= h + 1);
    }
  }
}

TEST_CASE("frame: captions off leaves the mouth alone; transparent has no ground") {
  const Take take = take_of_ipa(phrase);
  Tracer tracer(take.anatomy);
  FrameView view;
  view.captions = false;
  CHECK(texts(compose_frame(take, tracer, take.track.segments[2].start_s + 0.03, view).marks).empty());
  view.captions = true;
  view.transparent = true;
  const Scene scene = compose_frame(take, tracer, 0.5, view);
  CHECK(scene.ground.a == 0);
  each_mark(scene.marks, [](const Mark& m) { if (const auto* f = std::get_if<Fill>(&m)) CHECK(f->mark.role != "ground"); });
}

TEST_CASE("frame: the sound now is told by its letter in a box, at every sound") {
  const Take take = take_of_ipa(phrase);
  Tracer tracer(take.anatomy);
  for (std::size_t i = 0; i < take.track.segments.size(); i += 3) {
    const double t = 0.5 * (take.track.segments[i].start_s + take.track.segments[i].end_s);
    FrameView view;
    bool found = false;
    for (const Text& text : texts(compose_frame(take, tracer, t, view).marks)) found = found || (text.mark.role == "sound" && text.bold && text.text == ipa_of(take, i));
    CHECK(found);
  }
}

TEST_CASE("frame: the same moment gives the same scene, whatever was drawn before") {
  const Take take = take_of_ipa(phrase);
  Tracer one(take.anatomy), two(take.anatomy);
  FrameView view;
  compose_frame(take, two, 1.1, view);
  compose_frame(take, two, 0.2, view);
  CHECK(dump(compose_frame(take, one, 0.6, view)) == dump(compose_frame(take, two, 0.6, view)));
}

TEST_CASE("strip: one cell for each segment, all within the picture") {
  const Take take = take_of_ipa(phrase);
  Tracer tracer(take.anatomy);
  for (const auto& [w, h] : {std::pair{1800.0, 470.0}, {600.0, 1200.0}, {300.0, 200.0}}) {
    StripView view;
    view.width = w, view.height = h;
    const Scene scene = compose_strip(take, tracer, view);
    std::size_t cells = 0;
    for (const Mark& m : scene.marks)
      if (const auto* g = std::get_if<Group>(&m); g && g->mark.role == "cell") {
        ++cells;
        const auto [low, high] = bounds(*g->clip);
        CHECK(low.x >= 0);
        CHECK(high.x <= w + 1e-6);
        CHECK(high.y <= h);
      }
    CHECK(cells == take.track.segments.size());
  }
}

TEST_CASE("empty take: every composition still draws") {
  const Take take = [] {
    Take t = take_of_ipa("\u0251");
    t.track.segments.clear();
    t.pronunciation.words.clear();
    t.score.gestures.clear();
    t.clashes.clear();
    return t;
  }();
  Tracer tracer(take.anatomy);
  CHECK(compose_frame(take, tracer, 0.1, {}).marks.size() > 0);
  CHECK(compose_strip(take, tracer, {}).marks.size() > 0);
  ScoreView view;
  view.rect = {0, 0, 600, 200};
  CHECK(compose_score_panel(take, view).sounds.empty());
}
