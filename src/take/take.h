#pragma once

#include "accent/accent.h"
#include "anatomy/anatomy.h"
#include "clash/clash.h"
#include "motion/motion.h"
#include "phrase/pronounce.h"
#include "score/score.h"
#include "segments/track.h"

#include <map>
#include <memory>

namespace mw {

/// Everything a take is computed from. A face edits this and nothing else.
struct Request {
  std::string phrase;
  Notation notation = Notation::text;
  std::string accent = "GA"; // id or path
  std::string anatomy = "adult-male";
  double rate = 4.5;   // syllables a second
  double casual = 0.5; // 0 careful .. 1 casual
  bool loop = false;
  std::map<std::string, std::string> corrections{};
  std::string learner{}; // id or path of the accent of who learns the phrase; empty = none
  bool operator==(const Request&) const = default;
};

/// All that is computed for one phrase; every stage kept for inspection; immutable once made.
struct Take {
  Request request;
  std::shared_ptr<const Accent> accent;
  std::shared_ptr<const Anatomy> anatomy;
  std::shared_ptr<const TargetTable> targets;
  Pronunciation pronunciation;
  SegmentTrack track;
  Score score;
  Motion motion;
  std::vector<Clash> clashes;
  Difficulty difficulty;
  std::vector<LikelySlip> likely_slips;
  std::vector<Note> notes; // of all stages
  double duration_s = 0;
  std::shared_ptr<const Accent> learner{};  // null: the request names none
  Pronunciation learner_pronunciation{};    // the phrase in the learner's own accent
};

/// Runs the chain. Problems of a stage come through with their kind and span.
Result<std::shared_ptr<const Take>> make_take(const Request& request, Pronouncer& pronouncer);

/// Index of the segment at time t (the nearest one within a pause); none for an empty track.
std::optional<std::size_t> segment_at(const Take& take, double t);

} // namespace mw
