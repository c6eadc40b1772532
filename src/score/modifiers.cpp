#include "score/modifiers.h"

#include "base/assets.h"
#include "base/text.h"

#include <algorithm>
#include <mutex>

namespace mw {
namespace {
/// One channel of one mark, for the adult male.
struct Modifier {
  std::string mark, channel;
  double target = 0, blend = 0;
};
/// How a mark's channel reads on a row: the value, the weight it raises, and the scale of other speakers.
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
    Channel{"body_x", &Pose::body_x, &Target::body_x_weight, &Anatomy::jaw_x},
    Channel{"body_y", &Pose::body_y, &Target::body_y_weight, &Anatomy::jaw_y},
    Channel{"root", &Pose::root, &Target::root_weight, &Anatomy::tongue_scale},
    Channel{"larynx", &Pose::larynx, &Target::larynx_weight, &Anatomy::larynx_scale},
    Channel{"velum", &Pose::velum, nullptr, nullptr},
    Channel{"tip_x", &Pose::tip_x, &Target::tip_weight, &Anatomy::jaw_x},
    Channel{"tip_y", &Pose::tip_y, &Target::tip_weight, &Anatomy::jaw_y},
    Channel{"tip_curl", &Pose::tip_curl, &Target::tip_weight, nullptr},
    Channel{"blade", &Pose::blade, &Target::tip_weight, &Anatomy::tongue_scale},
    Channel{"sides", &Pose::sides, &Target::tip_weight, nullptr},
};

Result<std::vector<Modifier>> read_modifiers() {
  const auto table = read_csv_asset("speakers/modifiers.csv");
  if (!table) return table.error();
  const Problem broken{ProblemKind::missing, "the table of modifiers is broken", "speakers/modifiers.csv",
                       "install the program again"};
  if (table->columns.size() != 5) return broken;
  std::vector<Modifier> out;
  for (const auto& row : table->rows) {
    const auto target = parse_number(row[3]), blend = parse_number(row[4]);
    const bool named = std::ranges::any_of(channels, [&](const Channel& c) { return c.name == row[2]; });
    if (!target || !blend || !named) return broken;
    out.push_back({to_nfd(row[0]), row[2], *target, *blend});
  }
  return out;
}

const Result<std::vector<Modifier>>& modifiers() {
  static const auto known = read_modifiers();
  return known;
}

void apply(Target& target, const Modifier& modifier, const Anatomy& anatomy) {
  for (const auto& channel : channels) {
    if (channel.name != modifier.channel) continue;
    const double wanted = modifier.target * (channel.scale == nullptr ? 1.0 : anatomy.*channel.scale);
    double& value = target.pose.*channel.value;
    value = (1 - modifier.blend) * value + modifier.blend * wanted;
    if (channel.weight != nullptr && !target.vowel)
      target.*channel.weight = std::max(target.*channel.weight, modifier.blend);
  }
}
} // namespace

Result<Target> apply_marks(Target target, const Sound& sound, const Anatomy& anatomy) {
  const auto& table = modifiers();
  if (!table) return table.error();
  std::vector<std::string> marks = sound.marks;
  if (!sound.kind.empty()) marks.push_back(sound.kind);
  for (const auto& mark : marks)
    for (const auto& modifier : *table)
      if (modifier.mark == mark) apply(target, modifier, anatomy);
  return target;
}

} // namespace mw
