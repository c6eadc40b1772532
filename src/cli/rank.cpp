#include "base/assets.h"
#include "base/text.h"
#include "cli/commands.h"
#include "cli/json.h"
#include "cli/run.h"

#include <algorithm>

namespace mw::cli {
namespace {
struct Ranked {
  int line = 0;
  std::string text;
  Difficulty difficulty;
  std::vector<Clash> clashes;
  std::vector<Span> spots; // of the clashes, in the line
};

double value_of(const Ranked& r, const std::string& by) {
  const Difficulty& d = r.difficulty;
  return by == "slips" ? d.slips : by == "slowing" ? d.slowing : by == "late_start" ? d.late_start : by == "drift" ? d.drift : d.overall;
}

// words touched by a clash, as one stretch of the line
Span spot_of(const Take& take, const Clash& clash) {
  Span span{take.request.phrase.size(), 0};
  for (const std::size_t i : clash.segments) {
    const Word& word = take.pronunciation.words.at(static_cast<std::size_t>(take.track.segments.at(i).word));
    span.start = std::min(span.start, word.span.start);
    span.end = std::max(span.end, word.span.end);
  }
  return span.end == 0 ? Span{0, 0} : span;
}

std::string quoted(const std::string& cell) {
  if (cell.find_first_of(",\"\n\r") == std::string::npos) return cell;
  return "\"" + replace_all(cell, "\"", "\"\"") + "\"";
}

std::string csv_row(const Ranked& r) {
  const Difficulty& d = r.difficulty;
  const std::string reason = d.reasons.empty() ? "" : d.reasons.front();
  return to_text(r.line) + "," + to_text(d.slips, 4) + "," + to_text(d.slowing, 4) + "," +
         to_text(d.late_start, 4) + "," + to_text(d.drift, 4) + "," + to_text(d.overall, 4) + "," +
         quoted(d.label) + "," + quoted(reason) + "," + quoted(r.text) + "\n";
}

std::string json_row(const Ranked& r) {
  const Difficulty& d = r.difficulty;
  Json spots = Json::array();
  for (std::size_t i = 0; i < r.clashes.size(); ++i)
    spots.push_back(Json{{"start", r.spots[i].start}, {"end", r.spots[i].end}, {"kind", to_text(r.clashes[i].kind)},
                         {"level", r.clashes[i].level}, {"text", r.clashes[i].text}});
  return Json{{"line", r.line}, {"slips", number(d.slips)}, {"slowing", number(d.slowing)},
              {"late_start", number(d.late_start)}, {"drift", number(d.drift)}, {"overall", number(d.overall)},
              {"label", d.label}, {"reason", d.reasons.empty() ? "" : d.reasons.front()}, {"text", r.text}, {"spots", spots}}
             .dump(-1, ' ', false) +
         "\n";
}

// A line that cannot be said is told on standard error and left out; a broken installation ends the run.
Result<std::vector<Ranked>> rank_lines(const Options& options, const std::string& text) {
  std::vector<Ranked> ranked;
  int number_of_line = 0;
  Request request = to_request(options);
  for (const auto& raw : split(text, '\n')) {
    ++number_of_line;
    request.phrase = std::string(trim(raw));
    if (request.phrase.empty()) continue;
    auto take = take_of(request);
    if (!take && take.error().kind != ProblemKind::input) return take.error();
    if (!take) {
      Problem problem = take.error();
      problem.where = "line " + std::to_string(number_of_line) + (problem.where.empty() ? "" : ", " + problem.where);
      tell(problem);
      continue;
    }
    Ranked row{number_of_line, request.phrase, (*take)->difficulty, (*take)->clashes, {}};
    for (const auto& clash : row.clashes) row.spots.push_back(spot_of(**take, clash));
    ranked.push_back(std::move(row));
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
  if (!options.in_order)
    std::stable_sort(ranked->begin(), ranked->end(), [&](const Ranked& a, const Ranked& b) {
      return value_of(a, options.by) > value_of(b, options.by);
    });
  std::string out = options.json ? "" : "line,slips,slowing,late_start,drift,overall,label,reason,text\n";
  for (const auto& row : *ranked) out += options.json ? json_row(row) : csv_row(row);
  return print(out);
}

} // namespace mw::cli
