#pragma once

#include "app/session.h"
#include "scene/pattern_findings.h"

#include <memory>
#include <optional>

namespace mw::app {

/// The pattern of a take, found once and kept as long as this take is shown.
const ShownPattern& pattern_of(const std::shared_ptr<const Take>& take);

/// Whether keys mean the pattern now: it is in front, with a take.
bool shows_pattern(const Session& session);
/// The finding whose words stand in the card: in hand, else the strongest; none without findings.
std::optional<std::size_t> shown_finding(const Session& session);

/// This finding in hand, paused at its first sound. The clash that says the same is in hand with it, so that the mouth lights.
void take_finding(Session& session, std::size_t finding);
/// The next (1) or the one before (-1) in order of strength, round the ends.
void go_to_finding(Session& session, int direction);
/// Loops the stretch of the finding in hand, slowly, and plays.
void loop_finding(Session& session);

/// A syllable on (1) or back (-1), or a lane down (1) or up (-1), to the sound that stands there; stops playing.
void go_by_syllable(Session& session, int direction);
void go_by_lane(Session& session, int direction);

/// What the pattern remembers between pictures: marks come in over 150 ms, and which of two findings is nearer to now is
/// settled at most once a second, so that no mark goes off and on within one.
void follow_pattern(Session& session, double wall_s, bool at_once);
/// Whether `follow_pattern` would still change something by itself.
bool is_settling(const Session& session);

} // namespace mw::app
