#pragma once

#include "anatomy/anatomy.h"
#include "score/posture.h"
#include "score/targets.h"
#include "segments/track.h"

#include <array>
#include <memory>

namespace mw {

enum class Degree { closed, critical, narrow, open };
std::string_view to_text(Degree degree);

/// Who moves where, when: one articulator's move for one segment. Times are the ends of its two ramps (onset, reached =
/// closing ramp; release, offset = opening ramp).
struct Gesture {
  Articulator articulator = Articulator::tip;
  std::size_t segment = 0;
  double onset_s = 0, reached_s = 0, release_s = 0, offset_s = 0;
  double effective_from_s = 0, effective_to_s = 0; // the constriction counts as made in between
  bool primary = false; // this move makes the sound's own constriction
  bool vowel = false;   // a vowel's move (the base under the consonants)
  std::string place;    // IPA place; for vowels the vowel
  Degree degree = Degree::open;
  std::optional<double> opening_mm;
  std::size_t chain = 0; // moves of one articulator that hand over to each other share a chain
  bool operator==(const Gesture&) const = default;
};

/// What `bake` needs beyond the gestures; filled by `plan`, read by motion and clash. See score/plan.h for its parts.
struct ScorePlan;

/// The gestural score of a phrase, in order of onset.
struct Score {
  std::vector<Gesture> gestures;
  std::shared_ptr<const ScorePlan> plan;
  double duration_s = 0;
};

/// Plans every move (tract-model.md section 10). The posture shifts the mouth at rest, the vowels by a share, and whatever
/// a consonant leaves free; what makes a constriction stays. Problem (input) names a sound without a row.
Result<Score> plan(const SegmentTrack& track, std::shared_ptr<const Anatomy> anatomy, const PostureShift& posture = {});
/// The same with targets other than the speaker's own tables.
Result<Score> plan(const SegmentTrack& track, std::shared_ptr<const Anatomy> anatomy, const TargetTable& table,
                   const PostureShift& posture = {});

} // namespace mw
