#include "acoustics/sections.h"
#include "acoustics/side_ways.h"
#include "acoustics/tube.h"
#include "base/expect.h"
#include "tract/contact.h"
#include "tract/sides.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace mw {
namespace {
// Area = alpha d^beta (cm, cm2), d the width on the midline; by path fraction from the lips. One table for all sounds,
// halfway between a smooth rule and the regression on Story, Titze & Hoffman 1996 and Fant 1960 (tract-model.md 9).
constexpr std::array path{0.0, 0.06, 0.14, 0.28, 0.42, 0.52, 0.64, 0.78, 0.88, 0.94, 1.0};
constexpr std::array alphas{2.5, 2.1, 2.35, 2.15, 1.85, 1.58, 1.22, 1.26, 0.72, 0.34, 0.48};
constexpr std::array betas{1.2, 1.1, 1.25, 1.45, 1.28, 1.30, 1.58, 1.25, 1.25, 1.03, 1.0};
// Where the same regions lie in the adult male, whose tract the table's path is.
constexpr std::array male_shares{0.0, 0.2902, 0.4504, 0.6043, 0.8349, 1.0};
constexpr double narrowest_cm = 1e-3;
constexpr int lip_sections = 4;
constexpr double under_tip_width_cm = 1.8; // mean width of the space under the tip

// A short throat is not the back of a long mouth: the path runs through each region at the speaker's own proportions.
double male_fraction(const Anatomy& anatomy, double fraction) {
  const auto& own = anatomy.path_shares;
  const std::array shares{0.0, own[0], own[1], own[2], own[3], 1.0};
  return interpolate(shares, male_shares, fraction);
}

// Alpha holds the width across the mouth: it scales with the speaker's width to the power that keeps its unit.
double area_of(double fraction, double width_mm, double speaker_width) {
  const double beta = interpolate(path, betas, fraction);
  const double alpha = interpolate(path, alphas, fraction) * std::pow(speaker_width, 2 - beta);
  return alpha * std::pow(std::max(width_mm / 10, narrowest_cm), beta);
}

// Opening between the lips: an ellipse (cm2).
double lip_area(const Anatomy& anatomy, const Pose& pose) {
  return std::numbers::pi / 4 * lip_width(anatomy, pose) * std::max(pose.lip_opening, 0.0) / 100;
}

struct UnderTip {
  double area_cm2 = 0, depth_cm = 0, mouth_x = 0;
};

// Which points of the tongue touch the upper wall, looked up once each and only when asked for.
class TongueContact {
public:
  void set(const Outline& outline) {
    outline_ = &outline;
    wall_.set(outline.upper_wall);
    known_.assign(outline.dorsum.size() + outline.tip_cap.size(), unknown);
  }
  // Does the tongue touch the wall within `reach` mm of a point?
  bool near(Vec2 place, double reach) {
    std::size_t i = 0;
    for (const Polyline* piece : {&outline_->dorsum, &outline_->tip_cap})
      for (const Vec2 p : *piece) {
        const Vec2 d = p - place;
        if (glm::dot(d, d) <= reach * reach && touches(p, i)) return true;
        ++i;
      }
    return false;
  }

private:
  static constexpr signed char unknown = -1;
  static constexpr double touching = 0.05, deepest = 20; // mm; deeper in the wall lies no tongue
  bool touches(Vec2 p, std::size_t i) {
    if (known_[i] == unknown) {
      const Nearest wall = wall_.nearest(p, 1, deepest);
      known_[i] = !wall.beyond_end && wall.distance <= touching ? 1 : 0;
    }
    return known_[i] == 1;
  }
  const Outline* outline_ = nullptr;
  BoxedLine wall_;
  std::vector<signed char> known_;
};
} // namespace

struct AreaMeter::Work {
  explicit Work(const Anatomy& of) : anatomy(of), channels(of) {}
  const Anatomy& anatomy;
  Channels channels;
  TongueContact contact;
  std::vector<CrossLine> lines;
  Midline mid;
  std::vector<double> arc, area;           // at each point of the midline: mm from the first, cm2
  Polyline ring;                           // round the space under the tip
  std::vector<double> floor_x, floor_y;
  AreaFunction tube;

  void add_section(double length_mm, double area_cm2) {
    tube.sections.push_back({tube.tract_length_mm, length_mm, std::max(area_cm2, closed_area_cm2)});
    tube.tract_length_mm += length_mm;
  }
  void measure_lines(double lip_length);
  UnderTip under_tip(const Outline& o);
  void shut_contacts(const Outline& outline);
  void add_side_branch(const Outline& outline);
  const AreaFunction& measure(const Outline& outline, const Pose& pose);
};

// Length and area at each point of the midline.
void AreaMeter::Work::measure_lines(double lip_length) {
  const std::size_t n = mid.point.size();
  arc.assign(n, 0.0);
  for (std::size_t i = 1; i < n; ++i) arc[i] = arc[i - 1] + glm::distance(mid.point[i], mid.point[i - 1]);
  const double whole = arc.back() + lip_length;
  area.resize(n);
  for (std::size_t i = 0; i < n; ++i) {
    const double fraction = male_fraction(anatomy, (arc[i] + lip_length) / whole);
    area[i] = area_of(fraction, mid.width[i], anatomy.width);
  }
}

// Round the space: the under side behind the foremost point, the floor, the lingual face of the lower teeth.
UnderTip AreaMeter::Work::under_tip(const Outline& o) {
  const auto foremost = std::ranges::min_element(o.tip_cap, {}, &Vec2::x);
  UnderTip space{.mouth_x = foremost->x};
  ring.assign(foremost, o.tip_cap.end());
  ring.insert(ring.end(), o.underside.begin(), o.underside.end());
  const double innermost = std::ranges::max_element(ring, {}, &Vec2::x)->x;
  // back along the floor to below the mouth of the space: lower teeth (lingual face) and floor
  floor_x.clear();
  floor_y.clear();
  const auto add = [&](Vec2 p) {
    floor_x.push_back(p.x);
    floor_y.push_back(p.y);
  };
  for (std::size_t i = o.lower_incisor_line.size() / 2; i-- > 0;) add(o.lower_incisor_line[i]);
  for (std::size_t i = 1; i < o.mouth_floor.size(); ++i) add(o.mouth_floor[i]);
  const double top = ring.front().y;
  for (std::size_t i = o.mouth_floor.size(); i-- > 0;)
    if (o.mouth_floor[i].x < o.frenulum.x && o.mouth_floor[i].x > space.mouth_x) ring.push_back(o.mouth_floor[i]);
  ring.push_back({space.mouth_x, std::min(interpolate(floor_x, floor_y, space.mouth_x), top)});
  space.area_cm2 = std::abs(signed_area(ring)) / 100;
  space.depth_cm = (innermost - space.mouth_x) / 10;
  return space;
}

// A contact may fall between two lines of the grid: the narrow section it lies in is shut. It is looked for at the
// section's middle and on the narrower line itself, which a raised tip may have left far from the smoothed midline.
void AreaMeter::Work::shut_contacts(const Outline& outline) {
  constexpr double narrow = 3.0, reach = 4.0; // mm
  contact.set(outline);
  for (std::size_t i = 0; i + 1 < mid.point.size(); ++i) {
    const CrossLine& line = lines[mid.width[i] < mid.width[i + 1] ? i : i + 1];
    if (std::min(mid.width[i], mid.width[i + 1]) < narrow &&
        (contact.near(0.5 * (mid.point[i] + mid.point[i + 1]), reach) ||
         contact.near(0.5 * (line.inner + line.outer), reach)))
      tube.sections[mid.point.size() - 2 - i].area_cm2 = closed_area_cm2;
  }
}

void AreaMeter::Work::add_side_branch(const Outline& outline) {
  const UnderTip space = under_tip(outline);
  tube.side_volume_cm3 = std::max(under_tip_width_cm * anatomy.width * space.area_cm2, 1e-3);
  tube.side_length_cm = std::max(space.depth_cm, 0.2);
  // it joins where the midline passes the foremost point of the tip; the midline runs from the lips
  const auto joint = std::ranges::find_if(mid.point, [&](Vec2 p) { return p.x >= space.mouth_x; });
  const auto from_lips = joint == mid.point.end() ? 0 : joint - mid.point.begin();
  const auto last = static_cast<std::ptrdiff_t>(mid.point.size()) - 2; // sections between points of the midline
  tube.side_at_section = static_cast<std::size_t>(std::clamp<std::ptrdiff_t>(last - from_lips, 0, last));
}

const AreaFunction& AreaMeter::Work::measure(const Outline& outline, const Pose& pose) {
  tube.sections.clear();
  tube.tract_length_mm = tube.side_volume_cm3 = tube.side_length_cm = 0;
  tube.side_at_section = 0;
  cross_lines_into(anatomy, outline, lines);
  midline_into(lines, mid);
  const std::size_t n = mid.point.size();
  if (n < 2) return tube;
  const double lip_length = std::max(mid.point.front().x - outline.lip_edge_x, 2.0); // mm
  measure_lines(lip_length);
  for (std::size_t i = n - 1; i-- > 0;) add_section(arc[i + 1] - arc[i], 0.5 * (area[i] + area[i + 1]));
  for (int i = 0; i < lip_sections; ++i) add_section(lip_length / lip_sections, lip_area(anatomy, pose));
  shut_contacts(outline);
  lay_side_ways(tube, anatomy, outline, pose, mid, channels);
  add_side_branch(outline);
  return tube;
}

AreaMeter::AreaMeter(std::shared_ptr<const Anatomy> anatomy) : anatomy_(std::move(anatomy)) {
  MW_EXPECT(anatomy_ != nullptr);
  work_ = std::make_unique<Work>(*anatomy_);
}
AreaMeter::~AreaMeter() = default;
AreaMeter::AreaMeter(AreaMeter&&) noexcept = default;
AreaMeter& AreaMeter::operator=(AreaMeter&&) noexcept = default;

const AreaFunction& AreaMeter::measure(const Outline& outline, const Pose& pose) { return work_->measure(outline, pose); }

AreaFunction area_function(const Anatomy& anatomy, const Outline& outline, const Pose& pose) {
  return AreaMeter::Work(anatomy).measure(outline, pose);
}

} // namespace mw
