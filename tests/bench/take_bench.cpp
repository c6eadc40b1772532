#include "bench/bench.h"
#include "bench/ratio.h"
#include "bench/voices.h"
#include "espeak/espeak.h"
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
  const auto ratio = bench::compare(rounds, [&] { (void)make_take(request, voices); },
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
  return {take_against_look_up("take, line of 16 words", line), take_against_look_up("take, line of 8 words", short_line),
          known_words(line, **pronouncer), pose_and_outline(line, **pronouncer)};
}
const bool registered = bench::add("take", run);
} // namespace
