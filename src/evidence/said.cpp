#include "evidence/said.h"

#include "base/assets.h"
#include "base/text.h"
#include "evidence/lexical_sets.h"

namespace mw {
namespace {
constexpr std::array<double, 3> syllables_a_second{3.5, 4.8, 6.6}; // tract-model.md section 14
constexpr std::array<const char*, 2> accents{"GA", "SSBE"};

Result<SpeechPhrase> say(const std::string& text, bool hard, const Accent& accent, Pronouncer& pronouncer) {
  const auto said = pronounce(text, accent, pronouncer);
  if (!said) return said.error();
  SpeechPhrase phrase{accent.id, text, hard, {}};
  for (std::size_t i = 0; i < syllables_a_second.size(); ++i)
    phrase.tracks[i] = spell_out(*said, {.rate = syllables_a_second[i]});
  return phrase;
}

double percent_of(const SpeechCount& c) { return c.asked == 0 ? 100.0 : 100.0 * c.met / c.asked; }
} // namespace

Result<std::vector<SpeechPhrase>> say_phrases(Pronouncer& pronouncer, int every) {
  const auto text = read_asset("evidence/phrases.txt");
  if (!text) return text.error();
  std::vector<SpeechPhrase> phrases;
  for (const char* id : accents) {
    const auto accent = read_accent(id);
    if (!accent) return accent.error();
    int number = 0;
    for (const auto& raw : split(*text, '\n')) {
      const std::string line(trim(raw));
      if (line.empty() || line.front() == '#' || number++ % every != 0) continue;
      const bool hard = line.front() == '!';
      auto phrase = say(hard ? line.substr(1) : line, hard, *accent, pronouncer);
      if (!phrase) return phrase.error();
      phrases.push_back(std::move(*phrase));
    }
  }
  return phrases;
}

Result<EvidenceTable> speech_table(Pronouncer& pronouncer) {
  const auto anatomy = read_anatomy("adult-male");
  if (!anatomy) return anatomy.error();
  const auto phrases = say_phrases(pronouncer);
  if (!phrases) return phrases.error();
  const auto report = count_speech(**anatomy, *phrases);
  if (!report) return report.error();
  EvidenceTable table{.name = "speech", .title = "Running speech: what the moves achieve"};
  for (const auto& row : report->rows)
    for (std::size_t rate = 0; rate < speech_rates.size(); ++rate) {
      const SpeechCount& count = row.by_rate[rate];
      if (count.asked == 0) continue;
      const double aim = speech_aim(row.kind, rate);
      const bool pass = percent_of(count) >= aim;
      table.rows.push_back({.what = row.kind + ", " + std::string(speech_rates[rate]),
                            .ours = to_text(count.met) + " of " + to_text(count.asked) + " (" + to_text(percent_of(count), 2) + " %)",
                            .published = "at least " + to_text(aim, 1) + " %",
                            .source = "design of the tract model, tests 10 and 11",
                            .difference = count.misses.empty() ? "" : "first miss: " + count.misses.front(),
                            .pass = pass});
      table.pass = table.pass && pass;
    }
  table.summary = to_text(report->phrases) + " sayings; stressed vowels come within " +
                  to_text(report->stressed.mean_mm[0], 1) + " / " + to_text(report->stressed.mean_mm[1], 1) + " / " +
                  to_text(report->stressed.mean_mm[2], 1) + " mm of their place (careful, normal, fast)";
  return table;
}

Result<EvidenceTable> lexical_sets_table() {
  const auto report = lexical_sets_report();
  if (!report) return report.error();
  EvidenceTable table{.name = "lexical-sets", .title = "Lexical sets recovered from the two voices"};
  const auto add = [&](const std::string& what, const SetCount& c, double aim) {
    const double with = percent(c.with_overrides, c);
    const bool pass = with >= aim;
    table.rows.push_back({.what = what,
                          .ours = to_text(with, 1) + " % of " + to_text(c.words) + " (without the override list " +
                                  to_text(percent(c.by_voices, c), 1) + " %)",
                          .published = "at least " + to_text(aim) + " %",
                          .source = "sets of the words from memory of Wells 1982",
                          .difference = join(c.misses, ", "),
                          .pass = pass});
    table.pass = table.pass && pass;
  };
  for (int i = 0; i < lexical_set_count; ++i)
    if (const auto& count = report->sets[static_cast<std::size_t>(i)]; count.words > 0)
      add(std::string(to_keyword(static_cast<LexicalSet>(i))), count, 85);
  add("all", report->all, 97);
  add("keywords", report->core, 97);
  add("hard words", report->hard, 85);
  add("words not looked at while the rules were made", report->holdout, 95);
  table.summary = to_text(percent(report->all.with_overrides, report->all), 1) + " % of " + to_text(report->all.words) +
                  " words with the override list, " + to_text(percent(report->all.by_voices, report->all), 1) + " % without";
  return table;
}

} // namespace mw
