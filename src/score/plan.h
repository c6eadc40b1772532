#pragma once

#include "score/dorsal.h"
#include "score/score.h"

#include <span>

namespace mw {

/// Groups of articulator values that move together (tract-model.md section 10, Tiers).
enum class Tier { jaw, lips, tip, blade, body };
inline constexpr std::size_t tier_count = 5;
inline constexpr std::size_t tier_width = 5; // most channels in one tier
inline constexpr std::array<Tier, tier_count> all_tiers{Tier::jaw, Tier::lips, Tier::tip, Tier::blade, Tier::body};
inline std::size_t index_of(Tier tier) { return static_cast<std::size_t>(tier); }

/// One channel of a tier: which value it moves, which weight of a row speaks for it, whether it measures a movement in mm.
struct TierChannel {
  double Pose::*value;
  double Target::*weight;
  bool size;
};
std::span<const TierChannel> channels_of(Tier tier);

/// A minimum-jerk ramp from 0 at `start` to 1 at `end`, seconds.
struct Ramp {
  double start = 0, end = 0;
  bool operator==(const Ramp&) const = default;
};
inline double progress(const Ramp& r, double t) { return ramp((t - r.start) / (r.end - r.start)); }

enum class Half { whole, first, second };

/// A segment, or half of an affricate or of a glide: what one row asks for, from when to when.
struct Unit {
  std::string symbol;
  double start_s = 0, end_s = 0;
  Target target;
  bool vowel = false;
  Half half = Half::whole;
  std::size_t segment = 0;
  bool onset = false, stressed_onset = false, word_initial = false, syllabic = false;
  bool aspirated = false;
  double effective_from = 0, effective_to = 1; // shares of the unit; consonants, after the neighbours have had their say
  std::string mark{};                          // by a written mark: aspirated, unaspirated, nasal or lateral release
  [[nodiscard]] double length() const { return end_s - start_s; }
};

/// One consonant's window on one tier. Between its two ramps it holds `weight` shares of the channels at `target`.
struct Move {
  std::size_t unit = 0;
  std::array<double, tier_width> weight{};
  std::array<double, tier_width> target{};
  bool primary = false;
  double effective_from_s = 0, effective_to_s = 0;
  Ramp in, out;
  const DorsalCurve* curve = nullptr; // height of the body over its backness; body tier of dorsal rows
  bool between_teeth = false;         // tip tier: the tip stands between the teeth
};
/// Moves of one tier that hand over to each other without falling back to the vowel.
struct Chain {
  std::vector<Move> moves;
};

/// The vowels under the consonants: posture k is left for posture k + 1 along ramp k (lips along their own, earlier one).
/// The tip of every posture is kept in the JAW frame: a free tip rides on the jaw.
struct Base {
  std::vector<Pose> keys;
  std::vector<Ramp> ramps, lip_ramps;
  std::vector<std::size_t> units; // keys[k + 1] belongs to unit units[k]; no_unit for a resting posture
  static constexpr std::size_t no_unit = static_cast<std::size_t>(-1);
};
inline bool on_lips(double Pose::*value) {
  return value == &Pose::lip_opening || value == &Pose::lip_protrusion || value == &Pose::lip_rounding ||
         value == &Pose::lip_tuck;
}
double base_at(const Base& base, double Pose::*value, double t);

/// A value pulled towards `value` between two ramps: soft palate, vocal folds, larynx height.
struct Valve {
  Ramp in, out;
  double value = 0;
  std::size_t unit = 0;
};
/// A value added on top between two ramps: the pocket of a click, the beats of a trill (`cycles` > 0: a sine).
struct Overlay {
  double Pose::*value = nullptr;
  Ramp in, out;
  double amount = 0;
  int cycles = 0;
  std::size_t unit = 0;
};

/// Everything `bake` needs, everything clash finding reads.
struct ScorePlan {
  std::shared_ptr<const Anatomy> anatomy;
  std::vector<Unit> units;
  Base base;
  std::array<std::vector<Chain>, tier_count> chains; // by Tier, in order of time
  std::vector<Valve> velum, glottis, larynx;
  std::vector<Overlay> overlays;
  double rest_velum = 0, rest_glottis = 0.12; // voiced; what the valves pull away from, posture included
  double speech_end_s = 0, duration_s = 0;
};

} // namespace mw
