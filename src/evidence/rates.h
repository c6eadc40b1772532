#pragma once

#include "evidence/evidence.h"

namespace mw {

/// Fastest repetitions and closed-form facts of movement beside ours: where the ladder calls a rate fast, the order of
/// lips, tip and back, changing against repeated syllables, the speed curve of one move.
Result<EvidenceTable> rates_table();

/// Peak speed of one move over its mean speed, and the integral of squared jerk of a move of size 1 in time 1, both
/// measured on the curve that every articulator follows.
double peak_over_mean();
double squared_jerk();

} // namespace mw
