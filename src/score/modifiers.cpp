#include "score/modifiers.h"

#include "base/assets.h"
#include "base/text.h"
#include "ipa/inventory.h"
#include "score/relocate.h"

#include <algorithm>
#include <cmath>

// Words of modifiers.csv. `on`: all of them hold for the row: vowel, consonant, tip, body, lips (what makes the
// constriction; the throat's own are not body), throat, glottal, pressed (lips shut), voiced, voiceless, a word of the
// manner, a place, a height; ! turns a word over. `how`: toward (blend of the way to the amount), up_to (the same,
// never down), toward ə (to the speaker's schwa), add, along (mm along the wall, + back), to_place (mm along the wall),
// open_to and open_by (mm of opening at the constriction). Lengths are the adult male's and scaled; openings below 1.5
// mm are the same for all speakers.

namespace mw {
namespace {
enum class How { toward, toward_schwa, up_to, add, along, to_place, open_to, open_by };
constexpr std::pair<std::string_view, How> hows[] = {
    {"toward", How::toward}, {"toward ə", How::toward_schwa}, {"up_to", How::up_to},     {"add", How::add},
    {"along", How::along},   {"to_place", How::to_place},     {"open_to", How::open_to}, {"open_by", How::open_by},
};

/// How a channel reads on a row: the value, the weight it raises, the scale of other speakers, and its range.
struct Channel {
  std::string_view name;
  double Pose::*value;
  double Target::*weight; // none: the valve of velum or glottis follows the value itself
  double Anatomy::*scale;
};
constexpr std::array channels{
    Channel{"lip_aperture", &Pose::lip_opening, &Target::lips_weight, &Anatomy::lip_scale},
    Channel{"lip_protrusion", &Pose::lip_protrusion, &Target::lips_weight, &Anatomy::lip_scale},
    Channel{"lip_round", &Pose::lip_rounding, &Target::lips_weight, nullptr},
    Channel{"jaw_open", &Pose::jaw_opening, &Target::jaw_weight, &Anatomy::jaw_x},
    Channel{"body_x", &Pose::body_x, &Target::body_x_weight, &Anatomy::jaw_x},
    Channel{"body_y", &Pose::body_y, &Target::body_y_weight, &Anatomy::jaw_y},
    Channel{"root", &Pose::root, &Target::root_weight, &Anatomy::tongue_scale},
    Channel{"larynx", &Pose::larynx, &Target::larynx_weight, &Anatomy::larynx_scale},
    Channel{"velum", &Pose::velum, nullptr, nullptr},
    Channel{"glottis", &Pose::glottis, nullptr, nullptr},
    Channel{"tip_x", &Pose::tip_x, &Target::tip_weight, &Anatomy::jaw_x},
    Channel{"tip_y", &Pose::tip_y, &Target::tip_weight, &Anatomy::jaw_y},
    Channel{"tip_curl", &Pose::tip_curl, &Target::tip_weight, nullptr},
    Channel{"blade", &Pose::blade, &Target::tip_weight, &Anatomy::tongue_scale},
    Channel{"sides", &Pose::sides, &Target::tip_weight, nullptr},
};

/// One row of the table, for the adult male.
struct Modifier {
  std::string mark;
  std::vector<std::string> on;
  How how = How::toward;
  const Channel* channel = nullptr; // none: a disc is moved
  Disc disc = Disc::tip;
  double amount = 0, blend = 1;
};

std::optional<Modifier> parse_modifier(const std::vector<std::string>& row) {
  Modifier m;
  m.mark = to_nfd(row[0]);
  m.on = split(row[2], ' ');
  const auto how = std::ranges::find(hows, row[3], [](const auto& pair) { return pair.first; });
  const auto channel = std::ranges::find(channels, row[4], &Channel::name);
  const auto amount = parse_number(row[5]), blend = parse_number(row[6]);
  const bool on_disc = row[4] == "tip" || row[4] == "body";
  if (how == std::end(hows) || !amount || !blend || (channel == channels.end() && !on_disc)) return std::nullopt;
  m.how = how->second;
  m.channel = channel == channels.end() ? nullptr : &*channel;
  m.disc = row[4] == "tip" ? Disc::tip : Disc::body;
  m.amount = *amount;
  m.blend = *blend;
  return m;
}

Result<std::vector<Modifier>> read_modifiers() {
  const auto table = read_csv_asset("speakers/modifiers.csv");
  if (!table) return table.error();
  const Problem broken{ProblemKind::missing, "the table of modifiers is broken", "speakers/modifiers.csv",
                       "install the program again"};
  if (table->columns.size() != 7) return broken;
  std::vector<Modifier> out;
  for (const auto& row : table->rows) {
    const auto modifier = parse_modifier(row);
    if (!modifier) return broken;
    out.push_back(*modifier);
  }
  return out;
}

const Result<std::vector<Modifier>>& modifiers() {
  static const auto known = read_modifiers();
  return known;
}

bool in_throat(const Target& t) { return t.place == "pharyngeal" || t.place == "epiglottal"; }

bool holds_word(const Target& t, std::string_view word) {
  if (word == "any") return true;
  if (word == "vowel") return t.vowel;
  if (word == "consonant") return !t.vowel;
  if (word == "tip") return t.primary == Primary::tip;
  if (word == "body") return t.primary == Primary::body && !in_throat(t);
  if (word == "lips") return t.primary == Primary::lips;
  if (word == "throat") return in_throat(t);
  if (word == "glottal") return t.place == "glottal";
  if (word == "pressed") return !t.vowel && t.pose.lip_opening < 0;
  if (word == "voiced") return t.voiced;
  if (word == "voiceless") return !t.voiced;
  if (t.place == word) return true;
  if (const Letter* letter = t.vowel ? find_letter(t.symbol) : nullptr; letter != nullptr && letter->height == word)
    return true;
  const auto manners = split(t.manner, ' ');
  return std::ranges::find(manners, word) != manners.end();
}

bool stands_on(const Modifier& modifier, const Target& target) {
  return std::ranges::all_of(modifier.on, [&](const std::string& word) {
    return word.starts_with('!') ? !holds_word(target, std::string_view(word).substr(1)) : holds_word(target, word);
  });
}

/// The new value inside the range of its channel, the range scaled like the value. A row at or beyond its end stays
/// where it is, but the body may always give way a little: the palate is its true limit.
double in_range(const Channel& channel, double scale, double now, double next) {
  const double give = channel.value == &Pose::body_x ? 2 * scale : 0;
  for (const auto& known : pose_channels())
    if (known.value == channel.value)
      return std::clamp(next, std::min(known.low * scale, now - give), std::max(known.high * scale, now + give));
  return next;
}

/// A free tip rides on the jaw.
bool has_free_tip(const Target& target) {
  return target.vowel || (target.primary != Primary::tip && target.tip_weight < 0.7);
}

Result<double> schwa_value(const Anatomy& anatomy, const Channel& channel) {
  const auto table = read_targets(anatomy);
  if (!table) return table.error();
  const Target* schwa = (*table)->vowel("ə");
  if (schwa == nullptr)
    return Problem{ProblemKind::missing, "the table of vowels has no ə", "speakers/" + anatomy.id,
                   "install the program again"};
  return schwa->pose.*channel.value;
}

std::optional<Problem> set_value(Target& target, const Modifier& m, const Anatomy& anatomy) {
  const Channel& channel = *m.channel;
  const double scale = channel.scale == nullptr ? 1.0 : anatomy.*channel.scale;
  double wanted = m.amount * scale;
  if (m.how == How::toward_schwa) {
    const auto schwa = schwa_value(anatomy, channel);
    if (!schwa) return schwa.error();
    wanted = *schwa;
  }
  const double now = target.pose.*channel.value;
  if (m.how == How::up_to && now >= wanted) return std::nullopt;
  const double next = m.how == How::add ? now + wanted : (1 - m.blend) * now + m.blend * wanted;
  const double value = in_range(channel, scale, now, next);
  if (channel.value == &Pose::jaw_opening && has_free_tip(target))
    move_jaw(anatomy, target.pose, value);
  else
    target.pose.*channel.value = value;
  if (channel.weight != nullptr && !target.vowel)
    target.*channel.weight = std::max(target.*channel.weight, m.how == How::add ? 0.5 : m.blend);
  return std::nullopt;
}

void move_disc(Target& target, const Modifier& m, const Anatomy& anatomy) {
  constexpr double wide = 1.5; // openings from here on scale with the tongue (tract-model.md section 8)
  Pose& pose = target.pose;
  if (target.place == "linguolabial" && m.disc == Disc::tip) { // no wall there: more or less room under the lip
    if (m.how == How::open_to || m.how == How::open_by) pose.tip_y -= m.amount * anatomy.jaw_y;
    return;
  }
  switch (m.how) {
  case How::along:
    slide_along(anatomy, pose, m.disc, m.amount * anatomy.jaw_x);
    break;
  case How::to_place:
    slide_to(anatomy, pose, m.disc, m.amount * anatomy.jaw_x);
    break;
  case How::open_to: {
    const double opening = m.amount > wide ? m.amount * anatomy.tongue_scale : m.amount;
    open_to(anatomy, pose, m.disc, opening);
    // a sound with two constrictions of a kind opens both
    const double behind = disc_opening(anatomy, pose, Disc::body);
    if (m.disc == Disc::tip && behind > 0 && behind < opening) open_to(anatomy, pose, Disc::body, opening);
    break;
  }
  case How::open_by:
    open_to(anatomy, pose, m.disc, disc_opening(anatomy, pose, m.disc) + m.amount * anatomy.tongue_scale);
    break;
  default:
    break;
  }
  if (m.disc == Disc::tip)
    target.tip_weight = 1;
  else
    target.body_x_weight = std::max(target.body_x_weight, 0.9), target.body_y_weight = 1;
}

/// Effective stretch, movement time and opening of a manner, as the rows of consonants.csv have them.
struct MannerRow {
  std::string_view manner;
  double from, to, time_scale, gap_min, gap_max;
};
constexpr MannerRow fricative_row{"fricative", 0.08, 0.92, 1, 0.8, 2.2},
    approximant_row{"approximant", 0.3, 0.7, 1.15, 2.3, 5.1};

void become(Target& target, const MannerRow& row, const Anatomy& anatomy) {
  target.manner = row.manner;
  target.effective_from = row.from;
  target.effective_to = row.to;
  target.time_scale = row.time_scale;
  target.gap_min = row.gap_min * (row.gap_min > 1.5 ? anatomy.tongue_scale : 1);
  target.gap_max = row.gap_max;
  if (row.manner == fricative_row.manner) target.velum_weight = 1;
}

/// Raised and lowered sounds of another manner; sounds at another place.
void rename(Target& target, const std::string& mark, const Anatomy& anatomy) {
  constexpr std::string_view raised = "\u031D", lowered = "\u031E", dental = "\u032A", linguolabial = "\u033C",
                             retracted = "\u0320";
  if (target.vowel) return;
  if (mark == raised && target.manner == "approximant")
    become(target, fricative_row, anatomy);
  else if (mark == raised && target.manner == "lateral")
    target.manner = "lateral fricative";
  else if (mark == lowered && target.manner == "fricative" && !in_throat(target))
    become(target, approximant_row, anatomy);
  else if (mark == lowered && target.manner == "stop")
    become(target, fricative_row, anatomy);
  else if (mark == lowered && target.manner == "lateral fricative")
    target.manner = "lateral";
  else if (mark == lowered && (target.manner == "trill" || target.manner.ends_with("tap")))
    target.gap_max = fricative_row.gap_max;
  if (target.primary != Primary::tip) return;
  if (mark == dental || (mark == retracted && target.place == "interdental"))
    target.place = "dental";
  else if (mark == retracted && target.place == "alveolar")
    target.place = "postalveolar";
  else if (mark == linguolabial) {
    target.place = "linguolabial";
    target.gap_min = target.gap_max = std::nullopt; // against the upper lip, not against the palate
  }
}

/// A lowered soft palate hangs into the way of a raised back: the tongue makes room for an open way.
void make_room_for_velum(Target& target, const Pose& before, const Anatomy& anatomy) {
  constexpr double open_way = 3; // mm, as an approximant
  const double opening = disc_opening(anatomy, before, Disc::body), wanted = std::min(opening, open_way);
  if (target.pose.velum <= before.velum || opening < 0) return;
  if (disc_opening(anatomy, target.pose, Disc::body) < wanted) open_to(anatomy, target.pose, Disc::body, wanted);
}

/// A vowel stays a vowel: no mark brings the body nearer to the palate than where friction would begin.
void keep_vowel_open(Target& target, const Pose& before, const Anatomy& anatomy) {
  constexpr double friction = 1.7; // mm on the disc; drawn openings of vowels are up to 0.5 mm less
  const double least = std::min(friction, disc_opening(anatomy, before, Disc::body));
  if (disc_opening(anatomy, target.pose, Disc::body) < least) open_to(anatomy, target.pose, Disc::body, least);
}

std::optional<Problem> apply(Target& target, const std::string& mark, const Anatomy& anatomy) {
  const Target before = target; // what the row's words ask about stays as it was
  for (const auto& modifier : *modifiers()) {
    if (modifier.mark != mark || !stands_on(modifier, before)) continue;
    if (modifier.channel == nullptr)
      move_disc(target, modifier, anatomy);
    else if (auto problem = set_value(target, modifier, anatomy))
      return problem;
  }
  if (mark == "\u0303") {
    make_room_for_velum(target, before.pose, anatomy);
    if (!target.vowel) target.velum_weight = 1;
  }
  if (mark == "\u032C") target.voiced = true;
  if (target.vowel) keep_vowel_open(target, before.pose, anatomy);
  rename(target, mark, anatomy);
  return std::nullopt;
}
} // namespace

Result<Target> apply_marks(Target target, const Sound& sound, const Anatomy& anatomy) {
  if (!modifiers()) return modifiers().error();
  std::vector<std::string> marks = sound.marks;
  if (!sound.kind.empty()) marks.push_back(sound.kind);
  for (const auto& mark : marks)
    if (auto problem = apply(target, mark, anatomy)) return *problem;
  return target;
}

} // namespace mw
