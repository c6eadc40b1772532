#include "base/assets.h"
#include "base/csv.h"
#include "base/text.h"
#include "cli/commands.h"
#include "cli/json.h"
#include "cli/run.h"
#include "espeak/espeak.h"
#include "phrase/correct.h"
#include "practice/script.h"

#include <algorithm>

namespace mw::cli {
namespace {
double value_of(const RankedLine& r, const std::string& by) {
  const Difficulty& d = r.difficulty;
  return by == "slips" ? d.slips : by == "slowing" ? d.slowing : by == "late_start" ? d.late_start : by == "drift" ? d.drift : d.overall;
}

std::string csv_row(const RankedLine& r) {
  const Difficulty& d = r.difficulty;
  const std::string reason = d.reasons.empty() ? "" : d.reasons.front();
  return to_text(r.line.line) + "," + to_text(d.slips, 4) + "," + to_text(d.slowing, 4) + "," +
         to_text(d.late_start, 4) + "," + to_text(d.drift, 4) + "," + to_text(d.overall, 4) + "," +
         csv_cell(d.label) + "," + csv_cell(reason) + "," + csv_cell(r.line.text) + "\n";
}

std::string json_row(const RankedLine& r) {
  const Difficulty& d = r.difficulty;
  Json spots = Json::array();
  for (const auto& spot : r.spots)
    spots.push_back(Json{{"start", spot.span.start}, {"end", spot.span.end}, {"kind", to_text(spot.kind)}, {"level", spot.level},
                         {"text", spot.text}});
  return Json{{"schema", 1}, {"line", r.line.line}, {"slips", number(d.slips)}, {"slowing", number(d.slowing)},
              {"late_start", number(d.late_start)}, {"drift", number(d.drift)}, {"overall", number(d.overall)},
              {"label", d.label}, {"reason", d.reasons.empty() ? "" : d.reasons.front()}, {"text", r.line.text}, {"spots", spots}}
             .dump(-1, ' ', false) +
         "\n";
}

// A line that cannot be said is told on standard error and left out; a broken installation ends the run.
Result<std::vector<RankedLine>> rank_lines(const Options& options, const std::string& text) {
  const auto accent = read_accent(options.accent);
  if (!accent) return accent.error();
  std::optional<Accent> learner;
  if (!options.learner.empty()) {
    auto own = read_accent(options.learner);
    if (!own) return own.error();
    learner = std::move(*own);
  }
  auto pronouncer = open_espeak();
  if (!pronouncer) return pronouncer.error();
  // spots are told in JSON only, and only they need the moves
  std::shared_ptr<const Anatomy> speaker;
  if (options.json) {
    auto anatomy = read_anatomy(options.anatomy);
    if (!anatomy) return anatomy.error();
    speaker = std::move(*anatomy);
  }
  const auto own = read_own_words();
  for (const auto& note : own->notes) std::fprintf(stderr, "mouthwright: %s\n", note.text.c_str());
  const PronounceSettings settings{.notation = options.notation, .casual = options.casual,
                                   .corrections = options.corrections, .own_words = &own->corrections};
  std::vector<RankedLine> ranked;
  int number_of_line = 0;
  for (const auto& raw : split(text, '\n')) {
    ++number_of_line;
    const std::string line(trim(raw));
    if (line.empty()) continue;
    auto row = rank_line({number_of_line, "", line}, *accent, **pronouncer, settings,
                         learner ? &*learner : nullptr, speaker);
    if (!row && row.error().kind != ProblemKind::input) return row.error();
    if (row) ranked.push_back(std::move(*row));
    else {
      Problem problem = row.error();
      problem.where = "line " + std::to_string(number_of_line) + (problem.where.empty() ? "" : ", " + problem.where);
      tell(problem);
    }
  }
  return ranked;
}
} // namespace

int run_rank(const Options& options) {
  const std::string& name = options.arguments.front();
  auto text = options.from_standard_input ? Result<std::string>(name) : read_file(name);
  if (!text) return tell(text.error());
  if (const auto valid = decode_utf8(*text); !valid) return tell(valid.error());
  auto ranked = rank_lines(options, *text);
  if (!ranked) return tell(ranked.error());
  if (ranked->empty())
    return tell({ProblemKind::input, "no line can be said", options.from_standard_input ? "standard input" : name,
                 "name a file with a phrase on each line"});
  if (!options.in_order)
    std::stable_sort(ranked->begin(), ranked->end(), [&](const RankedLine& a, const RankedLine& b) {
      return value_of(a, options.by) > value_of(b, options.by);
    });
  std::string out = options.json ? "" : "line,slips,slowing,late_start,drift,overall,label,reason,text\n";
  for (const auto& row : *ranked) out += options.json ? json_row(row) : csv_row(row);
  return print(out);
}

} // namespace mw::cli
