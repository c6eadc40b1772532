#include "accent/shared.h"
#include "bench/bench.h"
#include "bench/ratio.h"
#include "bench/voices.h"
#include "clash/analysis.h"
#include "espeak/espeak.h"
#include "phrase/correct.h"
#include "take/posture.h"
#include "take/take.h"
#include "tract/outline.h"

namespace {
using namespace mw;

/// The words that the program asks the voices for: each once, the ones it knows by itself left out.
std::vector<std::string> words_of(const Request& request) {
  bench::ForgetfulPronouncer voices;
  if (!make_take(request, voices)) return {};
  return voices.asked;
}

bench::Figures take_against_look_up(const std::string& name, const Request& request) {
  constexpr int rounds = 41;
  const auto words = words_of(request);
  bench::ForgetfulPronouncer voices;
  const auto ratio = bench::compare(bench::thread_us, rounds, [&] { (void)make_take(request, voices); },
                                    [&] { (void)bench::bare_look_up(words); });
  const long before = bench::allocations();
  (void)make_take(request, voices);
  return {name, ratio.ours_us, ratio.ours_us, static_cast<double>(bench::allocations() - before),
          bench::ratio_note(ratio, "bare look-up of its " + std::to_string(words.size()) + " words", rounds)};
}

bench::Figures known_words(const Request& request, Pronouncer& pronouncer) {
  (void)make_take(request, pronouncer);
  return bench::measure("take, words looked up before", 1, 40, [&](std::size_t) { (void)make_take(request, pronouncer); });
}

/// Where the time of a take goes once its words are known.
std::vector<bench::Figures> stages(const Request& request, Pronouncer& pronouncer) {
  const auto made = make_take(request, pronouncer);
  if (!made) return {{"stages", 0, 0, 0, made.error().what}};
  const Take& t = **made;
  std::vector<bench::Figures> rows;
  const auto row = [&](const char* name, const std::function<void()>& call) {
    rows.push_back(bench::measure(std::string("  ") + name, 1, 40, [&](std::size_t) { call(); }));
  };
  const Analysis analysis = analyse(t.track, request.loop);
  row("what is kept: speaker, rows, accent, own words", [&] {
    (void)read_anatomy(request.anatomy);
    (void)read_targets(*t.anatomy);
    (void)read_shared_accent(request.accent);
    (void)read_own_words();
  });
  row("pronounce", [&] { (void)pronounce(request.phrase, *t.accent, pronouncer, {}); });
  row("spell_out", [&] { (void)spell_out(t.pronunciation, {}); });
  row("plan", [&] { (void)plan(t.track, t.anatomy, to_shift(t.accent->posture)); });
  row("bake", [&] { (void)bake(t.score); });
  row("analyse", [&] { (void)analyse(t.track, false); });
  row("find_clashes", [&] { (void)find_clashes(t.pronunciation, t.track, t.score, analysis); });
  row("judge", [&] { (void)judge(t.pronunciation, t.track, t.score, t.motion, t.clashes, analysis); });
  row("a take copied and let go", [&] { const Take copy = t; });
  row("find_likely_slips", [&] { (void)find_likely_slips(t.pronunciation, t.track, analysis); });
  return rows;
}

bench::Figures pose_and_outline(const Request& request, Pronouncer& pronouncer) {
  const auto take = make_take(request, pronouncer);
  if (!take) return {"pose_at + trace", 0, 0, 0, take.error().what};
  Tracer tracer((*take)->anatomy);
  constexpr std::size_t moments = 200;
  auto figures = bench::measure("pose_at + trace", moments, 5, [&](std::size_t i) {
    (void)tracer.trace(pose_at((*take)->motion, (*take)->duration_s * static_cast<double>(i) / moments));
  });
  return figures;
}

std::vector<bench::Figures> run() {
  const auto pronouncer = open_espeak();
  if (!pronouncer) return {{"take", 0, 0, 0, pronouncer.error().what}};
  const Request line{.phrase = "The kettle mender sang to a puzzled spaniel while seven cold tin cakes cooled in the window."};
  const Request short_line{.phrase = "The kettle mender sang to a puzzled spaniel."};
  std::vector<bench::Figures> rows{take_against_look_up("take, line of 16 words", line),
                                   take_against_look_up("take, line of 8 words", short_line),
                                   known_words(line, **pronouncer)};
  for (const auto& row : stages(line, **pronouncer)) rows.push_back(row);
  rows.push_back(pose_and_outline(line, **pronouncer));
  return rows;
}
const bool registered = bench::add("take", run);
} // namespace
