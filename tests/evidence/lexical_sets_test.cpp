#include "evidence/lexical_sets.h"

#include <doctest/doctest.h>

using namespace mw;

TEST_CASE("lexical sets: 97 percent of the test words and 85 of each set are right") {
  const auto report = lexical_sets_report();
  REQUIRE(report.has_value());
  CHECK(report->all.words == 750);
  CHECK(percent(report->all.with_overrides, report->all) >= 97);
  CHECK(percent(report->all.by_voices, report->all) >= 96);
  CHECK(percent(report->holdout.by_voices, report->holdout) >= 97);
  for (int i = 0; i < lexical_set_count; ++i) {
    const SetCount& counts = report->sets[static_cast<std::size_t>(i)];
    INFO(to_keyword(static_cast<LexicalSet>(i)));
    CHECK(counts.words >= 15);
    CHECK(percent(counts.with_overrides, counts) >= 85);
  }
}

TEST_CASE("lexical sets: the table has a row for each set and passes only if every row does") {
  const auto table = lexical_sets_table();
  REQUIRE(table.has_value());
  CHECK(table->rows.size() == lexical_set_count + 2);
  bool all = true;
  for (const auto& row : table->rows) all = all && row.pass.value_or(true);
  CHECK(table->pass == all);
  CHECK(table->pass);
}
