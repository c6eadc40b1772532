#include "score/planning.h"

#include <algorithm>
#include <cmath>

namespace mw {
namespace {
// shortest and longest vowel-to-vowel ramp (s): syllables quicker than the first leave vowels short of their targets
constexpr double shortest_ramp_s = 0.17, longest_ramp_s = 0.27;
constexpr double lip_lead_s = 0.04; // rounding starts in the consonants before the vowel
// a pause this long lets the mouth go back towards ready
constexpr double resting_pause_s = 0.30;

Ramp clipped(double lo, double hi) {
  const double length = std::clamp(hi - lo, shortest_ramp_s, longest_ramp_s);
  // too long: keep the end; too short: keep the middle
  const double middle = hi - lo > longest_ramp_s ? hi - 0.5 * length : 0.5 * (lo + hi);
  return {middle - 0.5 * length, middle + 0.5 * length};
}

/// The posture of a row with its free tip in the jaw frame.
Pose as_key(const Pose& row, const Anatomy& anatomy) {
  Pose key = row;
  const Vec2 tip = jaw_transform(anatomy, row.jaw_opening, row.jaw_forward).to_jaw({row.tip_x, row.tip_y});
  key.tip_x = tip.x;
  key.tip_y = tip.y;
  return key;
}

/// Mouth about to speak: schwa, lips and jaw a little open.
Pose ready_pose(const Pose& schwa, const Anatomy& anatomy) {
  Pose p = schwa;
  p.lip_opening = 3.0 * anatomy.lip_scale;
  p.jaw_opening = 3.5 * anatomy.jaw_x;
  return p;
}

/// A vowel of the base: a vowel unit, or the schwa that a syllabic consonant gives.
struct Nucleus {
  double start = 0, end = 0;
  const Target* target = nullptr;
  bool off_glide = false;
  std::size_t unit = 0;
};

std::vector<Nucleus> nuclei_of(const std::vector<Unit>& units, const Target& schwa) {
  std::vector<Nucleus> out;
  for (std::size_t i = 0; i < units.size(); ++i) {
    const Unit& u = units[i];
    if (u.vowel) out.push_back({u.start_s, u.end_s, &u.target, u.half == Half::second, i});
    else if (u.syllabic) out.push_back({u.start_s, u.end_s, &schwa, false, i});
  }
  std::ranges::stable_sort(out, {}, &Nucleus::start);
  return out;
}

/// [h] and the glottal stop take the shape of the vowel after them: the vowel's posture starts with them.
double shape_start(const std::vector<Unit>& units, double start) {
  for (const Unit& u : units)
    if (!u.vowel && u.target.place == "glottal" && std::abs(u.end_s - start) < 1e-6) start = u.start_s;
  return start;
}

Ramp ramp_into(const Nucleus& v, double start, const Nucleus* last) {
  const double end = last != nullptr ? last->end : std::max(start - 0.12, 0.02);
  const double length = last != nullptr ? last->end - last->start : 0.0;
  if (v.off_glide) return clipped(v.start - 0.7 * length, v.start + 0.85 * (v.end - v.start));
  return clipped(end - 0.5 * length, start + 0.3 * (v.end - start));
}

/// Longest silence between `from` and `to`, as its two ends; none shorter than a resting pause.
std::optional<Ramp> resting_pause(const std::vector<Unit>& units, double from, double to) {
  std::optional<Ramp> found;
  for (std::size_t i = 0; i + 1 < units.size(); ++i) {
    const Ramp gap{units[i].end_s, units[i + 1].start_s};
    if (gap.start < from - 1e-9 || gap.end > to + 1e-9 || gap.end - gap.start < resting_pause_s) continue;
    if (!found || gap.end - gap.start > found->end - found->start) found = gap;
  }
  return found;
}

void add_key(Base& base, const Pose& key, Ramp r, double lead, std::size_t unit) {
  base.keys.push_back(key);
  base.ramps.push_back(r);
  base.lip_ramps.push_back({r.start - lead, r.end - lead});
  base.units.push_back(unit);
}
} // namespace

double base_at(const Base& base, double Pose::*value, double t) {
  const auto& ramps = on_lips(value) ? base.lip_ramps : base.ramps;
  // neighbouring ramps may overlap and end out of order by some tens of milliseconds, never by a second
  const auto done = std::ranges::partition_point(ramps, [&](const Ramp& r) { return r.end < t - 1; }) - ramps.begin();
  auto k = static_cast<std::size_t>(done);
  double x = base.keys[k].*value;
  for (; k < ramps.size() && ramps[k].start < t + 1; ++k) {
    if (ramps[k].start >= t) continue; // not begun
    const double share = ramps[k].end <= t ? 1 : progress(ramps[k], t);
    x += share * (base.keys[k + 1].*value - base.keys[k].*value);
  }
  return x;
}

Result<Base> make_base(const std::vector<Unit>& units, const Anatomy& anatomy, const TargetTable& table,
                       const PostureShift& posture, double end_s) {
  const Target* schwa = table.vowel("ə");
  if (schwa == nullptr)
    return Problem{ProblemKind::missing, "the vowel table has no row for ə", anatomy.id, "install the program again"};
  const Pose ready = as_key(at_rest(ready_pose(schwa->pose, anatomy), posture), anatomy);
  Base base;
  base.keys.push_back(ready);
  Target weak = *schwa; // under syllabic consonants; the vowels of `units` stand in the posture already
  weak.pose = in_vowel(anatomy, weak.pose, posture);
  const auto nuclei = nuclei_of(units, weak);
  for (std::size_t k = 0; k < nuclei.size(); ++k) {
    const Nucleus& v = nuclei[k];
    const Nucleus* last = k > 0 ? &nuclei[k - 1] : nullptr;
    const double start = shape_start(units, v.start);
    // across a long pause the mouth relaxes towards ready; the vowel after it starts afresh, as at the beginning
    if (const auto pause = last != nullptr ? resting_pause(units, last->end, v.start) : std::nullopt) {
      add_key(base, ready, {pause->start + 0.05, std::min(pause->start + 0.30, pause->end)}, 0.0, Base::no_unit);
      last = nullptr;
    }
    add_key(base, as_key(v.target->pose, anatomy), ramp_into(v, start, last), v.off_glide ? 0.0 : lip_lead_s, v.unit);
  }
  add_key(base, ready, {end_s + 0.05, end_s + 0.30}, 0.0, Base::no_unit);
  return base;
}

} // namespace mw
