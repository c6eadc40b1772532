#include "evidence/speech.h"
#include "support/speaker.h"

#include <algorithm>
#include <doctest/doctest.h>

using namespace mw;

namespace {
void check_counts(const char* id, int every, int least_asked) {
  const auto report = speech_counts(*testing::speaker(id), every);
  REQUIRE(report.has_value());
  for (const auto& row : report->rows)
    for (std::size_t rate = 0; rate < speech_rates.size(); ++rate) {
      const SpeechCount& count = row.by_rate[rate];
      if (count.asked == 0) continue;
      const double percent = 100.0 * count.met / count.asked;
      CHECK_MESSAGE(percent >= speech_aim(row.kind, rate),
                    id << " " << row.kind << " " << speech_rates[rate] << " " << count.met << "/" << count.asked << ": "
                       << (count.misses.empty() ? "" : count.misses.front()));
    }
  const auto total = [&](std::size_t rate) {
    int sum = 0;
    for (const auto& row : report->rows) sum += row.by_rate[rate].asked;
    return sum;
  };
  for (std::size_t rate = 0; rate < speech_rates.size(); ++rate) CHECK(total(rate) >= least_asked);
}
} // namespace

TEST_CASE("running speech: closures, friction, soft palate and folds are made in every phrase, at every rate") {
  check_counts("adult-male", 1, 50000);
}

TEST_CASE("running speech: the woman and the child make them too") {
  check_counts("adult-female", 5, 10000);
  check_counts("child", 5, 10000);
}

TEST_CASE("running speech: vowels reach their targets the less, the faster and the weaker they are") {
  const auto report = speech_counts(*testing::speaker(), 10);
  REQUIRE(report.has_value());
  for (const auto* reach : {&report->stressed, &report->unstressed}) {
    CHECK(reach->mean_mm[0] < reach->mean_mm[1]);
    CHECK(reach->mean_mm[1] < reach->mean_mm[2]);
  }
  for (std::size_t rate = 0; rate < 3; ++rate) CHECK(report->stressed.mean_mm[rate] < report->unstressed.mean_mm[rate]);
}

TEST_CASE("running speech: the list holds both accents, plain and hard phrases, three rates that differ") {
  const auto phrases = read_speech_phrases();
  REQUIRE(phrases.has_value());
  CHECK(phrases->size() >= 700);
  CHECK(std::ranges::count(*phrases, true, &SpeechPhrase::hard) >= 40);
  for (const auto& phrase : *phrases) {
    CHECK(phrase.tracks[0].duration_s > phrase.tracks[1].duration_s);
    CHECK(phrase.tracks[1].duration_s > phrase.tracks[2].duration_s);
  }
}

TEST_CASE("running speech: the evidence table tells every count and passes") {
  const auto table = speech_table();
  REQUIRE(table.has_value());
  CHECK(table->pass);
  CHECK(table->rows.size() > 80);
  for (const auto& row : table->rows) CHECK_MESSAGE(row.pass.value_or(true), row.what << ": " << row.ours);
}
