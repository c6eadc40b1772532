#include "scene/compare_moves.h"

#include "ipa/parse.h"

#include <doctest/doctest.h>

using namespace mw;

namespace {

struct Speaker {
  std::shared_ptr<const Anatomy> anatomy;
  std::shared_ptr<const TargetTable> targets;
};
Speaker speaker(const std::string& id) {
  const auto anatomy = read_anatomy(id);
  REQUIRE(anatomy.has_value());
  const auto targets = read_targets(**anatomy);
  REQUIRE(targets.has_value());
  return {*anatomy, *targets};
}
Sound sound(const std::string& ipa) {
  const auto read = parse_sound(ipa, Notation::ipa);
  REQUIRE_MESSAGE(read.has_value(), ipa);
  return *read;
}
bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

} // namespace

TEST_CASE("compare moves: words follow the poses: each channel moved alone is told as its own part and way, and back as the opposite") {
  const Speaker s = speaker("adult-male");
  struct Case { double Pose::*value; double by; const char *there, *back; };
  for (const Case& c : {Case{&Pose::body_x, 5, "tongue goes back", "tongue goes forward"}, Case{&Pose::body_y, 5, "tongue goes up", "tongue goes down"}, Case{&Pose::jaw_opening, 5, "jaw opens", "jaw closes"},
                        Case{&Pose::lip_rounding, 0.9, "lips round", "lips let go"}, Case{&Pose::velum, 0.8, "soft palate drops", "soft palate rises"}, Case{&Pose::glottis, 0.7, "folds open", "folds come together"},
                        Case{&Pose::tip_y, 9, "tip rises", "tip goes down"}}) {
    const Pose from = s.anatomy->rest;
    Pose to = from;
    to.*c.value += c.by;
    CAPTURE(c.there);
    CHECK_MESSAGE(holds(tell_move(*s.anatomy, from, to), c.there), tell_move(*s.anatomy, from, to));
    CHECK_MESSAGE(holds(tell_move(*s.anatomy, to, from), c.back), tell_move(*s.anatomy, to, from));
    CHECK(size_of_move(*s.anatomy, from, to) > 1);
  }
  CHECK(tell_move(*s.anatomy, s.anatomy->rest, s.anatomy->rest).empty());
  Pose near = s.anatomy->rest;
  near.body_x += 0.6; // nobody would see it
  CHECK(tell_move(*s.anatomy, s.anatomy->rest, near).empty());
}

TEST_CASE("compare moves: vowels of every speaker: back and down, lips round, glides start and end elsewhere") {
  for (const char* id : {"adult-male", "adult-female", "child"}) {
    const Speaker s = speaker(id);
    const auto change = [&](const char* a, const char* b) { return tell_change(*s.anatomy, *s.targets, sound(a), sound(b)).text; };
    CAPTURE(id);
    CHECK_MESSAGE(holds(change("\u00E6", "\u0251\u02D0"), std::string{id} == "adult-male" ? "the tongue goes back and down" : "the tongue goes back"), change("\u00E6", "\u0251\u02D0"));
    CHECK_MESSAGE(holds(change("\u0251\u02D0", "\u00E6"), "the tongue goes forward"), change("\u0251\u02D0", "\u00E6"));
    CHECK_MESSAGE(holds(change("\u0251", "\u0254"), "lips round"), change("\u0251", "\u0254"));
    CHECK_MESSAGE(holds(change("u", "\u0289"), "forward"), change("u", "\u0289"));
    CHECK_MESSAGE(holds(change("e\u026A", "\u025Bi"), "lower"), change("e\u026A", "\u025Bi"));
    CHECK_MESSAGE(holds(change("e\u02D0", "e\u026A"), "glides"), change("e\u02D0", "e\u026A"));
    CHECK_MESSAGE(holds(change("o\u028A", "o\u02D0"), "no glide"), change("o\u028A", "o\u02D0"));
    CHECK_MESSAGE(holds(change("\u025D", "\u0259\u02D0"), "lets go of the r"), change("\u025D", "\u0259\u02D0"));
    CHECK(change("\u0251", "\u0251\u02D0") == "the same place, held longer");
    CHECK(change("i", "i").empty());
  }
}

TEST_CASE("compare moves: consonants: another part, another touch, the voice, the back of the tongue, two ways of one sign") {
  const Speaker s = speaker("adult-male");
  const auto change = [&](const char* a, const char* b) { return tell_change(*s.anatomy, *s.targets, sound(a), sound(b)).text; };
  CHECK(holds(change("\u0294", "t"), "the tip closes"));
  CHECK(holds(change("\u027E", "t"), "taps once"));
  CHECK(holds(change("t", "d"), "come together for voice"));
  CHECK(holds(change("d", "t"), "no voice"));
  CHECK(holds(change("l", "\u026B"), "the tongue goes back"));
  CHECK(holds(change("\u026B", "l"), "the tongue goes forward"));
  CHECK(holds(change("f", "\u03B8"), "lower lip"));
  Sound bunched = sound("\u0279"), tip_up = bunched;
  bunched.kind = "bunched", tip_up.kind = "tip-up";
  CHECK(holds(tell_change(*s.anatomy, *s.targets, bunched, tip_up).text, "the tip rises"));
  CHECK(holds(tell_change(*s.anatomy, *s.targets, tip_up, bunched).text, "the tip goes down"));
}
