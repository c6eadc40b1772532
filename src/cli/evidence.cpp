#include "evidence/evidence.h"
#include "base/text.h"
#include "cli/commands.h"
#include "cli/json.h"
#include "cli/run.h"
#include "espeak/espeak.h"
#include "evidence/lexical_sets.h"
#include "evidence/ranking.h"
#include "evidence/rates.h"
#include "evidence/said.h"

#include <functional>

namespace mw::cli {
namespace {
struct Table {
  const char* name;
  std::function<Result<EvidenceTable>()> compute;
};

Result<EvidenceTable> speech() {
  auto pronouncer = open_espeak();
  if (!pronouncer) return pronouncer.error();
  const auto phrases = say_phrases(**pronouncer);
  if (!phrases) return phrases.error();
  return speech_table(*phrases);
}

const std::vector<Table>& tables() {
  static const std::vector<Table> all{{"formants", formants_table}, {"places", places_table},
                                      {"areas", areas_table},       {"speech", speech},
                                      {"lexical-sets", lexical_sets_table},
                                      {"ranking", [] { return ranking_table(); }},
                                      {"rates", rates_table}};
  return all;
}

std::string verdict(const std::optional<bool>& pass) { return !pass ? "told" : *pass ? "pass" : "FAIL"; }

std::string in_words(const EvidenceTable& table) {
  std::string out = table.title + "\n";
  for (const auto& row : table.rows)
    out += "  " + verdict(row.pass) + "  " + row.what + ": " + row.ours + "; published " + row.published +
           (row.difference.empty() ? "" : "; " + row.difference) + "  [" + row.source + "]\n";
  return out + verdict(table.pass) + ": " + table.summary + "\n";
}

Json as_json(const EvidenceTable& table) {
  Json rows = Json::array();
  for (const auto& row : table.rows) {
    Json entry{{"what", row.what}, {"ours", row.ours}, {"published", row.published}, {"source", row.source}, {"difference", row.difference}};
    if (row.pass) entry["pass"] = *row.pass;
    rows.push_back(std::move(entry));
  }
  return {{"schema", 1}, {"name", table.name}, {"title", table.title}, {"rows", rows}, {"summary", table.summary}, {"pass", table.pass}};
}

int all_summaries(const Options& options) {
  std::string text;
  Json list = Json::array();
  for (const auto& table : tables()) {
    const auto computed = table.compute();
    if (!computed) return tell(computed.error());
    text += std::string(table.name) + ": " + verdict(computed->pass) + ", " + computed->summary + "\n";
    list.push_back(Json{{"name", table.name}, {"summary", computed->summary}, {"pass", computed->pass}});
  }
  return print(options.json ? json_text(Json{{"schema", 1}, {"tables", list}}) : text);
}
} // namespace

int run_evidence(const Options& options) {
  if (options.arguments.empty()) return all_summaries(options);
  for (const auto& table : tables())
    if (options.arguments.front() == table.name) {
      const auto computed = table.compute();
      if (!computed) return tell(computed.error());
      return print(options.json ? json_text(as_json(*computed)) : in_words(*computed));
    }
  return tell({ProblemKind::usage, "there is no such table", "'" + options.arguments.front() + "'",
               "try formants, places, areas, speech, lexical-sets, ranking or rates"});
}

} // namespace mw::cli
