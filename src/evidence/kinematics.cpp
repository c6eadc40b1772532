#include "evidence/kinematics.h"

#include "evidence/speech.h"
#include "motion/motion.h"
#include "score/disc_gaps.h"
#include "score/plan.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace mw {
namespace {
struct Closing {
  double size_mm, peak_cm_s, place;
};
struct Sample {
  std::map<Tier, std::vector<Closing>> closings;
  std::vector<double> velum_lead_ms, overlap_percent;
  std::array<std::vector<double>, 3> hold_ms;
  int held = 0;
};

/// What measures a closing movement: every channel in mm but protrusion, which does not close.
bool closes(const TierChannel& c) { return c.size && c.value != &Pose::lip_protrusion; }

double speed_cm_s(const Motion& m, Tier tier, double t) {
  constexpr double h = 0.001;
  const Pose before = pose_at(m, t - h), after = pose_at(m, t + h);
  double sum = 0;
  for (const auto& c : channels_of(tier))
    if (closes(c)) sum += std::pow((after.*c.value - before.*c.value) / (2 * h), 2);
  return std::sqrt(sum) / 10;
}

/// A closing movement between its 20 % speed thresholds; nothing if it is under 3 mm.
std::optional<Closing> closing_of(const Motion& m, Tier tier, Ramp in) {
  double sum = 0;
  const Pose from = pose_at(m, in.start), to = pose_at(m, in.end);
  for (const auto& c : channels_of(tier))
    if (closes(c)) sum += std::pow(to.*c.value - from.*c.value, 2);
  if (sum < 9 || in.end - in.start < 0.02) return {};
  std::vector<double> v;
  for (double t = in.start; t <= in.end; t += 0.002) v.push_back(speed_cm_s(m, tier, t));
  const auto peak = std::ranges::max_element(v);
  const auto over = [&](double x) { return x > 0.2 * *peak; };
  const auto first = std::ranges::find_if(v, over);
  const auto last = std::find_if(v.rbegin(), v.rend(), over).base() - 1;
  const auto length = static_cast<double>(std::max<std::ptrdiff_t>(last - first, 1));
  return Closing{std::sqrt(sum), *peak, static_cast<double>(peak - first) / length};
}

struct Passage {
  const Anatomy& anatomy;
  const DiscWalls& walls;
  [[nodiscard]] bool shut(const Pose& p, Primary by, bool nasal) const {
    const double gap = by == Primary::lips  ? p.lip_opening
                       : by == Primary::tip ? tip_gap(anatomy, walls, p)
                                            : body_gap(anatomy, walls, p, nasal);
    return gap <= 0.05;
  }
};

/// Nothing if an earlier nasal had opened the soft palate.
void add_velum_lead(Sample& k, const Motion& m, const Unit& nasal) {
  double t = nasal.start_s;
  while (t > nasal.start_s - 0.2 && pose_at(m, t).velum > 0.1) t -= 0.002;
  if (t > nasal.start_s - 0.2) k.velum_lead_ms.push_back(1000 * (nasal.start_s - t));
}

void add_overlap(Sample& k, const Motion& m, const Passage& passage, const Unit& a, const Unit& b) {
  int first = 0, second = 0, both = 0;
  bool unbroken = true;
  const bool nasal = b.target.pose.velum > 0.5;
  for (double t = a.start_s - 0.05; t < b.end_s + 0.05; t += 0.001) {
    const Pose p = pose_at(m, t);
    const bool x = passage.shut(p, a.target.primary, nasal), y = passage.shut(p, b.target.primary, nasal);
    first += x ? 1 : 0;
    second += y ? 1 : 0;
    both += x && y ? 1 : 0;
    if (t > a.start_s + 0.3 * a.length() && t < b.end_s - 0.6 * b.length()) unbroken = unbroken && (x || y);
  }
  k.overlap_percent.push_back(100.0 * both / std::max(std::min(first, second), 1));
  k.held += unbroken ? 1 : 0;
}

void add_hold(Sample& k, const Motion& m, const Passage& passage, const Unit& stop) {
  int shut = 0;
  for (double t = stop.start_s - 0.06; t < stop.end_s + 0.06; t += 0.001)
    shut += passage.shut(pose_at(m, t), stop.target.primary, false) ? 1 : 0;
  const std::size_t part = stop.target.primary == Primary::lips ? 0 : stop.target.primary == Primary::tip ? 1 : 2;
  k.hold_ms[part].push_back(shut);
}

void add_phrase(Sample& k, const Score& score, const Passage& passage) {
  const Motion m = bake(score);
  for (const Tier tier : {Tier::lips, Tier::tip, Tier::body})
    for (const Chain& chain : score.plan->chains[index_of(tier)])
      for (const Move& move : chain.moves)
        if (move.primary)
          if (const auto closing = closing_of(m, tier, move.in)) k.closings[tier].push_back(*closing);
  const auto& units = score.plan->units;
  for (std::size_t i = 1; i < units.size(); ++i) {
    const Unit &a = units[i - 1], &b = units[i];
    const auto stop = [](const Unit& u) { return !u.vowel && u.target.manner == "stop" && u.target.place != "glottal"; };
    if (b.target.pose.velum > 0.5 && a.vowel) add_velum_lead(k, m, b);
    if (stop(a) && (stop(b) || b.target.manner == "nasal") && a.target.primary != b.target.primary)
      add_overlap(k, m, passage, a, b);
    if (a.vowel && stop(b) && i + 1 < units.size() && units[i + 1].vowel) add_hold(k, m, passage, b);
  }
}

double mean(const std::vector<double>& v) {
  double sum = 0;
  for (const double x : v) sum += x;
  return v.empty() ? 0 : sum / static_cast<double>(v.size());
}

double correlation(const std::vector<double>& x, const std::vector<double>& y) {
  const double mx = mean(x), my = mean(y);
  double xx = 0, yy = 0, xy = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    xx += (x[i] - mx) * (x[i] - mx);
    yy += (y[i] - my) * (y[i] - my);
    xy += (x[i] - mx) * (y[i] - my);
  }
  return xx > 0 && yy > 0 ? xy / std::sqrt(xx * yy) : 0;
}

ClosingFigures figures_of(const std::vector<Closing>& closings) {
  std::vector<double> size, peak, place;
  for (const Closing& c : closings) {
    size.push_back(c.size_mm);
    peak.push_back(c.peak_cm_s);
    place.push_back(c.place);
  }
  return {static_cast<int>(closings.size()), mean(size), mean(peak), mean(place), correlation(size, peak)};
}
} // namespace

Result<Kinematics> measure_kinematics(std::size_t rate, std::size_t every) {
  const auto anatomy = read_anatomy("adult-male");
  if (!anatomy) return anatomy.error();
  const auto phrases = read_speech_phrases();
  if (!phrases) return phrases.error();
  const Passage passage{**anatomy, disc_walls(**anatomy)};
  Sample k;
  for (std::size_t i = 0; i < phrases->size(); i += every) {
    const auto score = plan((*phrases)[i].tracks[rate], *anatomy);
    if (!score) return score.error();
    add_phrase(k, *score, passage);
  }
  Kinematics out;
  out.tip = figures_of(k.closings[Tier::tip]);
  out.body = figures_of(k.closings[Tier::body]);
  out.lips = figures_of(k.closings[Tier::lips]);
  out.velum_lead_ms = mean(k.velum_lead_ms);
  out.overlap_percent = mean(k.overlap_percent);
  out.clusters = static_cast<int>(k.overlap_percent.size());
  out.held = k.held;
  for (std::size_t part = 0; part < 3; ++part) out.hold_ms[part] = mean(k.hold_ms[part]);
  return out;
}

} // namespace mw
