#include "score/planning.h"

#include <algorithm>

namespace mw {
namespace {
constexpr double closure_share = 0.52; // of an affricate, the rest is friction (tract-model.md section 10)

bool has_mark(const Sound& sound, std::string_view mark) {
  return std::ranges::find(sound.marks, mark) != sound.marks.end();
}

constexpr std::string_view nasal_release = "ⁿ", lateral_release = "ˡ";

/// A release by nose or side is something the stop does at its end (overlays.cpp): until then it is the plain stop.
Sound until_release(Sound sound) {
  std::erase_if(sound.marks, [](const std::string& m) { return m == nasal_release || m == lateral_release; });
  return sound;
}

Unit start_unit(const Segment& segment, std::size_t index) {
  Unit u;
  u.symbol = segment.sound.letter;
  u.start_s = segment.start_s;
  u.end_s = segment.end_s;
  u.segment = index;
  u.onset = segment.slot == Slot::onset;
  u.stressed_onset = u.onset && segment.stress > 0;
  u.word_initial = segment.word_initial;
  u.syllabic = segment.syllabic;
  if (has_mark(segment.sound, "\u02B0")) u.mark = "aspirated";
  if (has_mark(segment.sound, nasal_release)) u.mark = "nasal release";
  if (has_mark(segment.sound, lateral_release)) u.mark = "lateral release";
  if (has_mark(segment.sound, "\u031A") || has_mark(segment.sound, "\u02ED")) u.mark = "unaspirated";
  return u;
}

/// Splits a unit at a share of its length; the second half starts no syllable.
std::pair<Unit, Unit> split(Unit whole, double share) {
  Unit second = whole, first = std::move(whole);
  first.half = Half::first;
  second.half = Half::second;
  first.end_s = second.start_s = second.start_s + share * (second.end_s - second.start_s);
  second.onset = second.stressed_onset = second.word_initial = second.syllabic = false;
  return {std::move(first), std::move(second)};
}

/// The friction half of an affricate: the row it names, the marks of the affricate laid over it.
Result<Target> friction_of(const Anatomy& anatomy, const TargetTable& table, const Sound& sound, const Target& closure) {
  Sound friction = sound;
  friction.letter = closure.second_phase;
  return target_of(anatomy, table, friction);
}

std::optional<Problem> add_units(std::vector<Unit>& units, const Segment& segment, std::size_t index,
                                 const Anatomy& anatomy, const TargetTable& table) {
  Unit whole = start_unit(segment, index);
  auto target = target_of(anatomy, table, until_release(segment.sound));
  if (!target) return target.error();
  whole.vowel = target->vowel;
  whole.target = std::move(*target);
  const bool glide = is_glide(segment.sound);
  if (!glide && whole.target.second_phase.empty()) {
    units.push_back(std::move(whole));
    return std::nullopt;
  }
  auto second = glide ? target_of(anatomy, table, segment.sound, true)
                      : friction_of(anatomy, table, segment.sound, whole.target);
  if (!second) return second.error();
  auto [a, b] = split(std::move(whole), glide ? 0.5 : closure_share);
  b.symbol = glide ? segment.sound.glide_letter : a.target.second_phase;
  b.target = std::move(*second);
  units.push_back(std::move(a));
  units.push_back(std::move(b));
  return std::nullopt;
}
} // namespace

Result<std::vector<Unit>> make_units(const SegmentTrack& track, const Anatomy& anatomy, const TargetTable& table) {
  std::vector<Unit> units;
  units.reserve(track.segments.size() * 3 / 2); // glides and affricates are two
  for (std::size_t i = 0; i < track.segments.size(); ++i)
    if (auto problem = add_units(units, track.segments[i], i, anatomy, table)) return *problem;
  return units;
}

const Unit* before(const std::vector<Unit>& units, std::size_t i) {
  return i > 0 && units[i].start_s - units[i - 1].end_s < pause_s ? &units[i - 1] : nullptr;
}

const Unit* after(const std::vector<Unit>& units, std::size_t i) {
  return i + 1 < units.size() && units[i + 1].start_s - units[i].end_s < pause_s ? &units[i + 1] : nullptr;
}

bool is_closure(const Unit& unit) {
  const auto& m = unit.target.manner;
  return !unit.vowel &&
         (m == "stop" || m == "affricate" || m == "nasal" || m == "implosive" || m == "ejective" || m == "click");
}

bool is_obstruent(const Unit& unit) {
  return !unit.vowel && unit.target.velum_weight > 0 && unit.target.pose.velum < 0.5;
}

bool is_nasal(const Unit& unit) { return unit.target.pose.velum > 0.5; }

bool has_larynx_move(const Unit& unit) {
  const Target& t = unit.target;
  if (unit.vowel || t.larynx_weight <= 0 || t.place == "glottal") return false;
  return t.manner == "implosive" || t.manner == "ejective" || t.pose.glottis < 0.05;
}

} // namespace mw
