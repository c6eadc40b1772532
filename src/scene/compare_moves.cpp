#include "scene/compare_moves.h"

#include "base/text.h"
#include "ipa/inventory.h"
#include "scene/describe.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace mw {
namespace {

// Below these nobody sees a move in the picture (a line is about 1 mm wide there); rounding and the soft palate run 0..1.
constexpr double seen_mm = 1.2, seen_lips_mm = 2.5, seen_jaw_mm = 2.0, seen_tip_mm = 5, seen_root = 1.5, seen_rounding = 0.25, seen_valve = 0.3;
// What a full change of a value without a length looks like, in mm, so that parts can be compared.
constexpr double rounding_mm = 6, valve_mm = 8;

constexpr double both_from = 0.3; // of the larger way: from here on the smaller one is named too (17 degrees off the axis)

constexpr double worth = 0.2; // of the larger move: a smaller second one would draw the eye to nothing

struct PartMove { double size; std::string text; };

// "back and down": the larger way first, the smaller one when it is worth naming.
std::string ways(double back, double up, const char* further) {
  const std::string x = back > 0 ? std::string(further) + "back" : std::string(further) + "forward", y = up > 0 ? "up" : "down";
  const double ax = std::abs(back), ay = std::abs(up);
  if (ay < both_from * ax) return x;
  if (ax < both_from * ay) return y;
  return ax >= ay ? x + " and " + y : y + " and " + x;
}

std::optional<PartMove> tongue_move(double k, const Pose& a, const Pose& b) {
  const double dx = (b.body_x - a.body_x) / k, dy = (b.body_y - a.body_y) / k, d = std::hypot(dx, dy), root = b.root - a.root;
  if (d >= seen_mm) return PartMove{d, "the tongue goes " + ways(dx, dy, "")};
  if (std::abs(root) >= seen_root) return PartMove{std::abs(root), root > 0 ? "the root of the tongue draws back" : "the root of the tongue comes forward"};
  return {};
}

std::optional<PartMove> lips_move(const Pose& a, const Pose& b) {
  const double round = b.lip_rounding - a.lip_rounding, forward = b.lip_protrusion - a.lip_protrusion, open = b.lip_opening - a.lip_opening;
  // rounding runs from -1 spread to 1 round; near 0 the lips are at ease
  if (round >= seen_rounding && b.lip_rounding > 0.25) return PartMove{rounding_mm * round, forward > 2 ? "the lips round and push forward" : "the lips round"};
  if (round <= -seen_rounding && b.lip_rounding < -0.25) return PartMove{-rounding_mm * round, "the lips spread"};
  if (std::abs(round) >= seen_rounding) return PartMove{0.5 * rounding_mm * std::abs(round), round < 0 ? "the lips let go of their rounding" : "the lips no longer spread"};
  if (std::abs(open) < seen_lips_mm) return {};
  return PartMove{0.5 * std::abs(open), open > 0 ? "the lips open wider" : "the lips come closer"};
}

std::optional<PartMove> jaw_move(const Pose& a, const Pose& b) {
  const double jaw = b.jaw_opening - a.jaw_opening;
  if (std::abs(jaw) < seen_jaw_mm) return {};
  return PartMove{0.6 * std::abs(jaw), jaw > 0 ? "the jaw opens" : "the jaw closes"};
}

// The tip rides on the tongue: what counts is where it goes against the body.
std::optional<PartMove> tip_move(double k, const Pose& a, const Pose& b) {
  const double up = ((b.tip_y - a.tip_y) - 0.5 * (b.body_y - a.body_y)) / k, curl = b.tip_curl - a.tip_curl;
  if (std::abs(up) >= seen_tip_mm) return PartMove{0.7 * std::abs(up), std::string("the tip ") + (up > 0 ? "rises" : "goes down")};
  if (std::abs(curl) >= 25) return PartMove{0.1 * std::abs(curl), curl > 0 ? "the tip curls up" : "the tip lies flat"};
  return {};
}

std::optional<PartMove> velum_move(const Pose& a, const Pose& b) {
  const double d = b.velum - a.velum;
  if (std::abs(d) < seen_valve) return {};
  return PartMove{valve_mm * std::abs(d), d > 0 ? "the soft palate drops and air goes through the nose" : "the soft palate rises and shuts the nose"};
}

std::optional<PartMove> folds_move(const Pose& a, const Pose& b) {
  const double d = b.glottis - a.glottis;
  if (std::abs(d) < seen_valve) return {};
  return PartMove{0.5 * valve_mm * std::abs(d), d > 0 ? "the vocal folds open, no voice" : "the vocal folds come together for voice"};
}

std::vector<PartMove> moves_of(const Anatomy& anatomy, const Pose& a, const Pose& b) {
  const double k = anatomy.tongue_scale;
  std::vector<PartMove> moves;
  for (auto& move : {tongue_move(k, a, b), lips_move(a, b), tip_move(k, a, b), velum_move(a, b), folds_move(a, b)})
    if (move) moves.push_back(*move);
  // a jaw that goes the way of the tongue says nothing new
  const double tongue_up = b.body_y - a.body_y, jaw = b.jaw_opening - a.jaw_opening;
  if (const auto move = jaw_move(a, b); move && !(std::abs(tongue_up) >= seen_mm && tongue_up * jaw < 0)) moves.push_back(*move);
  std::stable_sort(moves.begin(), moves.end(), [](const PartMove& x, const PartMove& y) { return x.size > y.size; });
  return moves;
}

std::string told(const std::vector<PartMove>& moves) {
  std::string text;
  for (std::size_t i = 0; i < std::min<std::size_t>(moves.size(), 2) && moves[i].size >= worth * moves[0].size; ++i) text += (text.empty() ? "" : ", ") + moves[i].text;
  return text;
}

std::optional<Pose> pose_at_end(const Anatomy& anatomy, const TargetTable& targets, const Sound& sound, bool end) {
  const auto target = target_of(anatomy, targets, sound, end && is_glide(sound));
  if (!target) return {};
  return target->pose;
}

// ---- vowels

bool is_rhotic(const Sound& s) {
  return s.letter == "ɝ" || s.letter == "ɚ" || std::find(s.marks.begin(), s.marks.end(), "\u02DE") != s.marks.end();
}
bool is_long(const Sound& s) { return std::find(s.marks.begin(), s.marks.end(), "\u02D0") != s.marks.end(); }

// "higher and further back"
std::string compared(double k, const Pose& a, const Pose& b) {
  const double back = (b.body_x - a.body_x) / k, up = (b.body_y - a.body_y) / k;
  const std::string x = back > 0 ? "further back" : "further forward", y = up > 0 ? "higher" : "lower";
  const double ax = std::abs(back), ay = std::abs(up);
  if (std::hypot(ax, ay) < seen_mm) return "";
  if (ay < both_from * ax) return x;
  if (ax < both_from * ay) return y;
  return ax >= ay ? x + " and " + y : y + " and " + x;
}

void add_clause(std::string& text, const std::string& clause) {
  if (!clause.empty()) text += (text.empty() ? "" : ", ") + clause;
}

// Two glides: where each begins and ends; lips that differ at either.
std::string glide_words(const Anatomy& anatomy, const Pose& a0, const Pose& a1, const Pose& b0, const Pose& b1) {
  const double k = anatomy.tongue_scale;
  const std::string start = compared(k, a0, b0), end = compared(k, a1, b1);
  std::string text;
  if (!start.empty()) text = "the tongue starts " + start;
  if (!end.empty()) add_clause(text, text.empty() ? "the tongue ends " + end : "ends " + end);
  if (const auto lips = lips_move(a1, b1); lips && std::abs(b1.lip_rounding - a1.lip_rounding) >= seen_rounding) add_clause(text, lips->text + " at the end");
  return text;
}

SoundMove vowel_change(const Anatomy& anatomy, const TargetTable& targets, const Sound& from, const Sound& to) {
  const auto a0 = pose_at_end(anatomy, targets, from, false), a1 = pose_at_end(anatomy, targets, from, true);
  const auto b0 = pose_at_end(anatomy, targets, to, false), b1 = pose_at_end(anatomy, targets, to, true);
  if (!a0 || !a1 || !b0 || !b1) return {};
  SoundMove out{"", std::max(size_of_move(anatomy, *a0, *b0), size_of_move(anatomy, *a1, *b1))};
  if (is_rhotic(from) != is_rhotic(to)) out.text = is_rhotic(from) ? "the tongue lets go of the r" : "the tongue draws together for the r";
  if (is_glide(from) && is_glide(to)) add_clause(out.text, glide_words(anatomy, *a0, *a1, *b0, *b1));
  else {
    add_clause(out.text, tell_move(anatomy, *a0, *b0));
    if (is_glide(to)) add_clause(out.text, "then the tongue glides " + ways(b1->body_x - b0->body_x, b1->body_y - b0->body_y, ""));
    if (is_glide(from)) add_clause(out.text, out.text.empty() ? "the mouth stays: no glide" : "then the mouth stays: no glide");
  }
  if (out.text.empty() && is_long(from) != is_long(to)) out.text = is_long(to) ? "the same place, held longer" : "the same place, shorter";
  return out;
}

// ---- consonants

// The touch itself, where another part makes it or makes it in another way; what no pose tells.
std::string touch_words(const Sound& from, const Sound& to) {
  const SoundWords a = describe_sound(from), b = describe_sound(to);
  if (a.what.empty() || b.what.empty() || a.what == b.what) return "";
  return "the " + b.what + ", where for " + to_ipa(from) + " the " + a.what;
}

// Only what the sound itself asks of each part counts, not where a part happens to be.
Pose asked(const Pose& from, const Target& to) {
  Pose out = from;
  const auto toward = [&](double Pose::*value, double weight) { out.*value += (to.pose.*value - from.*value) * std::clamp(weight, 0.0, 1.0); };
  toward(&Pose::body_x, to.body_x_weight), toward(&Pose::body_y, to.body_y_weight), toward(&Pose::root, to.root_weight);
  for (double Pose::*value : {&Pose::lip_opening, &Pose::lip_rounding, &Pose::lip_protrusion}) toward(value, to.lips_weight);
  for (double Pose::*value : {&Pose::tip_x, &Pose::tip_y, &Pose::tip_curl}) toward(value, std::max(to.tip_weight, to.primary == Primary::tip ? 1.0 : 0.0));
  out.velum = to.pose.velum, out.glottis = to.pose.glottis;
  return out;
}

SoundMove consonant_change(const Anatomy& anatomy, const TargetTable& targets, const Sound& from, const Sound& to) {
  const auto a = target_of(anatomy, targets, from), b = target_of(anatomy, targets, to);
  if (!a || !b) return {};
  const Pose reached = asked(a->pose, *b);
  SoundMove out{touch_words(from, to), size_of_move(anatomy, a->pose, reached)};
  if (out.text.empty()) out.text = tell_move(anatomy, a->pose, reached);
  else out.size = std::max(out.size, 3.0); // another way of touching is worth a clear move
  return out;
}

} // namespace

std::string tell_move(const Anatomy& anatomy, const Pose& from, const Pose& to) { return told(moves_of(anatomy, from, to)); }

double size_of_move(const Anatomy& anatomy, const Pose& from, const Pose& to) {
  const auto moves = moves_of(anatomy, from, to);
  return moves.empty() ? 0 : moves.front().size;
}

SoundMove tell_change(const Anatomy& anatomy, const TargetTable& targets, const Sound& from, const Sound& to) {
  if (is_vowel(from) && is_vowel(to) && !is_syllabic(from) && !is_syllabic(to)) return vowel_change(anatomy, targets, from, to);
  return consonant_change(anatomy, targets, from, to);
}

} // namespace mw
