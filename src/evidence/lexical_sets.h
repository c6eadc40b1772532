#pragma once

#include "accent/lexical_set.h"
#include "base/result.h"
#include "evidence/evidence.h"

#include <array>
#include <string>
#include <vector>

namespace mw {

/// How often the vowel of a test word was put into the set that Wells's lists give it.
struct SetCount {
  int words = 0;
  int by_voices = 0;                 // the pair method alone
  int with_overrides = 0;            // and the override list, some of which was made from these very words
  std::vector<std::string> misses{}; // "broth: LOT" with overrides
};
struct LexicalSetsReport {
  std::array<SetCount, lexical_set_count> sets{};
  SetCount all{}, core{}, hard{}, holdout{}; // hold-out: words not looked at while the rules were made
};

/// Percent of a count, 0 for no words.
double percent(int correct, const SetCount& count);

/// Computed from assets/evidence/lexical_sets.csv (750 words, as the two voices of espeak-ng 1.51 say them; the set of
/// each from memory of Wells 1982). Problem (missing, fault) when the installation is broken.
Result<LexicalSetsReport> lexical_sets_report();

/// The report as a table: one row a set (at least 85 %), the whole (at least 97 %), and the hold-out words without the
/// override list, which is the honest figure for new words.
Result<EvidenceTable> lexical_sets_table();

} // namespace mw
