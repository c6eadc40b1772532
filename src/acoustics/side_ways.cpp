#include "acoustics/side_ways.h"

#include <algorithm>
#include <optional>

namespace mw {
namespace {
// A groove of 1 mm and sides down by a tenth count in full; less is on its way there.
constexpr double full_groove = 1.0, full_sides = 0.1;
constexpr double channel_mm = 6.0; // a grooved channel is narrower than this on the midline
constexpr double shut_mm = 3.0;    // a lateral is shut or nearly so on the midline
constexpr double slit_mm = 2.3;    // wider than any friction at the teeth
// The slit under the upper teeth is as wide as the arch of teeth 4 mm behind their edge (adult male 14.6 mm, the two
// middle incisors; tract-model.md section 12, from memory of dental casts).
constexpr double slit_width_mm = 14.6;

// Narrowest groove and widest way over the tongue between two upright cuts, cm2.
struct Ways {
  bool found = false;
  double groove = 1e9, widest = 0;
  void add(const Channel& channel) {
    found = true;
    groove = std::min(groove, channel.grooved_cm2);
    widest = std::max(widest, channel.area_cm2);
  }
};

// Stretches follow one another: the cut at the end of one is the first of the next.
class ChannelWalk {
public:
  explicit ChannelWalk(const Channels& channels) : channels_(channels) {}
  Ways between(double from, double to) {
    Ways ways;
    constexpr int cuts = 4;
    for (int i = 0; i <= cuts; ++i) {
      const double x = i < cuts ? from + (to - from) * i / cuts : to;
      if (x != last_x_) last_ = channels_.at(x);
      last_x_ = x;
      if (last_) ways.add(*last_);
    }
    return ways;
  }

private:
  const Channels& channels_;
  double last_x_ = -1e300;
  std::optional<Channel> last_;
};

// Opening (mm) between the edge of the upper teeth and a tongue that lies under it.
std::optional<double> slit_under_teeth(const Anatomy& anatomy, const Outline& outline) {
  const Vec2 edge = anatomy.palate.front();
  if (std::ranges::none_of(outline.tip_cap, [&](Vec2 p) { return p.x < edge.x; })) return std::nullopt;
  double nearest = slit_mm;
  for (const Polyline* piece : {&outline.dorsum, &outline.tip_cap})
    for (const Vec2 p : *piece) nearest = std::min(nearest, glm::distance(p, edge));
  if (nearest >= slit_mm) return std::nullopt;
  return nearest;
}
} // namespace

void lay_side_ways(AreaFunction& tube, const Anatomy& anatomy, const Outline& outline, const Pose& pose,
                   const Midline& mid, Channels& channels) {
  const double groove = std::clamp(pose.groove / full_groove, 0.0, 1.0);
  const double sides = std::clamp(-pose.sides / full_sides, 0.0, 1.0);
  const auto slit = slit_under_teeth(anatomy, outline);
  if (groove <= 0 && sides <= 0 && !slit) return;
  const double edge = anatomy.palate.front().x;
  channels.set(outline, pose);
  ChannelWalk walk(channels);
  for (std::size_t i = 0; i + 1 < mid.point.size(); ++i) { // from the lips; the tube runs from the glottis
    double& area = tube.sections[mid.point.size() - 2 - i].area_cm2;
    const double from = mid.point[i].x, to = mid.point[i + 1].x, width = std::min(mid.width[i], mid.width[i + 1]);
    if (slit && from < edge && to >= edge) area = std::min(area, *slit * slit_width_mm * anatomy.width / 100);
    const bool grooved = groove > 0 && width <= channel_mm, open_sides = sides > 0 && width < shut_mm;
    if (to <= from || !(grooved || open_sides)) continue;
    const Ways ways = walk.between(from, to);
    if (!ways.found) continue;
    if (grooved && ways.groove > 0) area += groove * (std::min(area, ways.groove) - area);
    if (open_sides) area = std::max(area, sides * ways.widest); // beside the end of the tip all is open
  }
}

} // namespace mw
