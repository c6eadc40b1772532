#pragma once

#include "accent/accent.h"
#include "clash/clash.h"
#include "phrase/pronounce.h"

#include <memory>
#include <string>
#include <vector>

namespace mw {

/// One line of a script that somebody says.
struct ScriptLine {
  int line = 0;     // from 1, in the file
  std::string part; // who says it; empty when the script names nobody
  std::string text; // what is said, without stage directions
  bool operator==(const ScriptLine&) const = default;
};

/// Reads a script: "Mender: Put it by the fire. (Sits.)" or the part's name in capitals on a line of its own, followed by
/// its lines. Stage directions in brackets are left out, also over several lines; lines with nothing to say too.
std::vector<ScriptLine> read_script(std::string_view text);

/// Parts in the order of their first line.
std::vector<std::string> parts_of(const std::vector<ScriptLine>& lines);

/// A place in a line that catches, for the hatched strip under its words.
struct Spot {
  Span span; // code points of the line's text, whole words
  ClashKind kind = ClashKind::swap;
  int level = 1;
  std::string text;
  bool operator==(const Spot&) const = default;
};

struct RankedLine {
  ScriptLine line;
  Difficulty difficulty;
  std::vector<Spot> spots; // strongest first; what they hold: see rank_line
};

/// Judges one line; cheap, so that a whole script can be read while it is shown. With a learner's accent the spots hold
/// its shifts too, with a speaker the clashes of his moves (planned at the usual rate; several times the work). Problem
/// (input): nothing sayable.
Result<RankedLine> rank_line(const ScriptLine& line, const Accent& accent, Pronouncer& pronouncer,
                             const PronounceSettings& settings = {}, const Accent* learner = nullptr,
                             std::shared_ptr<const Anatomy> speaker = nullptr);

enum class RankBy { overall, slips, slowing, late_start, drift };
/// Hardest first; ties keep the order of the script.
void sort_hardest(std::vector<RankedLine>& lines, RankBy by = RankBy::overall);

} // namespace mw
