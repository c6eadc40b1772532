#include "clash/clash.h"

#include "base/assets.h"
#include "clash/norms.h"
#include "clash/speeds.h"
#include "lines.h"

#include <algorithm>
#include <cmath>
#include <map>

using namespace mw;
using namespace mw::test;

namespace {

Difficulty judged(const std::string& ipa, bool loop = false) {
  const Line line = said(ipa);
  return judge(line.pronunciation, line.track, {}, clashes_of(line), loop);
}

std::vector<LikelySlip> slips_of(const std::string& ipa, const std::string& text = {}) {
  const Line line = said(ipa, text);
  return find_likely_slips(line.pronunciation, line.track, clashes_of(line), false);
}

} // namespace

TEST_CASE("judge: the shipped weights and reference lines can be read") {
  REQUIRE(difficulty_data().has_value());
  REQUIRE(difficulty_norms().has_value());
  CHECK(difficulty_data()->reference.size() >= 40);
}

TEST_CASE("judge: the same phrase has the same figures, and a loop does not mind how often it is written out") {
  CHECK(judged("ˈtɪn ˈkʌps ˈkoʊld ˈti") == judged("ˈtɪn ˈkʌps ˈkoʊld ˈti"));
  const Difficulty once = judged("ˈtɑ ˈkɑ", true), thrice = judged("ˈtɑ ˈkɑ ˈtɑ ˈkɑ ˈtɑ ˈkɑ", true);
  CHECK(once.slips == doctest::Approx(thrice.slips));
  CHECK(once.slowing == doctest::Approx(thrice.slowing));
  CHECK(once.drift == doctest::Approx(thrice.drift));
}

TEST_CASE("judge: bars are 0 or more, overall within 0 and 1, load within 0 and 1 for every sound") {
  for (const char* ipa : {"ˈɑ", "ˈtɑ", "ˈsɪks ˈʃɛlvz ˈʃʊk", "ðə ˈkɛtəl ˈsæŋ", "ˈpæ ˈpæ ˈpæ"}) {
    INFO(ipa);
    const Difficulty d = judged(ipa);
    for (double bar : {d.slips, d.slowing, d.late_start, d.drift}) CHECK(bar >= 0);
    CHECK(d.overall > 0);
    CHECK(d.overall < 1);
    CHECK(d.load.size() == said(ipa).track.segments.size());
    for (double load : d.load) CHECK((load >= 0 && load <= 1));
    CHECK(d.reasons.size() <= 2);
    for (const std::string& word : d.bar_words) CHECK(!word.empty());
    CHECK(d.scale == "1");
  }
}

TEST_CASE("judge: an empty phrase is easy and has no load") {
  const Difficulty d = judge({}, {}, {}, {}, false);
  CHECK(d.label == "easy");
  CHECK(d.slips == 0);
  CHECK(d.load.empty());
}

TEST_CASE("judge: lines made to be hard stand above plain ones") {
  const auto& data = *difficulty_data();
  double lowest_hard_mean = 0, plain_mean = 0;
  int hard = 0, plain = 0, plain_easy = 0, hard_not_easy = 0;
  for (const ReferencePhrase& phrase : data.reference) {
    const Difficulty d = judged(phrase.ipa);
    (phrase.hard ? lowest_hard_mean : plain_mean) += d.overall;
    (phrase.hard ? hard : plain) += 1;
    if (phrase.hard) hard_not_easy += d.label != "easy" ? 1 : 0;
    else plain_easy += d.label == "easy" ? 1 : 0;
  }
  CHECK(lowest_hard_mean / hard > plain_mean / plain + .2);
  CHECK(plain_easy * 10 >= plain * 7);
  CHECK(hard_not_easy == hard);
}

TEST_CASE("judge: about 1 at the hard end of the list") {
  std::array<std::vector<double>, 4> bars;
  for (const ReferencePhrase& phrase : difficulty_data()->reference) {
    const Difficulty d = judged(phrase.ipa);
    bars[0].push_back(d.slips), bars[1].push_back(d.slowing), bars[2].push_back(d.late_start), bars[3].push_back(d.drift);
  }
  for (auto& values : bars) {
    std::sort(values.begin(), values.end());
    CHECK(values.back() >= 1);
    CHECK(values.back() < 1.6);
    CHECK(values[values.size() / 2] < 1);
  }
}

TEST_CASE("judge: a word of a bar holds as many reference lines as the same word of the label, and goes with the bar's length") {
  std::map<std::string, int> labels;
  std::array<std::map<std::string, int>, 4> words;
  const std::array<std::string, 4> quarters{"easy", "moderate", "demanding", "very demanding"};
  for (const ReferencePhrase& phrase : difficulty_data()->reference) {
    const Difficulty d = judged(phrase.ipa);
    ++labels[d.label];
    for (std::size_t b = 0; b < 4; ++b) {
      ++words[b][d.bar_words[b]];
      CHECK((d.bar_lengths[b] >= 0 && d.bar_lengths[b] <= 1));
      CHECK(d.bar_words[b] == quarters[std::min<std::size_t>(3, static_cast<std::size_t>(d.bar_lengths[b] * 4))]);
    }
  }
  // lines with equal bars fall on one side of a cut together
  for (const auto& word : words)
    for (const std::string& quarter : quarters) CHECK(std::abs(word.at(quarter) - labels.at(quarter)) <= 3);
}

TEST_CASE("judge: a coach's weights change the figures, a broken table is told by file and line") {
  const auto weights = read_asset("difficulty/weights.csv"), reference = read_asset("difficulty/reference_phrases.csv"),
             clusters = read_asset("difficulty/onset_clusters.csv");
  REQUIRE((weights && reference && clusters));
  std::string changed = *weights;
  const std::string row = "coda_weight,1.3", other = "coda_weight,2.6";
  changed.replace(changed.find(row), row.size(), other);
  const auto data = parse_difficulty_data(changed, *reference, *clusters);
  REQUIRE(data.has_value());
  CHECK(data->weight("coda_weight") == 2.6);
  std::string broken = *weights;
  broken.replace(broken.find(row), row.size(), "coda_weight,much");
  const auto problem = parse_difficulty_data(broken, *reference, *clusters);
  REQUIRE(!problem.has_value());
  CHECK(problem.error().what.find("coda_weight") != std::string::npos);
  CHECK(problem.error().where.find("line ") != std::string::npos);
}

TEST_CASE("likely slip: s gives way to ʃ, not ʃ to s") {
  // Shattuck-Hufnagel & Klatt 1979: the one exception to symmetry.
  for (const char* ipa : {"ˈsɛl ˈʃɛl", "ˈʃɛl ˈsɛl", "ˈʃɪn ˈsɪn ˈsʌm ˈʃʌm"}) {
    const auto slips = slips_of(ipa);
    REQUIRE(!slips.empty());
    CHECK(slips[0].wanted == "s");
    CHECK(slips[0].instead == "ʃ");
  }
  const auto slips = slips_of("ˈtɛn ˈtʃɛn");
  REQUIRE(!slips.empty());
  CHECK(slips[0].instead == "tʃ");
}

TEST_CASE("likely slip: before a like end the other stop creeps in") {
  const auto slips = slips_of("ˈtɪp ˈkɪp", "tip kip");
  REQUIRE(!slips.empty());
  CHECK(slips[0].wanted == "t"); // beside a front vowel the back of the tongue creeps in (Slis & van Lieshout 2016)
  CHECK(slips[0].instead == "k");
  CHECK(slips[0].text.find("as well") != std::string::npos);
  CHECK(slips[0].text.find("‘tip’") != std::string::npos);
}

TEST_CASE("likely slip: the wrong sound can be said in that place, and strengths fall") {
  for (const char* ipa : {"ˈsɪŋ ˈsɪn ˈsɪm", "ˈhæt ˈfæt ˈpæt", "ˈwɛt ˈjɛt ˈlɛt"}) {
    const auto slips = slips_of(ipa);
    for (const LikelySlip& slip : slips) {
      CHECK(slip.strength > 0);
      CHECK(slip.strength < 1);
      CHECK(slip.wanted != slip.instead);
    }
    CHECK(std::is_sorted(slips.begin(), slips.end(),
                         [](const LikelySlip& a, const LikelySlip& b) { return a.strength > b.strength; }));
    CHECK(slips.size() <= 3);
  }
}

TEST_CASE("speed: zones from the repetition norms") {
  // "brass ladles": the tip comes back 4 times in 3 syllables, the back once... computed, not restated: see speeds.h.
  const auto limits = speed_limits(said("ˈpæ ˈpæ ˈpæ").track);
  REQUIRE(limits.size() == 1);
  CHECK(limits[0].returns == 1);
  CHECK(judge_speed(limits[0], 4.5) == SpeedJudgement::comfortable);
  CHECK(judge_speed(limits[0], 6.5) == SpeedJudgement::fast); // the mean of those who repeat as fast as they can
  CHECK(judge_speed(limits[0], 8) == SpeedJudgement::beyond);
  // Lips are no slower than the tip, the back of the tongue is slowest (Fletcher 1972; older adults, Isfahan 2017).
  const auto limit = [](const char* ipa) { return speed_limits(said(ipa).track)[0].fast; };
  CHECK(limit("ˈpʌ ˈpʌ") >= limit("ˈtʌ ˈtʌ"));
  CHECK(limit("ˈtʌ ˈtʌ") > limit("ˈkʌ ˈkʌ"));
}

TEST_CASE("speed: one articulator in turn with others lasts longer than one alone") {
  const auto mixed = speed_limits(said("ˈpɑ ˈtɑ ˈkɑ ˈpɑ ˈtɑ ˈkɑ").track);
  const auto same = speed_limits(said("ˈtɑ ˈtɑ ˈtɑ ˈtɑ ˈtɑ ˈtɑ").track);
  CHECK(mixed[0].fast > same[0].fast);
  // Changing syllables: fast from the adults' mean 6.2 a second, beyond most from 7.0 (Icht & Ben-David 2014).
  CHECK(judge_speed(mixed, 6.1) == SpeedJudgement::comfortable);
  CHECK(judge_speed(mixed, 6.6) == SpeedJudgement::fast);
  CHECK(judge_speed(mixed, 7.1) == SpeedJudgement::beyond);
}

TEST_CASE("speed: the sentence is built from the zones") {
  CHECK(speed_text(speed_limits(said("ˈpæ ˈpæ ˈpæ").track), 8) == "At 8 syllables a second: lips beyond most speakers.");
}
