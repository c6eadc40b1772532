#include "clash/speeds.h"

#include "base/text.h"
#include "clash/measure.h"
#include "clash/tell.h"
#include "clash/telling.h"

#include <algorithm>
#include <cmath>

namespace mw {

namespace {

double mean_rate(Articulator articulator, const DifficultyData& data) {
  if (articulator == Articulator::lips) return data.weight("ceiling_lips");
  return data.weight(articulator == Articulator::tip ? "ceiling_tip" : "ceiling_body");
}

std::string_view easy_word(SpeedJudgement judgement) {
  return judgement == SpeedJudgement::comfortable ? "easy" : to_text(judgement);
}

} // namespace

std::string_view to_text(SpeedJudgement judgement) {
  switch (judgement) {
  case SpeedJudgement::comfortable: return "comfortable";
  case SpeedJudgement::fast: return "fast";
  case SpeedJudgement::beyond: return "beyond most speakers";
  }
  return "";
}

std::vector<SpeedLimit> speed_limits(const Sequence& sequence) {
  const auto& data = difficulty_data();
  if (!data || sequence.syllables.empty()) return {};
  const double spread = data->weight("ceiling_spread"), n = static_cast<double>(sequence.syllables.size());
  const std::vector<Return> returns = find_returns(sequence);
  std::vector<SpeedLimit> limits;
  for (Articulator articulator : {Articulator::lips, Articulator::tip, Articulator::body}) {
    const auto count = std::count_if(returns.begin(), returns.end(), [&](const Return& r) { return r.articulator == articulator; });
    if (count == 0) continue;
    const double m = static_cast<double>(count) / n, mean = mean_rate(articulator, *data);
    limits.push_back({articulator, m, (mean - 2 * spread) / m, (mean + spread) / m});
  }
  std::stable_sort(limits.begin(), limits.end(), [](const SpeedLimit& a, const SpeedLimit& b) { return a.fast < b.fast; });
  return limits;
}

std::vector<SpeedLimit> speed_limits(const SegmentTrack& track, bool loop) { return speed_limits(sequence_of(track, loop)); }

SpeedJudgement judge_speed(const SpeedLimit& limit, double rate) {
  if (rate <= limit.comfortable) return SpeedJudgement::comfortable;
  return rate <= limit.fast ? SpeedJudgement::fast : SpeedJudgement::beyond;
}

SpeedJudgement judge_speed(const std::vector<SpeedLimit>& limits, double rate) {
  SpeedJudgement worst = SpeedJudgement::comfortable;
  if (const auto& data = difficulty_data()) {
    const double mean = data->weight("phrase_mean"), spread = data->weight("phrase_spread");
    worst = rate > mean + spread ? SpeedJudgement::beyond : rate > mean ? SpeedJudgement::fast : worst;
  }
  for (const SpeedLimit& limit : limits) worst = std::max(worst, judge_speed(limit, rate));
  return worst;
}

std::string speed_text(const std::vector<SpeedLimit>& limits, double rate) {
  std::string text = "At " + to_text(rate, 1) + " syllables a second";
  std::string gap = ": ";
  for (SpeedJudgement judgement : {SpeedJudgement::beyond, SpeedJudgement::fast, SpeedJudgement::comfortable}) {
    std::vector<std::string> names;
    for (const SpeedLimit& limit : limits)
      if (judge_speed(limit, rate) == judgement) names.emplace_back(short_name(limit.articulator));
    if (names.empty()) continue;
    text += gap + listed(names) + ' ' + std::string(easy_word(judgement));
    gap = "; ";
  }
  return text + '.';
}

} // namespace mw
