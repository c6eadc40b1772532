#include "evidence/lexical_sets.h"

#include "base/assets.h"
#include "phrase/sets.h"
#include "phrase/words.h"

#include <algorithm>

namespace mw {
namespace {

/// The vowel that a row asks about: the last one, or the first with primary stress (secondary where a voice gives no other:
/// any).
std::size_t asked_vowel(const Phonemes& phonemes, const std::string& which) {
  std::size_t last = phonemes.size(), primary = phonemes.size(), secondary = phonemes.size();
  for (std::size_t i = 0; i < phonemes.size(); ++i) {
    if (!phonemes[i].set) continue;
    last = i;
    if (phonemes[i].stress == 1 && primary == phonemes.size()) primary = i;
    if (phonemes[i].stress == 2 && secondary == phonemes.size()) secondary = i;
  }
  if (which == "last") return last;
  return primary < phonemes.size() ? primary : secondary < phonemes.size() ? secondary : last;
}

/// The vowel that the override list speaks of where it has the word: the test list names no vowel, only the stressed one,
/// which in altogether is another.
std::size_t overridden_vowel(const WordTables& tables, const std::string& word, const Phonemes& phonemes, std::size_t asked) {
  const auto at = tables.overrides.find(word);
  if (at == tables.overrides.end()) return asked;
  std::size_t vowel = 0;
  for (std::size_t i = 0; i < phonemes.size(); ++i)
    if (phonemes[i].set && ++vowel == at->second.front().vowel) return i;
  return asked;
}

void count(SetCount& counts, bool by_voices, bool with_overrides, const std::string& miss) {
  ++counts.words;
  counts.by_voices += by_voices ? 1 : 0;
  counts.with_overrides += with_overrides ? 1 : 0;
  if (!with_overrides) counts.misses.push_back(miss);
}

} // namespace

double percent(int correct, const SetCount& count) { return count.words == 0 ? 0 : 100.0 * correct / count.words; }

Result<LexicalSetsReport> lexical_sets_report() {
  const auto table = read_csv_asset("evidence/lexical_sets.csv");
  if (!table) return table.error();
  const auto& tables = word_tables();
  if (!tables) return tables.error();
  LexicalSetsReport report;
  for (const auto& row : table->rows) {
    const std::string &word = row[0], &list = row[3];
    const auto wanted = parse_keyword(row[1]);
    if (!wanted) return Problem{ProblemKind::fault, "not a lexical set", "evidence/lexical_sets.csv: " + word, ""};
    Phonemes phonemes = classify({row[4], row[5]}, Norm::british).phonemes;
    const std::size_t asked = asked_vowel(phonemes, row[2]);
    if (asked == phonemes.size()) return Problem{ProblemKind::fault, "no vowel", "evidence/lexical_sets.csv: " + word, ""};
    const bool by_voices = phonemes[asked].set == wanted;
    apply_overrides(*tables, word, phonemes);
    const auto found = phonemes[overridden_vowel(*tables, word, phonemes, asked)].set;
    const std::string miss = word + ": " + std::string(to_keyword(*found));
    SetCount& group = list == "core" ? report.core : list == "hard" ? report.hard : report.holdout;
    for (SetCount* counts : {&report.sets[static_cast<std::size_t>(*wanted)], &report.all, &group})
      count(*counts, by_voices, found == wanted, miss);
  }
  return report;
}

} // namespace mw
