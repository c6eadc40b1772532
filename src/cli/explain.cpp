#include "base/text.h"
#include "clash/pattern.h"
#include "clash/speeds.h"
#include "cli/commands.h"
#include "cli/json.h"
#include "cli/run.h"
#include "take/moment.h"

namespace mw::cli {
namespace {
constexpr std::size_t shown_clashes = 3; // a student sees the three that matter; --json has them all

std::string names(const std::vector<Sound>& sounds) {
  std::string out;
  for (const auto& sound : sounds) out += (out.empty() ? "" : " ") + to_ipa(sound);
  return out.empty() ? "-" : out;
}

// one line per syllable: how it starts, its vowel, how it ends
std::string pattern(const Take& take) {
  std::string out;
  for (const auto& word : take.pronunciation.words)
    for (std::size_t i = 0; i < word.syllables.size(); ++i) {
      const Syllable& s = word.syllables[i];
      out += "  " + (i == 0 ? word.text : std::string("...")) + ": start " + names(s.onset) + ", vowel " + to_ipa(s.nucleus) +
             ", end " + names(s.coda) + (s.stress == 1 ? ", stressed" : s.stress == 2 ? ", half stressed" : "") + "\n";
    }
  // what comes round, is exchanged, or is almost the same
  for (const auto& line : split(to_text(find_pattern(take.track, take.request.loop)), '\n'))
    if (!line.empty()) out += "  " + line + "\n";
  return out;
}

std::string level_name(int level) { return level >= 3 ? "strong" : level == 2 ? "clear" : "mild"; }

std::string clash_lines(const Take& take) {
  if (take.clashes.empty()) return "No moves get in each other's way.\n";
  std::string out;
  for (std::size_t i = 0; i < take.clashes.size() && i < shown_clashes; ++i) {
    const Clash& c = take.clashes[i];
    const std::string title = c.title.empty() ? std::string(learner_name(c.kind)) : c.title;
    out += "  " + title + " (" + level_name(c.level) + ", at " + to_text(c.start_s, 2) + " s): " + c.text + "\n";
    if (!c.feel.empty()) out += "    Feel it: " + c.feel + "\n";
  }
  if (take.clashes.size() > shown_clashes)
    out += "  and " + std::to_string(take.clashes.size() - shown_clashes) + " more (--json lists them)\n";
  return out;
}

std::string bars(const Difficulty& d) {
  return "  Slips: " + d.bar_words[0] + "; Slowing: " + d.bar_words[1] + "; Late start: " + d.bar_words[2] +
         "; Drift: " + d.bar_words[3] + "\n";
}

std::string explain_text(const Take& take) {
  std::string out = take.request.phrase + "\n" + transcription(take.pronunciation) + "  (" + take.accent->name + ")\n";
  if (take.learner) out += transcription(take.learner_pronunciation) + "  (your own accent, " + take.learner->name + ")\n";
  out += "\nThe pattern of actions\n" + pattern(take);
  out += "\nWhere moves clash\n" + clash_lines(take);
  out += "\nHow hard: " + take.difficulty.label + "\n" + bars(take.difficulty);
  const auto limits = speed_limits(take.track, take.request.loop);
  if (!limits.empty())
    out += "  The pace is " + std::string(to_text(judge_speed(limits, take.request.rate))) + ". " +
           speed_text(limits, take.request.rate) + "\n";
  for (const auto& reason : take.difficulty.reasons) out += "  " + reason + "\n";
  if (!take.likely_slips.empty()) out += "\nLikely slip\n  " + take.likely_slips.front().text + "\n";
  if (!take.pronunciation.processes.empty()) {
    out += "\nIn running speech\n";
    for (const auto& p : take.pronunciation.processes) out += "  " + p.text + "\n";
  }
  if (!take.notes.empty()) {
    out += "\nNotes\n";
    for (const auto& note : take.notes) out += "  " + note.text + "\n";
  }
  return out + "\nComputed from the phrase; no one was measured. A model, not a medical picture; concerns about speech or "
               "voice belong with a licensed speech-language pathologist or a doctor.\n";
}
} // namespace

int run_explain(const Options& options) {
  const auto take = take_of(options);
  if (!take) return tell(take.error());
  return print(options.json ? json_text(explain_json(**take)) : explain_text(**take));
}

} // namespace mw::cli
