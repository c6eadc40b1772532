#pragma once

#include "accent/accent.h"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace mw {

// An accent in a coach's hands. Every edit is a function from one value to the next; it changes what it names and the
// rules or sets that say the same thing (edit_rules.cpp), and nothing else. `start` is the accent that the coach's own
// one began as: what was apart there comes back as it was.

/// Source and status of whatever a coach sets.
inline constexpr std::string_view coach_source = "the coach", coach_status = "yours";

/// A copy under another id and name that remembers what it is based on.
Accent copy_of(const Accent& start, std::string id, std::string name);

/// The vowel of a set, with its own marks; an r after it stays. Rules that the vowels decide follow.
Accent with_vowel(const Accent& accent, LexicalSet set, const Sound& vowel);
/// The vowel that a set has in a special place ("before l in its syllable"); its r stays. The accent as it is where the set
/// has no such row.
Accent with_context_vowel(const Accent& accent, LexicalSet set, std::string_view context, const Sound& vowel);
/// Both sets have the vowel of `onto`.
Accent with_merged(const Accent& accent, LexicalSet set, LexicalSet onto);
/// One set as it was at the start, with its rows for special places.
Accent put_back(const Accent& accent, LexicalSet set, const Accent& start);

/// A rule's value. Rules that stand in the vowels move their sets. Problem (input): no such rule or value.
Result<Accent> with_rule(const Accent& accent, std::string_view rule, std::string_view value, const Accent& start);
/// A shift of the mouth at rest, in the unit of the channel, held within what the channel allows. Problem (input): no
/// such channel.
Result<Accent> with_posture(const Accent& accent, std::string_view channel, double shift);
/// Another name; blank ones and line breaks are refused (input).
Result<Accent> with_name(const Accent& accent, std::string_view name);

/// Whether two vowels are one but for length and a following r: what a merger means.
bool same_vowel(const Sound& one, const Sound& other);
/// What of an accent differs: "name", "sets.GOAT", "contexts.GOAT", "rules.rhotic", "posture.jaw_opening_mm".
std::vector<std::string> changes(const Accent& one, const Accent& other);

// ---- rules that stand in the vowels (edit_rules.cpp)

/// The values a coach can choose; empty for a rule that is only told (nothing reads it and no vowel stands for it).
std::vector<std::string> choices_of(std::string_view rule);
/// What the vowels say about a rule: yes or no; none where no vowel stands for it.
std::optional<bool> said_by_vowels(const Accent& accent, std::string_view rule);
/// Rules whose answer in the vowels differs between the two take the answer of `after`.
Accent agreed(const Accent& before, Accent after);
/// Moves the sets so that the vowels say `yes`.
Accent moved_to(const Accent& accent, std::string_view rule, bool yes, const Accent& start);

} // namespace mw
