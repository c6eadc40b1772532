#pragma once

#include "anatomy/pose.h"
#include "motion/motion.h"
#include "phrase/pronunciation.h"
#include "score/score.h"
#include "segments/track.h"

#include <array>
#include <string>
#include <vector>

namespace mw {

enum class ClashKind { tug, quick_return, swap, near_twins, counter_move, out_of_step, accent_shift };
std::string_view to_text(ClashKind kind);      // tug, quick_return, ...
std::string_view learner_name(ClashKind kind); // "Tug", "Quick return", ...

/// A place where moves conflict.
struct Clash {
  ClashKind kind = ClashKind::tug;
  int level = 1; // 1 mild, 2 clear, 3 strong
  double start_s = 0, end_s = 0;
  double strength = 0; // the number behind the level, comparable within a kind
  std::vector<Articulator> articulators;
  std::vector<std::size_t> segments; // indices, in order
  std::string title; // "Tug on the back of the tongue"
  std::string text;  // one plain sentence: what happens
  std::string feel;  // what to feel
  std::string where{}; // "ɫ into z, at the end of 'kettles'": sounds and words, to stand under the title
  bool operator==(const Clash&) const = default;
};

/// All clashes of a take, strongest first. In a loop the pattern is followed over the seam.
std::vector<Clash> find_clashes(const Pronunciation& pronunciation, const SegmentTrack& track, const Score& score,
                                const Motion& motion, bool loop = false);

/// Four bars, each 0 or more, higher is harder, about 1 at the hard end of the fixed reference list.
struct Difficulty {
  double slips = 0, slowing = 0, late_start = 0, drift = 0, overall = 0;
  std::string label; // easy, moderate, demanding, very demanding
  std::vector<std::string> reasons; // at most two
  std::string scale; // version of weights and list
  std::vector<double> load;         // per segment, 0..1, over time
  std::array<std::string, 4> bar_words{}; // slips, slowing, late_start, drift in the words of the label
  std::array<double, 4> bar_lengths{};    // the same on a rule whose quarters are the words, 0..1; for drawing
  bool operator==(const Difficulty&) const = default;
};
struct LikelySlip {
  std::size_t segment = 0;
  std::string wanted, instead; // IPA
  double strength = 0;
  std::string text;
  bool operator==(const LikelySlip&) const = default;
};
Difficulty judge(const Pronunciation& pronunciation, const SegmentTrack& track, const Score& score,
                 const std::vector<Clash>& clashes, bool loop);
std::vector<LikelySlip> find_likely_slips(const SegmentTrack& track, const std::vector<Clash>& clashes, bool loop);
/// The same with the words named in the sentences.
std::vector<LikelySlip> find_likely_slips(const Pronunciation& pronunciation, const SegmentTrack& track,
                                          const std::vector<Clash>& clashes, bool loop);

} // namespace mw
