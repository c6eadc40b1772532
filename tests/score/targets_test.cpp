#include "anatomy/places.h"
#include "base/text.h"
#include "ipa/inventory.h"
#include "score/compose.h"
#include "score/targets.h"
#include "score/transfer.h"
#include "support/segments.h"
#include "support/speaker.h"

#include <cmath>
#include <doctest/doctest.h>

using namespace mw;
using testing::sound_of;

namespace {
std::shared_ptr<const TargetTable> table_of(const Anatomy& anatomy) {
  const auto table = read_targets(anatomy);
  REQUIRE(table.has_value());
  return *table;
}
Target target(const std::string& ipa, const std::string& speaker = "adult-male", bool at_end = false) {
  const auto anatomy = testing::speaker(speaker);
  const auto found = target_of(*anatomy, *table_of(*anatomy), sound_of(ipa), at_end);
  REQUIRE_MESSAGE(found.has_value(), ipa);
  return *found;
}
double disc_top(const Anatomy& a, const Pose& p) { return p.body_y + body_radius(a, {p.body_x, p.body_y}); }
} // namespace

TEST_CASE("targets: every letter of the inventory has a row on every speaker, inside the model's ranges") {
  for (const auto& id : anatomy_ids()) {
    const auto anatomy = testing::speaker(id);
    const auto table = table_of(*anatomy);
    for (const Letter& letter : letters()) {
      const auto found = target_of(*anatomy, *table, Sound{letter.ipa});
      REQUIRE_MESSAGE(found.has_value(), id << " " << letter.ipa);
      CHECK_MESSAGE(found->vowel == letter.vowel, letter.ipa);
      for (const auto& channel : pose_channels()) {
        const double value = found->pose.*channel.value;
        CHECK_MESSAGE(std::isfinite(value), id << " " << letter.ipa << " " << channel.column);
      }
      if (!letter.vowel) CHECK_MESSAGE(found->effective_from < found->effective_to, letter.ipa);
    }
  }
}

TEST_CASE("targets: a mark that has a row of its own picks that row") {
  CHECK(target("t̪").place == "dental");
  CHECK(target("l̪").place == "dental");
  CHECK(target("t").place == "alveolar");
  CHECK(target("pʼ").manner == "ejective");
  CHECK(target("ɹ_bunched").primary == Primary::body);
  CHECK(target("ɹ").primary == Primary::tip);
  CHECK(target("ɹ_tip-up").pose == target("ɹ").pose);
}

TEST_CASE("targets: an ejective without a row rises over shut folds and keeps its closure") {
  const Target q = target("qʼ"), plain = target("q");
  CHECK(q.pose.glottis == 0);
  CHECK(q.pose.larynx > 5);
  CHECK(q.pose.body_x == plain.pose.body_x);
}

TEST_CASE("targets: a nasalised vowel opens the soft palate and moves nothing else") {
  Pose open = target("ã").pose;
  CHECK(open.velum == doctest::Approx(0.6));
  open.velum = target("a").pose.velum;
  CHECK(open == target("a").pose);
}

TEST_CASE("targets: weights of other speakers are the male ones, postures their own") {
  const Target male = target("k"), child = target("k", "child");
  CHECK(child.body_y_weight == male.body_y_weight);
  CHECK(child.effective_to == male.effective_to);
  CHECK(child.pose.body_x < male.pose.body_x);
}

TEST_CASE("targets: stops of other speakers come out of the male rows within a tenth of a millimetre") {
  const auto male = testing::speaker();
  for (const char* id : {"adult-female", "child"}) {
    const auto own = testing::speaker(id);
    const auto from = table_of(*male), to = table_of(*own);
    for (const char* letter : {"t", "d", "ʈ", "c", "k", "p", "l", "ɫ", "tʃ"}) {
      const Pose made = transfer(from->consonant(letter)->pose, *male, *own), row = to->consonant(letter)->pose;
      for (const auto& channel : pose_channels())
        CHECK_MESSAGE(std::abs(made.*channel.value - row.*channel.value) < 0.1, id << " " << std::string(letter) << " " << channel.column);
    }
  }
}

TEST_CASE("targets: an affricate starts shut at the place of its friction") {
  const Target ts = target("t͡ɕ");
  CHECK(ts.manner == "affricate");
  CHECK(ts.second_phase == "ɕ");
  CHECK(target("t͡θ").place == "interdental");
  CHECK(target("p͡f").primary == Primary::lips);
  CHECK(target("k͡x").pose.body_x == target("k").pose.body_x);
}

TEST_CASE("targets: a double closure shuts back and lips") {
  const Target kp = target("k͡p");
  CHECK(kp.pose.lip_opening < 0);
  CHECK(kp.lips_weight >= 0.9);
  CHECK(kp.pose.body_x == target("k").pose.body_x);
}

TEST_CASE("targets: every closing glide of two vowel letters closes, on every speaker") {
  int closing = 0;
  for (const auto& id : anatomy_ids()) {
    const auto anatomy = testing::speaker(id);
    const auto table = table_of(*anatomy);
    for (const Letter& a : letters())
      for (const Letter& b : letters()) {
        if (!a.vowel || !b.vowel || !is_closing(a.ipa, b.ipa)) continue;
        const Sound glide{.letter = a.ipa, .glide_letter = b.ipa};
        const auto start = pose_of(*anatomy, *table, glide), end = pose_of(*anatomy, *table, glide, true);
        REQUIRE(start.has_value());
        REQUIRE(end.has_value());
        // the disc's top stands for the tongue's; drawn tops are checked where they are drawn
        CHECK_MESSAGE(disc_top(*anatomy, *end) > disc_top(*anatomy, *start) + 0.5, id << " " << a.ipa << b.ipa);
        CHECK_MESSAGE(end->jaw_opening < start->jaw_opening - 0.2, id << " " << a.ipa << b.ipa);
        ++closing;
      }
  }
  CHECK(closing > 100);
}

TEST_CASE("targets: a centring glide ends in schwa") {
  CHECK(target("ɪə", "adult-male", true).pose == target("ə").pose);
  CHECK(target("ɪə").pose == target("ɪ").pose);
}

TEST_CASE("targets: a sound without a row is a problem that names it") {
  const auto anatomy = testing::speaker();
  const auto found = target_of(*anatomy, *table_of(*anatomy), Sound{"?"});
  REQUIRE(!found.has_value());
  CHECK(found.error().kind == ProblemKind::input);
  CHECK(found.error().where == "?");
}
