#include "score/planning.h"

#include <algorithm>
#include <cmath>

// Soft palate, vocal folds and larynx height: values pulled away from their rest between two ramps
// (tract-model.md section 10, Velum, Glottis). Times in seconds are fitted to published ranges.

namespace mw {
namespace {
using Units = std::vector<Unit>;

constexpr double fastest_folds_s = 0.035;

double last_obstruent_end(const Units& units, std::size_t i) {
  while (i-- > 0)
    if (is_obstruent(units[i])) return units[i].end_s;
  return -9;
}
double next_obstruent_start(const Units& units, std::size_t i) {
  for (; i < units.size(); ++i)
    if (is_obstruent(units[i])) return units[i].start_s;
  return 1e9;
}

/// The soft palate over one run of nasals, units first..last: open early in the vowel before, shut for the next obstruent.
Valve velum_over(const Units& units, std::size_t first, std::size_t last) {
  const double a = units[first].start_s, b = units[last].end_s, d = units[first].length();
  Valve v{{}, {}, units[first].target.pose.velum, first};
  for (std::size_t i = first; i <= last; ++i) v.value = std::max(v.value, units[i].target.pose.velum);
  v.in.start = std::max(a + 0.2 * d - 0.13, last_obstruent_end(units, first) - 0.01);
  v.in.end = std::max(a + 0.2 * d, v.in.start + 0.055);
  v.out = {b - 0.035, b + 0.095};
  const double limit = next_obstruent_start(units, last + 1) + 0.012;
  if (v.out.end > limit) v.out = {std::min(b - 0.035, limit - 0.06), limit};
  if (v.out.start < v.in.end) v.in.end = v.out.start = 0.5 * (v.out.start + v.in.end);
  return v;
}

/// A soft palate that hangs a little open by posture is shut over each run of obstruents: no air may escape by the nose.
void shut_for_obstruents(const Units& units, std::vector<Valve>& out) {
  for (std::size_t i = 0; i < units.size(); ++i) {
    if (!is_obstruent(units[i])) continue;
    const std::size_t first = i;
    while (i + 1 < units.size() && is_obstruent(units[i + 1])) ++i;
    const double a = units[first].start_s, b = units[i].end_s;
    // as quick as the shutting after a nasal (velum_over)
    out.push_back({{a - 0.06, a}, {b, b + 0.06}, 0.0, first});
  }
}

/// A row may let the uvula hang while the port stays shut (uvular stops, fricatives, trills): it stands in the mouth as long
/// as their constriction counts, and swings with it.
bool hangs_uvula(const Unit& u) { return !u.vowel && u.target.pose.velum > 0 && !is_nasal(u); }
void hang_uvula(const Units& units, std::vector<Valve>& out) {
  constexpr double swing_s = 0.06; // as quick as the shutting after a nasal (velum_over)
  for (std::size_t i = 0; i < units.size(); ++i) {
    if (!hangs_uvula(units[i])) continue;
    const std::size_t first = i;
    while (i + 1 < units.size() && hangs_uvula(units[i + 1])) ++i;
    const Unit &f = units[first], &l = units[i];
    const double from = f.start_s + f.effective_from * f.length(), to = l.start_s + l.effective_to * l.length();
    out.push_back({{from - swing_s, from}, {to, to + swing_s}, f.target.pose.velum, first});
  }
}

bool is_voiceless(const Unit& u) { return u.target.pose.glottis > 0.5 && u.target.place != "glottal"; }
bool is_stop(const Unit& u) { return u.target.manner == "stop" || u.target.manner == "affricate"; }
double release_of(const Unit& u) { return u.start_s + u.effective_to * u.length(); }

/// [h]: open in its middle; glottal stop: shut through its middle.
Valve glottal_sound(const Unit& u, std::size_t index) {
  const double a = u.start_s, b = u.end_s, d = u.length(), value = u.target.pose.glottis;
  if (value > 0.2) return {{a - 0.03, a + 0.45 * d}, {a + 0.55 * d, b + 0.04}, value, index};
  return {{a - 0.02, a + 0.3 * d}, {b - 0.3 * d, b + 0.02}, value, index};
}

/// One opening over a voiceless string: peak at the release of an aspirated stop, in the middle of a fricative.
Valve voiceless_string(const Units& units, std::size_t first, std::size_t last) {
  const Unit &f = units[first], &l = units[last];
  const bool last_opens = !is_stop(l) || l.aspirated;
  const double t1 = is_stop(f) && f.aspirated ? release_of(f) : f.start_s + 0.45 * f.length();
  double t2 = l.start_s; // an unaspirated last stop of a cluster: the folds come together during it
  if (is_stop(l) && l.aspirated) t2 = release_of(l) + 0.2 * l.length();
  else if (!is_stop(l) || first == last) t2 = l.start_s + 0.55 * l.length();
  const bool breathes_on = last + 1 < units.size() && !units[last + 1].vowel && l.aspirated;
  double off = last_opens ? l.end_s + (breathes_on ? 0.035 : 0.02) : l.start_s + 0.85 * l.length();
  const bool wide = std::any_of(units.begin() + static_cast<std::ptrdiff_t>(first),
                                units.begin() + static_cast<std::ptrdiff_t>(last) + 1,
                                [](const Unit& u) { return !is_stop(u) || u.aspirated; });
  t2 = std::max(t2, t1 + 0.002);
  double on = std::min(f.start_s - 0.012, t1 - 0.05);
  // the middle of a voiced vowel stays voiced, however short, as far as the folds can follow
  if (const Unit* p = before(units, first); p != nullptr && p->vowel)
    on = std::min(std::max(on, p->start_s + 0.6 * p->length()), t1 - fastest_folds_s);
  if (const Unit* n = after(units, last); n != nullptr && n->vowel) off = std::min(off, n->start_s + 0.4 * n->length());
  off = std::max(off, t2 + fastest_folds_s);
  return {{on, t1}, {t2, off}, wide ? 0.9 : 0.5, first};
}

/// Breathy, creaky or shut: neither plainly voiced nor voiceless.
bool has_own_phonation(const Unit& u) {
  const double g = u.target.pose.glottis;
  return !is_voiceless(u) && u.target.place != "glottal" && (g > 0.2 || g < 0.1);
}
Valve phonation(const Units& units, std::size_t first, std::size_t last) {
  const Unit &f = units[first], &l = units[last];
  return {{f.start_s - 0.02, f.start_s + 0.3 * f.length()},
          {l.end_s - 0.15 * l.length(), l.end_s + 0.02},
          f.target.pose.glottis,
          first};
}
} // namespace

std::vector<Valve> make_velum(const Units& units, double rest) {
  std::vector<Valve> out;
  if (rest > 0) shut_for_obstruents(units, out); // first: a nasal beside one keeps its own times
  hang_uvula(units, out);
  for (std::size_t i = 0; i < units.size(); ++i) {
    if (!is_nasal(units[i])) continue;
    const std::size_t first = i;
    while (i + 1 < units.size() && is_nasal(units[i + 1])) ++i;
    out.push_back(velum_over(units, first, i));
  }
  return out;
}

std::vector<Valve> make_glottis(const Units& units) {
  std::vector<Valve> out;
  for (std::size_t i = 0; i < units.size(); ++i) {
    const std::size_t first = i;
    const auto run_on = [&](auto&& alike) { while (i + 1 < units.size() && alike(units[i + 1])) ++i; };
    if (!units[i].vowel && units[i].target.place == "glottal") out.push_back(glottal_sound(units[i], i));
    else if (is_voiceless(units[i])) {
      run_on(is_voiceless);
      out.push_back(voiceless_string(units, first, i));
    } else if (has_own_phonation(units[i])) {
      run_on([&](const Unit& u) { return has_own_phonation(u) && u.target.pose.glottis == units[first].target.pose.glottis; });
      out.push_back(phonation(units, first, i));
    }
  }
  return out;
}

std::vector<Valve> make_larynx(const Units& units) {
  std::vector<Valve> out;
  for (std::size_t i = 0; i < units.size(); ++i) {
    const Unit& u = units[i];
    if (!has_larynx_move(u)) continue;
    // from closure to release; an affricate's or fricative's friction is pumped as long as it lasts
    const double release = release_of(u);
    const double start = std::min(u.start_s + u.effective_from * u.length(), release - 0.08); // no faster than 0.16 m/s
    out.push_back({{start, release}, {release + 0.02, release + 0.16}, u.target.pose.larynx, i});
  }
  return out;
}

} // namespace mw
