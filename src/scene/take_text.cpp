#include "scene/take_text.h"

#include "base/text.h"
#include "ipa/inventory.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace mw {
namespace {

std::string with_punctuation(const Take& take, std::size_t word) {
  const auto& words = take.pronunciation.words;
  const Word& w = words[word];
  const auto signs = decode_utf8(take.request.phrase);
  const bool shared = (word > 0 && words[word - 1].span.end > w.span.start) || (word + 1 < words.size() && words[word + 1].span.start < w.span.end);
  if (take.request.notation != Notation::text || !signs || shared || w.span.end > signs->size() || w.span.end <= w.span.start) return w.text;
  std::size_t end = w.span.end; // signs that stand right behind the word belong to it
  const std::u32string closing = U",.;:!?\u2019\u201D\u2026)'\"";
  while (end < signs->size() && closing.find((*signs)[end]) != std::u32string::npos) ++end;
  return encode_utf8(std::u32string_view{*signs}.substr(w.span.start, end - w.span.start));
}

double lane_value(const Pose& p, Articulator a) {
  switch (a) {
    case Articulator::lips: return -p.lip_opening;
    case Articulator::tip: return p.tip_y;
    case Articulator::body: return -p.body_x;
    case Articulator::root: return p.root + 0.25 * p.body_x;
    case Articulator::velum: return -p.velum;
    case Articulator::jaw: return -p.jaw_opening;
    case Articulator::larynx: return p.larynx;
    case Articulator::glottis: return -p.glottis;
  }
  return 0;
}

} // namespace

std::vector<ShownWord> shown_words(const Take& take) {
  std::vector<ShownWord> out;
  const auto& segments = take.track.segments;
  for (std::size_t i = 0; i < segments.size();) {
    std::size_t j = i;
    while (j + 1 < segments.size() && segments[j + 1].word == segments[i].word) ++j;
    const auto word = static_cast<std::size_t>(std::max(segments[i].word, 0));
    out.push_back({word < take.pronunciation.words.size() ? with_punctuation(take, word) : "", i, j, segments[i].start_s, segments[j].end_s});
    i = j + 1;
  }
  return out;
}

std::vector<ShownSyllable> shown_syllables(const Take& take) {
  std::vector<ShownSyllable> out;
  const auto& s = take.track.segments;
  for (std::size_t i = 0; i < s.size();) {
    std::size_t j = i;
    while (j + 1 < s.size() && s[j + 1].word == s[i].word && s[j + 1].syllable == s[i].syllable) ++j;
    out.push_back({i, j, s[i].stress, s[i].start_s, s[j].end_s});
    i = j + 1;
  }
  return out;
}

std::optional<std::size_t> sound_at(const Take& take, double t) {
  const auto& s = take.track.segments;
  if (s.empty()) return {};
  std::size_t best = 0;
  double nearest = 1e300;
  for (std::size_t i = 0; i < s.size(); ++i) {
    if (t >= s[i].start_s && t < s[i].end_s) return i;
    const double off = t < s[i].start_s ? s[i].start_s - t : t - s[i].end_s;
    if (off < nearest) nearest = off, best = i;
  }
  return best;
}

std::string ipa_of(const Take& take, std::size_t segment) { return to_ipa(take.track.segments[segment].sound); }

std::string sound_name(const Sound& sound) {
  const Letter* letter = find_letter(sound.letter);
  if (!letter) return "";
  if (is_glide(sound)) return "glide from " + letter->ipa + " to " + sound.glide_letter;
  return letter->name;
}

std::string learner_sound_name(const Sound& sound) {
  const Letter* letter = find_letter(sound.letter);
  if (!letter) return "";
  if (is_glide(sound) || letter->learner_name.empty() || !sound.marks.empty()) return sound_name(sound);
  return letter->learner_name;
}

double moment_of(const Take& take, std::size_t segment) {
  const Segment& s = take.track.segments[segment];
  for (const Gesture& g : take.score.gestures)
    if (g.segment == segment && g.primary && !g.vowel && g.effective_to_s > g.effective_from_s) return 0.5 * (g.effective_from_s + g.effective_to_s);
  const double share = is_vowel(s.sound) ? (is_glide(s.sound) ? 0.3 : 0.6) : 0.5;
  return s.start_s + share * (s.end_s - s.start_s);
}

double section_place(const Sound& sound) {
  const Letter* letter = find_letter(sound.letter);
  if (!letter || letter->vowel) return 38;
  static const std::set<std::string, std::less<>> front{"bilabial", "labiodental", "dental", "alveolar", "postalveolar", "retroflex", "alveolo-palatal"};
  return front.contains(letter->place) ? 15 : 38;
}

bool is_fricative(const Sound& sound) {
  const Letter* letter = find_letter(sound.letter);
  return letter && (letter->manner.find("fricative") != std::string::npos || letter->manner.find("affricate") != std::string::npos);
}

std::vector<double> lane_trace(const Take& take, Articulator articulator, double from_s, double to_s, int samples) {
  std::vector<double> out(static_cast<std::size_t>(std::max(samples, 2)));
  if (!take.motion.baked) return std::vector<double>(out.size(), 0.1);
  double low = 1e300, high = -1e300; // over the whole take, so that pages keep one scale
  for (int i = 0; i <= 200; ++i) {
    const double v = lane_value(pose_at(take.motion, take.duration_s * i / 200), articulator);
    low = std::min(low, v), high = std::max(high, v);
  }
  for (std::size_t i = 0; i < out.size(); ++i) out[i] = lane_value(pose_at(take.motion, from_s + (to_s - from_s) * static_cast<double>(i) / static_cast<double>(out.size() - 1)), articulator);
  for (const double v : out) low = std::min(low, v), high = std::max(high, v);
  for (double& v : out) v = high - low > 1e-2 ? (v - low) / (high - low) : 0.1;
  return out;
}

std::vector<std::string> sounds_of(const Take& take, const Clash& clash) {
  std::vector<std::string> out;
  for (const std::size_t i : clash.segments)
    if (i < take.track.segments.size() && out.size() < 4)
      if (const std::string ipa = ipa_of(take, i); std::find(out.begin(), out.end(), ipa) == out.end()) out.push_back(ipa);
  return out;
}

std::string sentence(const std::string& text) {
  std::string out = text;
  if (out.size() > 1 && out[0] >= 'a' && out[0] <= 'z' && out[1] >= 'a' && out[1] <= 'z') out[0] = static_cast<char>(out[0] - 'a' + 'A');
  return out;
}

std::vector<Page> pages_of(const Take& take, std::size_t most) {
  const auto& s = take.track.segments;
  std::vector<Page> pages;
  std::size_t from = 0;
  while (from < s.size()) {
    std::size_t left = s.size() - from, room = std::min(most, left);
    // a last page with under 8 sounds would look lost: share the rest evenly
    if (left > most && left < most + 8) room = std::min(most, (left + 1) / 2);
    std::size_t end = from + room;
    if (end < s.size()) {
      std::size_t best = 0, rank = 0;
      for (std::size_t i = from + room / 2; i <= from + room; ++i) { // border before segment i
        const std::size_t r = s[i - 1].group_final ? 3 : s[i].word != s[i - 1].word ? 2 : s[i].syllable != s[i - 1].syllable ? 1 : 0;
        if (r >= rank && r > 0) best = i, rank = r;
      }
      if (best > from) end = best;
    }
    pages.push_back({from, end - 1});
    from = end;
  }
  if (pages.empty()) pages.push_back({});
  return pages;
}

} // namespace mw
