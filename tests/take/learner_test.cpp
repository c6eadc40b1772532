#include "take/take.h"

#include "support/recorded_voices.h"

#include <doctest/doctest.h>

#include <algorithm>

using namespace mw;

namespace {

std::shared_ptr<const Take> take_of(const std::string& phrase, const std::string& accent, const std::string& learner) {
  RecordedVoices voices;
  auto take = make_take({.phrase = phrase, .accent = accent, .learner = learner}, voices);
  REQUIRE_MESSAGE(take.has_value(), take.error().what << ' ' << take.error().where);
  return *take;
}

std::vector<Clash> shifts_of(const Take& take) {
  std::vector<Clash> shifts;
  std::copy_if(take.clashes.begin(), take.clashes.end(), std::back_inserter(shifts),
               [](const Clash& c) { return c.kind == ClashKind::accent_shift; });
  return shifts;
}

} // namespace

TEST_CASE("take: a learner's accent adds what the target keeps apart, and keeps the learner's pronunciation") {
  const auto take = take_of("pull the pool", "GA", "SSE");
  REQUIRE(take->learner != nullptr);
  CHECK(take->learner->id == "SSE");
  CHECK(take->learner_pronunciation.words.size() == take->pronunciation.words.size());
  const auto shifts = shifts_of(*take);
  REQUIRE(shifts.size() == 1);
  for (std::size_t segment : shifts[0].segments) CHECK(segment < take->track.segments.size());
  CHECK(shifts[0].text.find("both ‘pull’ and ‘pool’") != std::string::npos);
}

TEST_CASE("take: no learner, or one with the accent itself, adds nothing; all else stays as it is") {
  const auto plain = take_of("pull the pool", "GA", ""), same = take_of("pull the pool", "GA", "GA"),
             other = take_of("pull the pool", "GA", "SSE");
  CHECK(plain->learner == nullptr);
  CHECK(shifts_of(*plain).empty());
  CHECK(shifts_of(*same).empty());
  CHECK(same->clashes == plain->clashes);
  CHECK(other->difficulty == plain->difficulty);
  CHECK(other->clashes.size() == plain->clashes.size() + 1);
}

TEST_CASE("take: an unknown learner's accent is wrong use") {
  RecordedVoices voices;
  const auto take = make_take({.phrase = "pool", .learner = "no-such-accent"}, voices);
  REQUIRE_FALSE(take.has_value());
  CHECK(take.error().kind == ProblemKind::usage);
}
