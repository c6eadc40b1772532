#include "evidence/ranking.h"

#include "base/assets.h"
#include "base/text.h"
#include "clash/norms.h"

#include <algorithm>
#include <set>

namespace mw {

namespace {

constexpr std::string_view pairs_file = "difficulty/ranking_pairs.csv";

struct AxisRow {
  std::string_view axis;
  Bar bar;
  std::string_view name;
};
constexpr std::array<AxisRow, 6> axis_table{{
    {"ERROR", Bar::slips, "slips"},
    {"VARIABILITY", Bar::slips, "slips"},
    {"RATE", Bar::slowing, "slowing"},
    {"DURATION", Bar::slowing, "slowing"},
    {"LATENCY", Bar::late_start, "late start"},
    {"STABILITY", Bar::drift, "drift"},
}};

const AxisRow* find_axis(std::string_view axis) {
  for (const AxisRow& row : axis_table)
    if (row.axis == axis) return &row;
  return nullptr;
}

Result<std::vector<RankingPair>> read_pairs(std::string_view csv) {
  const auto table = parse_csv(csv, std::string(pairs_file));
  if (!table) return table.error();
  std::array<std::size_t, 9> at{};
  constexpr std::array<std::string_view, 9> names{"id",     "harder",   "easier",     "axis",  "relation",
                                                  "source", "evidence", "population", "status"};
  for (std::size_t i = 0; i < names.size(); ++i) {
    auto column = table->column(names[i]);
    if (!column && names[i] == "source") column = table->column("source_key");
    if (!column)
      return Problem{.kind = ProblemKind::input, .what = "the column " + std::string(names[i]) + " is missing",
                     .where = std::string(pairs_file), .remedy = "name it in the first line"};
    at[i] = *column;
  }
  std::vector<RankingPair> pairs;
  for (const auto& row : table->rows)
    pairs.push_back({row[at[0]], row[at[1]], row[at[2]], row[at[3]], row[at[4]], row[at[5]], row[at[6]], row[at[7]], row[at[8]]});
  return pairs;
}

/// A sequence said again and again.
Result<Sequence> looped(const RankingPair& pair, const std::string& ipa) {
  const auto words = parse_transcription(ipa, Notation::ipa);
  if (words) return sequence_of(*words, true);
  Problem problem = words.error();
  problem.where = std::string(pairs_file) + ", pair " + pair.id;
  return problem;
}

// --- baselines: what a simple count would say ---

std::vector<const SoundFacts*> consonants(const Sequence& sequence) {
  std::vector<const SoundFacts*> found;
  for (const SequenceSyllable& syllable : sequence.syllables)
    for (Slot slot : all_slots)
      for (const SequenceSound& sound : syllable.at(slot))
        if (!sound.facts.vowel) found.push_back(&sound.facts);
  return found;
}

/// Changes of articulator from one consonant to the next, a syllable, round the loop.
double count_movements(const Sequence& sequence) {
  const auto found = consonants(sequence);
  double changes = 0;
  for (std::size_t i = 0; i < found.size(); ++i)
    changes += found[i]->articulator != found[(i + 1) % found.size()]->articulator ? 1 : 0;
  return changes / static_cast<double>(std::max<std::size_t>(1, sequence.syllables.size()));
}

double count_consonants(const Sequence& sequence) {
  return static_cast<double>(consonants(sequence).size()) / static_cast<double>(std::max<std::size_t>(1, sequence.syllables.size()));
}

bool agrees(double harder, double easier, bool null) { return null ? harder == easier : harder > easier; }

Result<RankingOutcome> judge_pair(const RankingPair& pair, const DifficultyData& data, const Norms& norms) {
  RankingOutcome outcome{.pair = pair};
  const auto harder = looped(pair, pair.harder), easier = looped(pair, pair.easier);
  if (!harder) return harder.error();
  if (!easier) return easier.error();
  const bool null = pair.relation == "no_reliable_difference";
  outcome.movements_agree = agrees(count_movements(*harder), count_movements(*easier), null);
  outcome.consonants_agree = agrees(count_consonants(*harder), count_consonants(*easier), null);
  const AxisRow* axis = find_axis(pair.axis);
  if (axis == nullptr) return outcome;
  const auto bar = static_cast<std::size_t>(axis->bar);
  outcome.judged = true;
  outcome.harder = bars_of(measure(*harder, data), norms)[bar];
  outcome.easier = bars_of(measure(*easier, data), norms)[bar];
  const double difference = outcome.harder - outcome.easier;
  outcome.holds = null ? difference < null_tolerance && -difference < null_tolerance : difference > 1e-9;
  return outcome;
}

EvidenceRow row_of(const RankingOutcome& o) {
  EvidenceRow row;
  const bool null = o.pair.relation == "no_reliable_difference";
  row.what = o.pair.id + ": " + o.pair.harder + (null ? " as hard as " : " over ") + o.pair.easier;
  row.source = o.pair.source + " [" + o.pair.status + "; evidence " + o.pair.evidence + "; " + o.pair.population + "]";
  row.published = null ? "no reliable difference in errors; ours within " + to_text(null_tolerance, 2) : "first is harder (" + o.pair.axis + ")";
  if (!o.judged) {
    row.ours = "no bar for this axis";
    return row;
  }
  row.ours = std::string(find_axis(o.pair.axis)->name) + ' ' + to_text(o.harder, 3) + " against " + to_text(o.easier, 3);
  row.difference = (o.harder >= o.easier ? "+" : "") + to_text(o.harder - o.easier, 3) + (o.holds ? "" : ", does not hold");
  if (o.pair.evidence == "A") row.pass = o.holds; // B is judged as a whole, C is told
  return row;
}

struct Tally {
  int all = 0, hold = 0, movements = 0, consonants = 0;
  void add(const RankingOutcome& o) {
    ++all;
    hold += o.holds ? 1 : 0;
    movements += o.movements_agree ? 1 : 0;
    consonants += o.consonants_agree ? 1 : 0;
  }
};

std::string share(int part, int all) { return to_text(part) + " of " + to_text(all); }

EvidenceRow tally_row(std::string what, const Tally& t, std::string demand, std::optional<bool> pass) {
  return {.what = std::move(what),
          .ours = share(t.hold, t.all),
          .published = std::move(demand),
          .source = "pairs above",
          .difference = "counting movements " + share(t.movements, t.all) + ", counting consonants " + share(t.consonants, t.all),
          .pass = pass};
}

constexpr double share_of_b = .85; // that must hold

} // namespace

Result<std::vector<RankingOutcome>> judge_pairs(std::string_view csv) {
  const auto pairs = read_pairs(csv);
  if (!pairs) return pairs.error();
  const auto& data = difficulty_data();
  if (!data) return data.error();
  const auto& norms = difficulty_norms();
  if (!norms) return norms.error();
  std::vector<RankingOutcome> outcomes;
  for (const RankingPair& pair : *pairs) {
    auto outcome = judge_pair(pair, *data, *norms);
    if (!outcome) return outcome.error();
    outcomes.push_back(std::move(*outcome));
  }
  return outcomes;
}

Result<EvidenceTable> ranking_table(std::string_view csv) {
  const auto outcomes = judge_pairs(csv);
  if (!outcomes) return outcomes.error();
  EvidenceTable table{.name = "ranking", .title = "Hard sequences: the four bars beside published experiments"};
  Tally a, b, c;
  for (const RankingOutcome& o : *outcomes) {
    table.rows.push_back(row_of(o));
    if (o.judged) (o.pair.evidence == "A" ? a : o.pair.evidence == "B" ? b : c).add(o);
  }
  const bool a_holds = a.hold == a.all, b_holds = b.hold >= share_of_b * b.all;
  table.rows.push_back(tally_row("all pairs of evidence A", a, "all hold", a_holds));
  table.rows.push_back(tally_row("all pairs of evidence B", b, "85 % hold", b_holds));
  table.rows.push_back(tally_row("all pairs of evidence C", c, "told only", std::nullopt));
  table.pass = a_holds && b_holds;
  table.summary = "A " + share(a.hold, a.all) + ", B " + share(b.hold, b.all) + ", C " + share(c.hold, c.all) +
                  " hold (counting movements: A " + share(a.movements, a.all) + ", B " + share(b.movements, b.all) +
                  "; counting consonants: A " + share(a.consonants, a.all) + ", B " + share(b.consonants, b.all) + ")";
  return table;
}

Result<EvidenceTable> ranking_table() {
  const auto csv = read_asset(std::string(pairs_file));
  if (!csv) return csv.error();
  return ranking_table(*csv);
}

} // namespace mw
