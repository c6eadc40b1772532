#include "scene/mouth.h"
#include "scene/placer.h"
#include "scene/stage.h"
#include "support/scene_take.h"

#include "base/curve.h"

#include <algorithm>
#include <cmath>
#include <functional>

using namespace mw;

namespace {

void each_mark(const std::vector<Mark>& marks, const std::function<void(const Mark&)>& f) {
  for (const Mark& m : marks) {
    f(m);
    if (const auto* g = std::get_if<Group>(&m)) each_mark(g->marks, f);
  }
}

bool finite(const Path& path) {
  const auto [low, high] = bounds(path);
  return std::isfinite(low.x) && std::isfinite(low.y) && std::isfinite(high.x) && std::isfinite(high.y);
}

Clash tug(const Take& take, std::size_t a, std::size_t b, Articulator part, int level) {
  Clash c;
  c.kind = ClashKind::tug;
  c.level = level;
  c.start_s = take.track.segments[a].end_s - 0.03;
  c.end_s = take.track.segments[b].start_s + 0.03;
  c.articulators = {part};
  c.segments = {a, b};
  c.text = "Two moves pull.";
  c.feel = "Let the back go.";
  return c;
}

} // namespace

TEST_CASE("mouth: every sound is drawn on every speaker with finite marks, tongue and head included") {
  // the poses of the adult male: other heads must take them too, if only as a strained pose
  const auto targets = *read_targets(**read_anatomy("adult-male"));
  for (const std::string& id : anatomy_ids()) {
    const auto anatomy = *read_anatomy(id);
    Tracer tracer(anatomy);
    for (const auto* table : {&targets->consonants, &targets->vowels})
      for (const Target& row : *table) {
        INFO(id, " ", row.symbol);
        MouthView view;
        view.rect = {0, 0, 400, 400};
        view.air = AirMarks{};
        view.clash = ClashBand{};
        const MouthPicture m = compose_mouth(tracer.trace(row.pose), row.pose, *anatomy, view);
        bool tongue = false, head = false, all_finite = true;
        each_mark(m.group.marks, [&](const Mark& mark) {
          if (const auto* f = std::get_if<Fill>(&mark)) {
            tongue = tongue || f->mark.role == "tongue", head = head || f->mark.role == "head";
            all_finite = all_finite && finite(f->path);
          } else if (const auto* s = std::get_if<Stroke>(&mark)) all_finite = all_finite && finite(s->path);
        });
        CHECK(tongue);
        CHECK(head);
        CHECK(all_finite);
        CHECK(m.section.neck_x > m.section.upper_tooth.front().x); // the neck is behind the teeth
      }
  }
}

TEST_CASE("mouth: the whole paper lies within the full framing of each speaker") {
  for (const std::string& id : anatomy_ids()) {
    INFO(id);
    const auto anatomy = *read_anatomy(id);
    const MmBox box = framing(*anatomy, Framing::full);
    const Section s = section_of(*anatomy, trace(anatomy, anatomy->rest), anatomy->rest);
    for (const Vec2 p : s.head) {
      CHECK(p.x > box.x0);
      CHECK(p.x < box.x1);
      CHECK(p.y > box.y0);
      CHECK(p.y < box.y1);
    }
  }
}

TEST_CASE("mouth: mirrored, a point lies at the mirror image within the same rectangle") {
  const MmBox box{-40, 100, -100, 60};
  const Rect rect{10, 20, 300, 300};
  const MouthFrame plain = fit_mouth(box, rect, false), turned = fit_mouth(box, rect, true);
  for (const Vec2 p : {Vec2{-40, 0}, Vec2{0, 0}, Vec2{100, 60}}) {
    CHECK(plain(p).x + turned(p).x == doctest::Approx(2 * rect.centre().x));
    CHECK(plain(p).y == turned(p).y);
  }
}

TEST_CASE("mouth: air stands still before a closure, goes through the nose for n, and curls for s only") {
  const auto anatomy = *read_anatomy("adult-male");
  const auto targets = *read_targets(*anatomy);
  Tracer tracer(anatomy);
  const auto count = [&](const char* symbol, const char* role) {
    const Pose pose = targets->consonant(symbol)->pose;
    const auto sound = *parse_sound(symbol, Notation::ipa);
    StageView view;
    view.rect = {0, 0, 600, 600};
    view.shelf = view.sound_now = false;
    int n = 0;
    each_mark(compose_pose_stage(tracer, pose, &sound, view).group.marks, [&](const Mark& m) {
      if (const auto* s = std::get_if<Stroke>(&m)) n += s->mark.role == role;
      if (const auto* f = std::get_if<Fill>(&m)) n += f->mark.role == role;
    });
    return n;
  };
  CHECK(count("k", "air-arrow") == 0);
  CHECK(count("k", "pressure") > 20);
  CHECK(count("n", "air-arrow") > 8);
  CHECK(count("n", "pressure") == 0);
  CHECK(count("s", "turbulence") == 7);
  CHECK(count("l", "turbulence") == 0);
  CHECK(count("l", "air-arrow") > 0);
  CHECK(count("z", "voice") == 3);
  CHECK(count("s", "voice") == 0);
}

TEST_CASE("mouth: the clash band lies inside the tongue and its hatch tells the level") {
  const auto anatomy = *read_anatomy("adult-male");
  Tracer tracer(anatomy);
  const Pose pose = anatomy->rest;
  for (int level = 1; level <= 3; ++level) {
    MouthView view;
    view.rect = {0, 0, 500, 500};
    view.clash = ClashBand{Articulator::body, level, 8.5, 1};
    const MouthPicture m = compose_mouth(tracer.trace(pose), pose, *anatomy, view);
    REQUIRE(m.band_outer.size() > 20);
    std::size_t inside = 0;
    for (std::size_t i = 8; i + 8 < m.band_inner.size(); ++i) inside += contains(m.section.tongue, m.band_inner[i]);
    CHECK(inside + 16 >= m.band_inner.size());
    bool found = false;
    each_mark(m.group.marks, [&](const Mark& mark) {
      if (const auto* f = std::get_if<Fill>(&mark); f && f->mark.role == "clash")
        if (const auto* h = std::get_if<Hatch>(&f->paint)) found = h->crossed == (level == 3) && h->broken == (level == 1);
    });
    CHECK(found);
  }
}

TEST_CASE("placer: arrows and tags of tugs on the tongue cover no tooth and not each other, plain and mirrored") {
  Take take = take_of_ipa("\u02C8\u0261l\u0251\u02D0s \u02C8k\u025Bt\u0259\u026Bz \u02C8b\u0279\u0251\u02D0s");
  take.clashes = {tug(take, 3, 4, Articulator::body, 3), tug(take, 8, 9, Articulator::body, 2), tug(take, 6, 8, Articulator::tip, 1)};
  Tracer tracer(take.anatomy);
  for (const bool mirrored : {false, true})
    for (std::size_t i = 0; i < take.clashes.size(); ++i) {
      StageView view;
      view.rect = {0, 0, 540, 590};
      view.lit = Lit{i, 1};
      view.mirrored = mirrored;
      const double t = 0.5 * (take.clashes[i].start_s + take.clashes[i].end_s);
      const StagePicture p = compose_stage(take, tracer, t, view);
      REQUIRE(p.tags.size() == 2);
      INFO(i, " ", mirrored);
      const Rect &a = p.tags[0], &b = p.tags[1];
      CHECK_FALSE((a.x < b.right() && b.x < a.right() && a.y < b.bottom() && b.y < a.bottom()));
      for (const Rect& tag : p.tags) {
        CHECK(tag.x >= 0);
        CHECK(tag.right() <= 540);
        std::size_t teeth = 0;
        for (const Polyline* tooth : {&p.mouth.section.upper_tooth, &p.mouth.section.lower_tooth})
          for (const Vec2 q : *tooth) {
            const Vec2 at = p.mouth.frame(q);
            teeth += at.x > tag.x && at.x < tag.right() && at.y > tag.y && at.y < tag.bottom();
          }
        CHECK(teeth == 0);
      }
    }
}

TEST_CASE("placer: s pulls the back forward of where k wants it") {
  const Take take = take_of_ipa("\u02C8\u0251\u02D0sk\u0251");
  Tracer tracer(take.anatomy);
  const auto pulls = pulls_of(tracer, *take.targets, pose_at(take.motion, take.track.segments[1].end_s), Articulator::body, take.track.segments[1].sound, take.track.segments[2].sound);
  CHECK(pulls[0].y < pulls[1].y); // k: up
}

TEST_CASE("placer: heights are spread to the gap and keep their order") {
  const auto y = spread_apart({10, 11, 12, 50, 49}, 8);
  CHECK(y[1] - y[0] >= 8 - 1e-3);
  CHECK(y[2] - y[1] >= 8 - 1e-3);
  CHECK(y[3] - y[4] >= 8 - 1e-3);
}

TEST_CASE("lit: a clash fades on, stays at least 350 ms of wall time, and no part goes off and on within a second") {
  Take take = take_of_ipa("\u02C8\u0261l\u0251\u02D0s \u02C8k\u025Bt\u0259\u026Bz \u02C8b\u0279\u0251\u02D0s \u02C8l\u025Bd\u0259\u026Bz");
  take.clashes = {tug(take, 3, 4, Articulator::body, 3), tug(take, 8, 9, Articulator::body, 2), tug(take, 14, 15, Articulator::body, 2)};
  for (const double slow : {1.0, 4.0}) {
    double last_off = -10, on_since = -10;
    bool on = false;
    for (double wall = 0; wall < take.duration_s * slow + 2; wall += 0.005) {
      const auto lit = lit_clash(take, wall / slow, slow);
      const bool now = lit.has_value();
      if (now && !on) CHECK(wall - last_off >= 1.0 - 0.26);
      if (now && !on) on_since = wall;
      if (!now && on) CHECK(wall - on_since >= 0.35);
      if (!now && on) last_off = wall;
      on = now;
    }
  }
}
