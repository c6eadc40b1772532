#include "take/moment.h"

namespace mw {

double step_time(const Take& take, std::size_t segment) {
  const Segment& s = take.track.segments.at(segment);
  const Target* row = take.targets->consonant(s.sound.letter);
  double share = is_vowel(s.sound) ? 0.55 : 0.50;
  if (row != nullptr && (row->manner == "stop" || row->manner == "nasal" || row->manner == "affricate")) share = 0.40;
  return s.start_s + share * (s.end_s - s.start_s);
}

Moment moment_at(const Take& take, double t) {
  Moment moment;
  moment.time_s = t;
  const auto at = segment_at(take, t);
  if (at && t >= take.track.segments[*at].start_s && t < take.track.segments[*at].end_s) {
    const Segment& s = take.track.segments[*at];
    moment.segment = at;
    moment.ipa = to_ipa(s.sound);
    moment.word = take.pronunciation.words.at(static_cast<std::size_t>(s.word)).text;
  }
  for (std::size_t i = 0; i < take.clashes.size(); ++i)
    if (t >= take.clashes[i].start_s && t < take.clashes[i].end_s) moment.clashes.push_back(i);
  return moment;
}

} // namespace mw
