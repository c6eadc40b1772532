#pragma once

#include "score/plan.h"

namespace mw {

// The steps of `plan`, in order (tract-model.md section 10). Each reads what the steps before it left.

/// One unit a segment, two for affricates and glides; rows with their marks applied.
Result<std::vector<Unit>> make_units(const SegmentTrack& track, const Anatomy& anatomy, const TargetTable& table);

/// Units more than this far apart have a pause between them and do not shape each other's timing (s).
inline constexpr double pause_s = 0.03;
/// The unit right before or after, none at a pause.
const Unit* before(const std::vector<Unit>& units, std::size_t i);
const Unit* after(const std::vector<Unit>& units, std::size_t i);

bool is_closure(const Unit& unit);   // stop, nasal, affricate, implosive, ejective, click
bool is_obstruent(const Unit& unit); // shuts the soft palate
bool is_nasal(const Unit& unit);     // opens it
/// Implosives and ejectives: the larynx is the pump, and moves during the hold.
bool has_larynx_move(const Unit& unit);

/// Sets aspiration, the stretch in which each consonant's constriction must be made, and th behind the teeth.
void set_effective(std::vector<Unit>& units, const Anatomy& anatomy);

/// The vowels under the consonants.
Result<Base> make_base(const std::vector<Unit>& units, const Anatomy& anatomy, const TargetTable& table,
                       const PostureShift& posture, double end_s);

/// Windows of one tier, in chains, their ramps settled.
std::vector<Chain> make_chains(Tier tier, const std::vector<Unit>& units, const Base& base, const Anatomy& anatomy);

/// `rest`: where the soft palate stands when nothing moves it; over 0, obstruents shut it.
std::vector<Valve> make_velum(const std::vector<Unit>& units, double rest);
std::vector<Valve> make_glottis(const std::vector<Unit>& units);
std::vector<Valve> make_larynx(const std::vector<Unit>& units);
/// Trills, clicks, releases by nose or side.
std::vector<Overlay> make_overlays(const std::vector<Unit>& units, const Anatomy& anatomy);

/// The plan as gestures, in order of onset.
std::vector<Gesture> make_gestures(const ScorePlan& plan);

} // namespace mw
