#include "scene/frame.h"
#include "scene/mouth_slip.h"
#include "scene/stage.h"
#include "support/scene_take.h"

#include "base/curve.h"
#include "text/shaper.h"

#include <algorithm>
#include <functional>

using namespace mw;

namespace {

Take take_with_slips(const std::string& ipa) {
  Take take = take_of_ipa(ipa);
  take.likely_slips = find_likely_slips(take.pronunciation, take.track, take.clashes, false);
  return take;
}
double farthest(const Polyline& line, const Polyline& from) {
  double most = 0;
  for (const Vec2 p : line) most = std::max(most, std::abs(nearest_on(from, p).distance));
  return most;
}
double nearest(const Polyline& line, const Polyline& to) {
  double least = 1e9;
  for (const Vec2 p : line) least = std::min(least, std::abs(nearest_on(to, p).distance));
  return least;
}
void each_mark(const std::vector<Mark>& marks, const std::function<void(const Mark&)>& f) {
  for (const Mark& m : marks) {
    f(m);
    if (const auto* g = std::get_if<Group>(&m)) each_mark(g->marks, f);
  }
}

} // namespace

TEST_CASE("slip: where the back creeps in beside the tip, both closures stand at once") {
  Take take = take_of_ipa("ˈtɪp ˈkɪp");
  take.likely_slips = {{0, "t", "k", 0.5, "t, k"}};
  Tracer tracer(take.anatomy);
  const auto slip = slip_shape(take, tracer, 0);
  REQUIRE(slip);
  CHECK(slip->intruder == "k");
  CHECK(slip->part == Articulator::body);
  CHECK(slip->shift_mm > 3);
  const auto outline_at = [&](std::size_t i) { return tracer.trace(pose_at(take.motion, moment_of(take, i))); };
  const Outline t = outline_at(0), k = outline_at(3);
  // the tip stays where t has it, the back goes where k has it
  CHECK(farthest(slip->outline.tip_cap, t.tip_cap) < 2.5);
  const Polyline back = surface_of(slip->outline, Articulator::body);
  CHECK(nearest(back, k.velum_under) < nearest(surface_of(t, Articulator::body), t.velum_under) - 2);
}

TEST_CASE("slip: every likely slip of a line has a shape, and is shown about its own sound for at least 350 ms") {
  std::size_t shapes = 0;
  for (const char* phrase : {"ˈθɪn ˈtɪn ˈlɪd ˈfɪts ˈðɪs ˈdɪʃ", "ˈsɪks ˈsaʃ ˈskɹuz ˈsɪksθ ˈʃɛlf", "ˈtɪp ˈkɪp ˈtɪk ˈkɪp", "ˈpan ˈpad ˈpan ˈpad", "ˈkɪk ˈkwɪk ˈkɪk ˈkwɪk"}) {
    const Take take = take_with_slips(phrase);
    INFO(phrase);
    Tracer tracer(take.anatomy);
    for (std::size_t i = 0; i < take.likely_slips.size(); ++i) {
      const auto slip = slip_shape(take, tracer, i);
      REQUIRE(slip);
      ++shapes;
      CHECK_FALSE(rail_of(slip->outline, slip->part).front().empty());
      CHECK(nearest_slip(take, moment_of(take, take.likely_slips[i].segment)).has_value());
    }
    for (const double slow : {1.0, 4.0, 8.0}) {
      const auto times = slip_times(take, slow);
      CHECK(times.empty() == take.likely_slips.empty());
      for (std::size_t k = 0; k < times.size(); ++k) {
        CHECK(times[k].off_s - times[k].on_s >= lit_hold_s);
        if (k > 0) CHECK(times[k].on_s - times[k - 1].off_s >= lit_calm_s);
        const Segment& s = take.track.segments[take.likely_slips[times[k].clash].segment];
        CHECK(times[k].on_s <= s.start_s * slow);
        CHECK(times[k].off_s >= s.end_s * slow);
      }
    }
  }
  CHECK(shapes > 5);
}

TEST_CASE("slip: the rail is never filled; its tag stays on the stage and off the letter of the sound now") {
  const Take take = take_with_slips("ˈtɪp ˈkɪp ˈtɪk ˈkɪp");
  REQUIRE_FALSE(take.likely_slips.empty());
  Tracer tracer(take.anatomy);
  for (const bool mirrored : {false, true}) {
    StageView view;
    view.rect = {10, 62, 540, 590}, view.mirrored = mirrored;
    view.slip = Lit{0, 1};
    const auto picture = compose_stage(take, tracer, moment_of(take, take.likely_slips[0].segment), view);
    std::size_t rails = 0, tags = 0;
    each_mark(picture.group.marks, [&](const Mark& m) {
      if (const auto* s = std::get_if<Stroke>(&m); s && s->mark.role == "slip") ++rails;
      if (const auto* f = std::get_if<Fill>(&m)) CHECK(f->mark.role != "slip");
      if (const auto* t = std::get_if<Text>(&m); t && t->mark.role == "slip-tag") {
        ++tags;
        const double half = text_width(t->text, t->size, true) / 2;
        CHECK(t->at.x - half >= view.rect.x);
        CHECK(t->at.x + half <= view.rect.right());
        CHECK(t->text.ends_with(" creeps in"));
      }
    });
    CHECK(rails >= 3);
    CHECK(tags == 1);
  }
}

TEST_CASE("stage: the sound now and its name never touch the face") {
  const Take take = take_of_ipa("ˈtʃɪp ˈdʒʌmp ˈʃɔɪl ˈθɹuː ˈwɪð ˈŋaʊ");
  for (const char* speaker : {"adult-male", "adult-female", "child"}) {
    const auto anatomy = *read_anatomy(speaker);
    Tracer tracer(anatomy);
    const auto targets = *read_targets(*anatomy);
    for (const Segment& s : take.track.segments)
      for (const bool mirrored : {false, true}) {
        INFO(std::string(speaker), " ", to_ipa(s.sound), " mirrored ", mirrored);
        StageView view;
        view.rect = {10, 62, 540, 590}, view.mirrored = mirrored;
        const auto goal = pose_of(*anatomy, *targets, s.sound);
        REQUIRE(goal);
        const auto picture = compose_pose_stage(tracer, *goal, &s.sound, view);
        Polyline head;
        for (const Vec2 p : picture.mouth.section.head) head.push_back(picture.mouth.frame(p));
        each_mark(picture.group.marks, [&](const Mark& m) {
          const auto* t = std::get_if<Text>(&m);
          if (!t || (t->mark.role != "sound-now" && t->mark.role != "sound-name")) return;
          const double width = text_width(t->text, t->size, t->bold), x = mirrored ? t->at.x - width : t->at.x;
          INFO(t->text, " x ", x, " y ", t->at.y, " width ", width, " size ", t->size);
          for (const double q : {0.0, 0.5, 1.0})
            for (const double up : {0.0, 0.35, 0.7}) CHECK_FALSE(contains(head, {x + q * width, t->at.y - up * t->size}));
        });
      }
  }
}

TEST_CASE("frame: a likely slip is drawn on demand only, and only about its own sound") {
  const Take take = take_with_slips("ˈtɪp ˈkɪp ˈtɪk ˈkɪp");
  REQUIRE_FALSE(take.likely_slips.empty());
  Tracer tracer(take.anatomy);
  FrameView plain, with;
  with.slips = true;
  std::size_t different = 0;
  for (std::size_t i = 0; i < take.track.segments.size(); ++i) {
    const double t = moment_of(take, i);
    const bool differs = dump(compose_frame(take, tracer, t, plain)) != dump(compose_frame(take, tracer, t, with));
    CHECK(differs == lit_at(slip_times(take, plain.slow), t * plain.slow).has_value());
    different += differs;
  }
  CHECK(different > 0);
  CHECK(different < take.track.segments.size());
}

TEST_CASE("frame: a picture that stands by itself shows slips and clashes in full, each on its own sounds alone") {
  const Take take = take_with_slips("ˈtɪp ˈkɪp ˈtɪk ˈkɪp");
  REQUIRE_FALSE(take.likely_slips.empty());
  REQUIRE_FALSE(take.clashes.empty());
  Tracer tracer(take.anatomy);
  FrameView plain, with;
  plain.still = with.still = with.slips = true;
  std::size_t slips = 0, lit = 0, moments = 0;
  for (std::size_t i = 0; i < take.track.segments.size(); ++i) {
    const double t = moment_of(take, i);
    const bool own = std::ranges::any_of(take.likely_slips, [&](const LikelySlip& s) { return s.segment == i; });
    CHECK((dump(compose_frame(take, tracer, t, plain)) != dump(compose_frame(take, tracer, t, with))) == own);
    slips += own;
  }
  CHECK(slips > 0);
  CHECK(slips < take.track.segments.size());
  for (double t = 0; t < take.duration_s; t += 0.01, ++moments) {
    const auto now = lit_still(take, t);
    bool spoken = false;
    for (const Clash& c : take.clashes)
      for (const auto& [from, to] : clash_spans(take, c)) spoken = spoken || (t >= from && t < to);
    CHECK(now.has_value() == spoken);
    if (!now) continue;
    CHECK(now->opacity == 1);
    ++lit;
  }
  CHECK(lit > 0);
  CHECK(lit < moments);
}

TEST_CASE("slip: where only the voice changes the tag says so") {
  const Take take = take_with_slips("ˈpan ˈban ˈpad ˈban ˈðɪs ˈθɪk ˈðɪk");
  Tracer tracer(take.anatomy);
  std::size_t voice_only = 0;
  for (std::size_t i = 0; i < take.likely_slips.size(); ++i) {
    const auto slip = slip_shape(take, tracer, i);
    if (!slip || slip->part != Articulator::glottis) continue;
    ++voice_only;
    StageView view;
    view.rect = {10, 62, 540, 590}, view.slip = Lit{i, 1};
    const auto picture = compose_stage(take, tracer, moment_of(take, take.likely_slips[i].segment), view);
    std::string tag;
    each_mark(picture.group.marks, [&](const Mark& m) {
      if (const auto* t = std::get_if<Text>(&m); t && t->mark.role == "slip-tag") tag = t->text;
    });
    CHECK_MESSAGE(tag == slip->intruder + (slip->voiced ? " creeps in: with voice" : " creeps in: without voice"), tag);
  }
  CHECK(voice_only > 0);
}
