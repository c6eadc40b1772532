#include "evidence/rates.h"

#include "base/curve.h"
#include "base/text.h"
#include "clash/norms.h"
#include "clash/speeds.h"

#include <algorithm>
#include <cmath>

namespace mw {

namespace {

Result<Sequence> looped(std::string_view ipa) {
  const auto words = parse_transcription(ipa, Notation::ipa);
  if (!words) return words.error();
  return sequence_of(*words, true);
}

/// Highest rate, in steps of a hundredth of a syllable a second, that is judged no worse than `judgement`.
double highest_rate(const std::vector<SpeedLimit>& limits, SpeedJudgement judgement) {
  int hundredths = 100;
  while (hundredths < 2000 && judge_speed(limits, (hundredths + 1) / 100.0) <= judgement) ++hundredths;
  return hundredths / 100.0;
}

EvidenceRow number_row(std::string what, double ours, double published, double tolerance, std::string unit, std::string source) {
  return {.what = std::move(what), .ours = to_text(ours, 3) + unit, .published = to_text(published, 3) + unit,
          .source = std::move(source), .difference = (ours >= published ? "+" : "") + to_text(ours - published, 3),
          .pass = std::abs(ours - published) <= tolerance};
}

EvidenceRow claim_row(std::string what, std::string ours, std::string published, std::string source, bool holds) {
  return {.what = std::move(what), .ours = std::move(ours), .published = std::move(published), .source = std::move(source),
          .difference = holds ? "holds" : "does not hold", .pass = holds};
}

constexpr const char* icht = "Icht & Ben-David 2014, adults, five studies pooled [READ (abstract)]";

/// Where the ladder changes its word, against adults' fastest changing syllables.
Result<Done> add_zones(EvidenceTable& table) {
  const auto triplet = looped("ˈpʌ ˈtʌ ˈkʌ");
  if (!triplet) return triplet.error();
  const auto limits = speed_limits(*triplet);
  const std::string unit = " syllables/s";
  table.rows.push_back(number_row("changing syllables are called fast above", highest_rate(limits, SpeedJudgement::comfortable), 6.2, .05, unit, icht));
  table.rows.push_back(number_row("changing syllables are called beyond most speakers above", highest_rate(limits, SpeedJudgement::fast), 7.0, .05, unit,
                                  std::string(icht) + ", mean + one spread"));
  const auto word = [&](double rate) { return std::string(to_text(judge_speed(limits, rate))); };
  table.rows.push_back(claim_row("6.4 syllables/s", word(6.4), "fast: the mean of the fastest rates", "Icht & Ben-David 2014, Hebrew [READ (abstract)]",
                                 judge_speed(limits, 6.4) == SpeedJudgement::fast));
  table.rows.push_back(claim_row("6.57 syllables/s", word(6.57), "fast: the mean of the fastest rates", "Jordan 2022, young adults, Arabic [READ (abstract)]",
                                 judge_speed(limits, 6.57) == SpeedJudgement::fast));
  table.rows.push_back(claim_row("5.4 syllables/s", word(5.4), "comfortable: below it a fastest rate is looked into", icht,
                                 judge_speed(limits, 5.4) == SpeedJudgement::comfortable));
  return Done{};
}

/// One articulator alone: the order of lips, tip, back, and their ratio.
Result<Done> add_order(EvidenceTable& table) {
  double fastest[3] = {0, 0, 0};
  const char* ipa[3] = {"ˈpʌ ˈpʌ ˈpʌ", "ˈtʌ ˈtʌ ˈtʌ", "ˈkʌ ˈkʌ ˈkʌ"};
  for (int i = 0; i < 3; ++i) {
    const auto sequence = looped(ipa[i]);
    if (!sequence) return sequence.error();
    fastest[i] = speed_limits(*sequence).front().fast;
  }
  const std::string ours = to_text(fastest[0], 2) + ", " + to_text(fastest[1], 2) + ", " + to_text(fastest[2], 2) + " syllables/s";
  table.rows.push_back(claim_row("end of fast for lips, tip, back alone", ours, "falls from front to back (4.06, 3.90, 3.66)",
                                 "Isfahan 2017, older adults [READ (abstract)]", fastest[0] > fastest[1] && fastest[1] > fastest[2]));
  table.rows.push_back(number_row("back over lips", fastest[2] / fastest[0], 3.3 / 3.7, .05, "", "Fletcher 1972, age 13, 20 syllables in 3.3 and 3.7 s [READ (table)]"));
  table.rows.push_back({.what = "means behind the zones: lips, tip, back", .ours = "6.5, 6.4, 5.9 a second", .published = "about 6-7, 6-7, 5.5-6.5",
                        .source = "Kent, Kent & Rosenbek 1987 [FROM MEMORY]", .difference = "told only"});
  return Done{};
}

Result<double> slowing(std::string_view ipa) {
  const auto sequence = looped(ipa);
  if (!sequence) return sequence.error();
  const auto& data = difficulty_data();
  if (!data) return data.error();
  return measure(*sequence, *data).bar(Bar::slowing);
}

/// What slows a sequence, by order only.
Result<Done> add_slowing(EvidenceTable& table) {
  struct Fact {
    const char *slower, *quicker, *source;
  };
  constexpr Fact facts[] = {
      {"pa pa pa", "pa te ko", "Lancheros & Laganaro, adults [READ (abstract)]"},
      {"te te te", "te ko pa", "Lancheros & Laganaro, adults [READ (abstract)]"},
      {"ko ko ko", "ko pa te", "Lancheros & Laganaro, adults [READ (abstract)]"},
      {"pa ta ka", "ɡa ba", "Greek adults, 791 [READ (abstract)]"},
      {"ba da ɡa", "ka ta", "Greek adults, 791 [READ (abstract)]"},
  };
  for (const Fact& fact : facts) {
    const auto slower = slowing(fact.slower), quicker = slowing(fact.quicker);
    if (!slower) return slower.error();
    if (!quicker) return quicker.error();
    table.rows.push_back(claim_row(std::string(fact.slower) + " against " + fact.quicker,
                                   "slowing " + to_text(*slower, 3) + " against " + to_text(*quicker, 3), "the first is slower",
                                   fact.source, *slower > *quicker));
  }
  return Done{};
}

void add_curve(EvidenceTable& table) {
  const double peak = peak_over_mean();
  table.rows.push_back(number_row("peak over mean speed of a move", peak, 1.875, 1e-3, "", "minimum jerk [DERIVED]"));
  table.rows.push_back(claim_row("peak over mean speed of a move", to_text(peak, 3), "between constant speed (1) and least time under an acceleration limit (2)",
                                 "closed form [DERIVED]", peak > 1 && peak < 2));
  table.rows.push_back(number_row("integral of squared jerk of a move of size 1 in time 1", squared_jerk(), 720, .72, "", "minimum jerk [DERIVED]"));
}

} // namespace

double peak_over_mean() {
  constexpr int steps = 10000;
  double peak = 0;
  for (int i = 0; i < steps; ++i)
    peak = std::max(peak, (ramp((i + 1.0) / steps) - ramp(static_cast<double>(i) / steps)) * steps);
  return peak; // the mean speed of a move of size 1 in time 1 is 1
}

double squared_jerk() {
  // Third differences; the step balances rounding (about 1e-16 / h^3) against the curve's own bend.
  constexpr int steps = 1000;
  constexpr double h = 1.0 / steps;
  double sum = 0;
  for (int i = 2; i + 1 < steps; ++i) {
    const double q = i * h;
    const double jerk = (ramp(q + 1.5 * h) - 3 * ramp(q + .5 * h) + 3 * ramp(q - .5 * h) - ramp(q - 1.5 * h)) / (h * h * h);
    sum += jerk * jerk * h;
  }
  // The three steps left out at the two ends, where the jerk is 60.
  return sum + 3 * h * 60 * 60;
}

Result<EvidenceTable> rates_table() {
  if (const auto& data = difficulty_data(); !data) return data.error();
  if (const auto& norms = difficulty_norms(); !norms) return norms.error();
  EvidenceTable table{.name = "rates", .title = "Speed limits beside repetition tests and closed forms"};
  for (auto add : {add_zones, add_order, add_slowing})
    if (const auto done = add(table); !done) return done.error();
  add_curve(table);
  const auto failed = std::count_if(table.rows.begin(), table.rows.end(), [](const EvidenceRow& r) { return r.pass == false; });
  const auto checked = std::count_if(table.rows.begin(), table.rows.end(), [](const EvidenceRow& r) { return r.pass.has_value(); });
  table.pass = failed == 0;
  table.summary = to_text(static_cast<int>(checked - failed)) + " of " + to_text(static_cast<int>(checked)) + " checks hold";
  return table;
}

} // namespace mw
