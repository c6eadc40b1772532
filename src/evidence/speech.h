#pragma once

#include "anatomy/anatomy.h"
#include "base/result.h"
#include "evidence/evidence.h"
#include "score/posture.h"
#include "segments/track.h"

#include <array>
#include <string>
#include <vector>

namespace mw {

inline constexpr std::array<std::string_view, 3> speech_rates{"careful", "normal", "fast"};

/// How often one kind of demand on running speech was met at one rate, with the first few places where it was not.
struct SpeechCount {
  int met = 0, asked = 0;
  std::vector<std::string> misses; // "ɜs[t̪]θɜ 56 ms closed 37 % min -0.62"; all of them
};
/// One demand: stops closed long enough, fricatives inside their allowed openings, soft palate shut in obstruents, ...
struct SpeechRow {
  std::string kind;
  std::array<SpeechCount, 3> by_rate; // as speech_rates
};
/// Closest approach (mm) of the tongue body to the vowel's target.
struct VowelReach {
  std::array<double, 3> mean_mm{}, nine_tenths_mm{};
  std::array<int, 3> count{};
};
struct SpeechReport {
  int phrases = 0; // phrase x accent x rate
  std::vector<SpeechRow> rows;
  VowelReach stressed, unstressed;
};

/// One phrase of assets/evidence/speech-segments.txt with its segments at the three rates.
struct SpeechPhrase {
  std::string accent, text;
  bool hard = false;
  std::array<SegmentTrack, 3> tracks;
  PostureShift posture{};
};
Result<std::vector<SpeechPhrase>> read_speech_phrases();

/// Plans and samples every `every`-th phrase (41 moments a segment) and counts what the motion achieves. Openings are those
/// of the tip and body discs against the upper wall. Problem (missing) when the installation is broken.
Result<SpeechReport> speech_counts(const Anatomy& anatomy, int every = 1);
/// The same for other phrases.
Result<SpeechReport> count_speech(const Anatomy& anatomy, const std::vector<SpeechPhrase>& phrases, int every = 1);

/// Counts, and movements beside published ranges, for the adult male: `evidence speech`. A few seconds.
Result<EvidenceTable> speech_table();
/// The same for other phrases; the movements are measured on the recorded ones.
Result<EvidenceTable> speech_table(const std::vector<SpeechPhrase>& phrases);

/// What running speech must reach (percent) for one kind at one rate (tract-model.md section 16, tests 10 and 11).
double speech_aim(const std::string& kind, std::size_t rate);

} // namespace mw
