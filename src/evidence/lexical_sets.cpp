#include "evidence/lexical_sets.h"

#include "base/assets.h"
#include "base/text.h"
#include "phrase/sets.h"
#include "phrase/spelling_rules.h"
#include "phrase/words.h"

#include <algorithm>

namespace mw {
namespace {

/// The vowel that a row asks about: the last one, or the first with primary stress (secondary where a voice gives no
/// other: any).
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

/// The vowel that the override list speaks of where it has the word: the test list names no vowel, only the stressed
/// one, which in altogether is another.
std::size_t overridden_vowel(const WordTables& tables, const std::string& word, const Phonemes& phonemes,
                             std::size_t asked) {
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

// what the project asks of itself (espeak_mnemonics study, section 4)
constexpr double least_overall = 97, least_per_set = 85;
constexpr const char* lists = "word lists after Wells 1982 [MEMORY], voices of espeak-ng 1.51 [MEASURED]";

std::string share(int correct, const SetCount& counts) {
  return to_text(correct) + " of " + to_text(counts.words) + " (" + to_text(percent(correct, counts), 1) + " %)";
}

EvidenceRow row_of(const std::string& what, const SetCount& counts, double least) {
  EvidenceRow row{what, share(counts.with_overrides, counts), "at least " + to_text(least) + " %", lists, ""};
  row.difference = "by the voices and the spelling alone " + share(counts.by_voices, counts);
  if (!counts.misses.empty()) row.difference += "; misses " + join(counts.misses, ", ");
  row.pass = percent(counts.with_overrides, counts) >= least;
  return row;
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
    apply_spelling(word, phonemes);
    const std::size_t asked = asked_vowel(phonemes, row[2]);
    if (asked == phonemes.size())
      return Problem{ProblemKind::fault, "no vowel", "evidence/lexical_sets.csv: " + word, ""};
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

Result<EvidenceTable> lexical_sets_table() {
  const auto report = lexical_sets_report();
  if (!report) return report.error();
  EvidenceTable table{"lexical-sets", "Lexical sets recovered from two voices"};
  for (int i = 0; i < lexical_set_count; ++i)
    table.rows.push_back(row_of(std::string(to_keyword(static_cast<LexicalSet>(i))),
                                report->sets[static_cast<std::size_t>(i)], least_per_set));
  table.rows.push_back(row_of("all words", report->all, least_overall));
  const SetCount& fresh = report->holdout;
  table.rows.push_back({"words not looked at while the pair rules were made (the spelling rules saw the misses among them), without the override list",
                        share(fresh.by_voices, fresh), "at least " + to_text(least_overall) + " %", lists, "",
                        percent(fresh.by_voices, fresh) >= least_overall});
  for (const auto& row : table.rows) table.pass = table.pass && row.pass.value_or(true);
  table.summary = share(report->all.with_overrides, report->all) + " words in the right set; " +
                  share(fresh.by_voices, fresh) + " of words kept apart, by the voices and the spelling alone";
  return table;
}

} // namespace mw
