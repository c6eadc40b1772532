#include "evidence/ranking.h"

#include "base/assets.h"
#include "evidence/rates.h"

#include <doctest/doctest.h>

using namespace mw;

namespace {

std::vector<RankingOutcome> shipped() {
  const auto csv = read_asset("difficulty/ranking_pairs.csv");
  REQUIRE(csv.has_value());
  auto outcomes = judge_pairs(*csv);
  REQUIRE(outcomes.has_value());
  return *outcomes;
}

} // namespace

TEST_CASE("ranking: every pair of evidence A holds on its own axis") {
  int checked = 0;
  for (const RankingOutcome& o : shipped()) {
    if (!o.judged || o.pair.evidence != "A") continue;
    INFO(o.pair.id, ' ', o.pair.harder, " / ", o.pair.easier, ": ", o.harder, ' ', o.easier);
    CHECK(o.holds);
    ++checked;
  }
  CHECK(checked >= 15);
}

TEST_CASE("ranking: at least 85 % of the pairs of evidence B hold, and simple counts do far worse") {
  int all = 0, hold = 0, movements = 0, consonants = 0;
  for (const RankingOutcome& o : shipped()) {
    if (!o.judged || o.pair.evidence != "B") continue;
    ++all;
    hold += o.holds, movements += o.movements_agree, consonants += o.consonants_agree;
  }
  REQUIRE(all > 20);
  MESSAGE("B: ", hold, " of ", all, "; movements ", movements, "; consonants ", consonants);
  CHECK(hold >= .85 * all);
  CHECK(movements < hold / 2);
  CHECK(consonants < hold / 2);
}

TEST_CASE("ranking: no reliable difference means a small one") {
  int checked = 0;
  for (const RankingOutcome& o : shipped()) {
    if (o.pair.relation != "no_reliable_difference") continue;
    INFO(o.pair.id, ": ", o.harder, ' ', o.easier);
    CHECK(o.holds);
    ++checked;
  }
  CHECK(checked > 0);
}

TEST_CASE("ranking: a pair turned round does not hold, so the table can fail") {
  const std::string head = "id,harder,easier,axis,relation,source,evidence,population,status\n";
  const auto right = ranking_table(head + "x,tɑp kɑp,kɑp kɑp,ERROR,harder,s,A,p,READ\n");
  const auto wrong = ranking_table(head + "x,kɑp kɑp,tɑp kɑp,ERROR,harder,s,A,p,READ\n");
  REQUIRE((right && wrong));
  CHECK(right->pass);
  CHECK(!wrong->pass);
}

TEST_CASE("ranking: IPA that cannot be read is a problem that names the pair") {
  const auto table = ranking_table("id,harder,easier,axis,relation,source,evidence,population,status\nq7,t§p,kɑp,ERROR,harder,s,A,p,READ\n");
  REQUIRE(!table.has_value());
  CHECK(table.error().where.find("q7") != std::string::npos);
}

TEST_CASE("ranking: pairs of other populations have no bar and are told only") {
  for (const RankingOutcome& o : shipped())
    if (o.pair.axis == "RATE_CHILD" || o.pair.axis == "CLINICAL") CHECK(!o.judged);
}

TEST_CASE("rates: zones, orders and the speed curve agree with what was published") {
  const auto table = rates_table();
  REQUIRE(table.has_value());
  for (const EvidenceRow& row : table->rows) {
    INFO(row.what, ": ", row.ours, " / ", row.published);
    CHECK(row.pass.value_or(true));
  }
  CHECK(table->pass);
  CHECK(peak_over_mean() == doctest::Approx(1.875).epsilon(1e-3));
  CHECK(squared_jerk() == doctest::Approx(720).epsilon(1e-3));
}
