#pragma once

#include "score/targets.h"

namespace mw {

/// Rows for letters that the tables do not hold but that follow from rows they do hold: mixed vowels (mixes.csv),
/// affricates, double closures, clicks with a voiced or nasal back closure. None if the letter does not follow.
Result<std::optional<Target>> composed_row(const Anatomy& anatomy, const TargetTable& table, const std::string& letter);

/// `share` of `b`, the rest of `a`, on every value.
Pose mix(const Pose& a, const Pose& b, double share);

/// A closing glide closes (visual.md 7, item 11; tract-model.md section 10): where the end is not clearly higher and its
/// jaw not clearly more closed than the start, the end is drawn on towards i (front) or u (back) until it is, or until
/// it is that vowel.
Target draw_on(const Anatomy& anatomy, const TargetTable& table, const Target& start, Target end);

/// Whether a glide between these vowel letters closes: its end is close-mid or closer and closer than its start.
bool is_closing(std::string_view start_letter, std::string_view end_letter);

} // namespace mw
