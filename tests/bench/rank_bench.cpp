#include "bench/bench.h"
#include "bench/ratio.h"
#include "bench/voices.h"
#include "espeak/espeak.h"
#include "practice/script.h"
#include "support/own_phrases.h"

namespace {
using namespace mw;

constexpr std::size_t script_lines = 10000;

/// 10,000 lines against the look-up of their words: with every word asked for anew in each line, and once in the script.
std::vector<bench::Figures> run() {
  const auto pronouncer = open_espeak();
  const auto accent = read_accent("GA");
  if (!pronouncer || !accent) return {{"rank", 0, 0, 0, "the library or the accent is missing"}};
  const auto phrases = test::own_phrases();
  bench::ForgetfulPronouncer asking;
  for (const auto& phrase : phrases) (void)rank_line({.line = 1, .part = "", .text = phrase.text}, *accent, asking, {});
  std::vector<std::string> words;
  for (std::size_t i = 0; words.size() < asking.asked.size() * script_lines / phrases.size(); ++i)
    words.push_back(asking.asked[i % asking.asked.size()]);
  constexpr int rounds = 3;
  const auto ratio = bench::compare(bench::thread_us, rounds,
      [&] {
        for (std::size_t i = 0; i < script_lines; ++i)
          (void)rank_line({.line = 1, .part = "", .text = phrases[i % phrases.size()].text}, *accent, **pronouncer, {});
      },
      [&] { (void)bench::bare_look_up(words); });
  return {{"rank 10,000 lines, words kept", ratio.ours_us, ratio.ours_us, 0,
           bench::ratio_note(ratio, "bare look-up of all their " + std::to_string(words.size()) + " words", rounds)}};
}
const bool registered = bench::add("rank", run);
} // namespace
