#include "cli/commands.h"

#include "espeak/espeak.h"

namespace mw::cli {

const std::vector<Command>& commands() {
  static const std::vector<Command> table{
      {"explain", "PHRASE", opt_phrase | opt_anatomy | opt_json | opt_learner, "how it is said, where moves clash, why it is hard", run_explain},
      {"motion", "PHRASE", opt_phrase | opt_anatomy | opt_fps | opt_gaps, "every articulator value over time, as CSV", run_motion},
      {"shape", "SEGMENT", opt_notation | opt_draw | opt_size | opt_transparent | opt_write | opt_json | opt_end,
       "one sound: its shape, measures and picture", run_shape},
      {"frames", "PHRASE",
       opt_phrase | opt_draw | opt_time | opt_fps | opt_size | opt_captions | opt_transparent | opt_write | opt_resume | opt_every |
           opt_learner | opt_slips,
       "the moving mouth as numbered PNG pictures", run_frames},
      {"strip", "PHRASE", opt_phrase | opt_draw | opt_size | opt_captions | opt_write | opt_learner, "one picture, a cell for each sound", run_strip},
      {"pattern", "PHRASE", opt_phrase | opt_draw | opt_size | opt_captions | opt_write, "one picture: who moves in each place of the syllable", run_pattern},
      {"sheet", "PHRASE...", opt_phrase | opt_draw | opt_paper | opt_write | opt_learner, "a handout, a page for each phrase or line of a lesson", run_sheet},
      {"chart", "", opt_draw | opt_paper | opt_part | opt_size | opt_write, "the whole IPA chart as small mouths", run_chart},
      {"accents", "[ID]", opt_json | opt_check | opt_with | opt_theme | opt_size | opt_write, "the accents, every value of one, or its vowels as a picture", run_accents},
      {"compare", "PHRASE", opt_phrase | opt_json | opt_with | opt_draw | opt_size | opt_write | opt_at,
       "a phrase in two accents: sounds that differ, vowels that merge; also as a picture", run_compare},
      {"rank", "FILE", opt_phrase | opt_anatomy | opt_json | opt_rank | opt_learner, "the lines of a script, hardest first", run_rank},
      {"evidence", "[TABLE]", opt_json, "the model's figures beside published ones", run_evidence},
  };
  return table;
}

Result<std::shared_ptr<const Take>> take_of(const Request& request) {
  auto pronouncer = open_espeak();
  if (!pronouncer) return pronouncer.error();
  return make_take(request, **pronouncer);
}

std::string transcription(const Pronunciation& said) {
  std::string line;
  for (const auto& word : said.words) {
    if (!line.empty()) line += " ";
    line += to_ipa(word);
    if (word.group_end && &word != &said.words.back()) line += " |";
  }
  return "/" + line + "/";
}

} // namespace mw::cli
