#include "tract/measure.h"

#include "anatomy/places.h"
#include "tract/contact.h"

#include <algorithm>
#include <cmath>

namespace mw {
namespace {
constexpr double touching = 0.12;   // mm: closer counts as contact (the contact law leaves a little air beside a closure)
constexpr double closed_gap = 0.05; // mm: a closure that is reported as 0
constexpr double tip_part = 15;     // mm of arc behind the tip (adult male) that belong to tip and blade
constexpr double curled_tip = 0.47; // cosine: a tip that points up by more than 62 degrees makes a retroflex
constexpr double labiodental = 0.5; // tuck from which the lower lip works against the teeth
constexpr double front_palatal = 0.33;  // normalised place from which the body, unlike the tip, is palatal
constexpr std::size_t free_underside = 5; // samples of the under side that can meet the palate

// A point of the tongue surface against the nearest wall.
struct Spot {
  Vec2 at{}, foot{};
  double gap = 0;
  double z = 0;   // normalised place, see normalised_place
  bool tip = false;
};

std::size_t upper_joint(const Anatomy& anatomy) { return anatomy.upper_incisor.size() + anatomy.palate.size() - 2; }

// Normalised place of a foot on the drawn upper wall: teeth 0, hard palate 0..1, soft palate 1..2 (its end: mid cap).
class UpperPlaces {
public:
  UpperPlaces(const Anatomy& anatomy, const Outline& outline)
      : teeth_(anatomy.upper_incisor.size() - 1), joint_(upper_joint(anatomy)), arcs_(arc_lengths(outline.upper_wall)) {
    soft_ = arcs_.back() - arcs_[joint_] + mw::length(std::span(outline.velum_cap).first(4)) +
            glm::distance(outline.velum_under.back(), outline.velum_cap.front());
  }
  [[nodiscard]] double place(const Nearest& near) const {
    const double s = arcs_[near.segment] + near.along * (arcs_[near.segment + 1] - arcs_[near.segment]);
    if (s <= arcs_[joint_]) return std::max(0.0, (s - arcs_[teeth_]) / (arcs_[joint_] - arcs_[teeth_]));
    return 1 + (s - arcs_[joint_]) / soft_;
  }

private:
  std::size_t teeth_, joint_;
  std::vector<double> arcs_;
  double soft_ = 1;
};

// The part of the throat wall below the soft palate.
Polyline throat_below(const Anatomy& anatomy, const Outline& outline) {
  Polyline line;
  for (const Vec2 p : anatomy.back_wall)
    if (p.y < outline.velum_cap[3].y) line.push_back(p);
  return line;
}

double throat_place(const WallTable& table, Vec2 foot) {
  return std::max(2.0, normalised_place(table, locate_on_wall(table, foot).u));
}

std::vector<Spot> surface(const Anatomy& anatomy, const Outline& outline) {
  std::vector<Spot> spots;
  const auto add = [&](Vec2 p) {
    Spot spot;
    spot.at = p;
    spots.push_back(spot);
  };
  for (const Vec2 p : outline.dorsum) add(p);
  const std::size_t tip_end = spots.size() + outline.tip_cap.size();
  for (const Vec2 p : outline.tip_cap) add(p);
  for (std::size_t i = 0; i < free_underside; ++i) add(outline.underside[i]);
  double behind = 0;
  for (std::size_t i = spots.size(); i-- > 0;) {
    if (i + 1 < tip_end) behind += glm::distance(spots[i].at, spots[i + 1].at);
    spots[i].tip = behind < tip_part * anatomy.tongue_scale;
  }
  return spots;
}

std::vector<Spot> measured_surface(const Anatomy& anatomy, const Outline& outline) {
  const UpperPlaces places(anatomy, outline);
  const WallTable& table = wall_table(anatomy, 0);
  // from the incisor edge to just before the uvula's end, and the throat below it
  const Polyline throat_line = throat_below(anatomy, outline);
  BoxedLine upper, throat;
  upper.set(std::span(outline.upper_wall).first(outline.upper_wall.size() - 4), anatomy.upper_incisor.size() - 2);
  throat.set(throat_line);
  std::vector<Spot> spots = surface(anatomy, outline);
  for (Spot& spot : spots) {
    const Nearest up = upper.nearest(spot.at, 1, 1e3), back = throat.nearest(spot.at, 1, 1e3);
    const bool uses_throat = spot.at.y < 0 && std::fabs(back.distance) < std::fabs(up.distance);
    const Nearest& near = uses_throat ? back : up;
    spot.gap = std::fabs(near.distance);
    spot.foot = near.foot;
    spot.z = uses_throat ? throat_place(table, near.foot) : places.place(near);
  }
  return spots;
}

// Stretches of spots in contact, [first, last].
std::vector<std::pair<std::size_t, std::size_t>> stretches(const std::vector<Spot>& spots) {
  std::vector<std::pair<std::size_t, std::size_t>> out;
  for (std::size_t i = 0; i < spots.size(); ++i) {
    if (spots[i].gap >= touching) continue;
    const std::size_t first = i;
    while (i + 1 < spots.size() && spots[i + 1].gap < touching) ++i;
    out.emplace_back(first, i);
  }
  return out;
}

double arc_between(const std::vector<Spot>& spots, std::size_t first, std::size_t last) {
  double length = 0;
  for (std::size_t i = first; i < last; ++i) length += glm::distance(spots[i].at, spots[i + 1].at);
  return length;
}

std::size_t middle_of(const std::vector<Spot>& spots, std::size_t first, std::size_t last) {
  const double half = 0.5 * arc_between(spots, first, last);
  double passed = 0;
  std::size_t i = first;
  while (i < last && passed + 0.5 * glm::distance(spots[i].at, spots[i + 1].at) < half) {
    passed += glm::distance(spots[i].at, spots[i + 1].at);
    ++i;
  }
  return i;
}

struct Name {
  Articulator articulator;
  std::string_view place;
};
Name name_of(const Anatomy& anatomy, const Outline& outline, const Spot& spot) {
  const WallTable& table = wall_table(anatomy, 0);
  std::string_view place = place_name(anatomy, table, place_of_normalised(table, spot.z));
  if (spot.z > 2) return {Articulator::root, place};
  if (!spot.tip) return {Articulator::body, spot.z > front_palatal && spot.z < 0.5 ? "palatal" : place};
  const bool curled = -outline.tip_direction.x < curled_tip && outline.tip_direction.y > 0;
  return {Articulator::tip, place == "retroflex" && !curled ? "postalveolar" : place};
}

Narrowest narrowest_at(const Anatomy& anatomy, const Outline& outline, const Spot& spot) {
  const Name name = name_of(anatomy, outline, spot);
  return {name.articulator, name.place, spot.gap, place_of_normalised(wall_table(anatomy, 0), spot.z),
          0.5 * (spot.at + spot.foot)};
}

// Deepest lie of points beyond a wall; deeper than `most` is another place, not an overlap.
double deepest(std::span<const Vec2> points, std::span<const Vec2> wall, double side, double most) {
  double depth = 0;
  for (const Vec2 p : points) {
    const Nearest near = nearest_on(wall, p, side);
    if (!near.beyond_end && near.distance > -most) depth = std::max(depth, -near.distance);
  }
  return depth;
}

// A tooth edge inside the under side of a tip that lies over it.
double tooth_in_tongue(const Outline& outline) {
  const Polyline& tooth = outline.lower_incisor_line;
  double top = tooth.front().y;
  for (const Vec2 p : tooth) top = std::max(top, p.y);
  Polyline edge, under(outline.tip_cap.begin(), outline.tip_cap.end());
  for (const Vec2 p : tooth)
    if (p.y > top - 5) edge.push_back(p);
  under.insert(under.end(), outline.underside.begin(), outline.underside.end());
  const auto front = std::min_element(under.begin(), under.end(), [](Vec2 p, Vec2 q) { return p.x < q.x; });
  under.erase(under.begin(), front);
  const auto foremost = std::min_element(edge.begin(), edge.end(), [](Vec2 p, Vec2 q) { return p.x < q.x; });
  if (foremost->x <= under.front().x + 0.5) return 0;
  return deepest(resample(edge, 0.3), under, 1, 6);
}
} // namespace

Narrowest tongue_gap(const Anatomy& anatomy, const Outline& outline) {
  const std::vector<Spot> spots = measured_surface(anatomy, outline);
  const auto least = std::min_element(spots.begin(), spots.end(), [](const Spot& a, const Spot& b) { return a.gap < b.gap; });
  const auto touches = stretches(spots);
  std::pair<std::size_t, std::size_t> stretch;
  if (touches.empty()) {
    // a long even channel has its place in its middle, not at the end that is narrower by a hair
    const auto at = static_cast<std::size_t>(least - spots.begin());
    const double even = 1.1 * least->gap + 0.25;
    stretch = {at, at};
    while (stretch.first > 0 && spots[stretch.first - 1].gap <= even) --stretch.first;
    while (stretch.second + 1 < spots.size() && spots[stretch.second + 1].gap <= even) ++stretch.second;
  } else {
    stretch = touches.back(); // of two closures the one in front
  }
  Narrowest out = narrowest_at(anatomy, outline, spots[middle_of(spots, stretch.first, stretch.second)]);
  out.gap_mm = least->gap <= closed_gap ? 0 : least->gap;
  return out;
}

double lip_gap(const Outline& outline) {
  // lower lip on the teeth: the opening is what its margin leaves under the upper lip's
  if (outline.lip_tuck > labiodental) return std::max(outline.upper_margin_y - outline.lower_margin_y, 0.0);
  BoxedLine lower;
  lower.set(outline.lower_lip_line);
  double gap = 1e300;
  for (const Vec2 p : outline.upper_lip_line) gap = std::min(gap, std::fabs(lower.nearest(p, 1, 1e3).distance));
  return gap <= closed_gap ? 0 : gap;
}

double nasal_port(const Outline& outline) {
  BoxedLine throat;
  throat.set(outline.back_wall);
  double port = 1e300;
  const auto meet = [&](Vec2 p) { port = std::min(port, throat.nearest(p, 1, 1e3).distance); };
  for (std::size_t i = 20; i < outline.velum_upper.size(); ++i) meet(outline.velum_upper[i]);
  for (const Vec2 p : outline.velum_cap) meet(p);
  return std::max(port, 0.0);
}

Narrowest narrowest(const Anatomy& anatomy, const Outline& outline, const Pose& pose) {
  Narrowest best = tongue_gap(anatomy, outline);
  const auto offer = [&](const Narrowest& other) {
    if (other.gap_mm <= best.gap_mm) best = other; // of two closures the one in front, so lips before tongue
  };
  offer({Articulator::lips, pose.lip_tuck > labiodental ? "labiodental" : "bilabial", lip_gap(outline), 0,
         {outline.lip_edge_x, 0.5 * (outline.upper_margin_y + outline.lower_margin_y)}});
  if (pose.epiglottis > 0.2) {
    BoxedLine throat;
    throat.set(outline.back_wall);
    Narrowest leaf{Articulator::root, "epiglottal", 1e300, 0, {}};
    const auto meet = [&](Vec2 p) {
      const Nearest near = throat.nearest(p, 1, 1e3);
      if (std::fabs(near.distance) >= leaf.gap_mm) return;
      leaf.gap_mm = std::fabs(near.distance);
      leaf.u_mm = locate_on_wall(wall_table(anatomy, 0), near.foot).u;
      leaf.at = 0.5 * (p + near.foot);
    };
    for (const Vec2 p : outline.epiglottis_back) meet(p);
    for (const Vec2 p : outline.epiglottis_cap) meet(p);
    if (leaf.gap_mm <= closed_gap) leaf.gap_mm = 0;
    if (leaf.gap_mm < best.gap_mm) best = leaf;
  }
  // shut folds close the tract where nothing above does
  if (pose.glottis < 0.05 && best.gap_mm > closed_gap) {
    const WallTable& table = wall_table(anatomy, 0);
    best = {Articulator::glottis, "glottal", 0, table.landmarks[3], {0.5 * (outline.larynx_front.back().x +
            outline.larynx_back.back().x), outline.glottis_y}};
  }
  return best;
}

std::vector<Contact> contacts(const Anatomy& anatomy, const Outline& outline) {
  std::vector<Contact> out;
  const std::vector<Spot> spots = measured_surface(anatomy, outline);
  for (const auto& [first, last] : stretches(spots)) {
    const Name name = name_of(anatomy, outline, spots[(first + last) / 2]);
    out.push_back({name.articulator, name.place, arc_between(spots, first, last), spots[first].foot, spots[last].foot});
  }
  // lips: the lower one against the upper one, or against the teeth
  const auto meet = [&](std::span<const Vec2> wall, std::string_view place) {
    BoxedLine line;
    line.set(wall);
    const Polyline& lip = outline.lower_lip_line;
    for (std::size_t i = 0; i < lip.size(); ++i) {
      const auto touches = [&](std::size_t k) { return std::fabs(line.nearest(lip[k], 1, 1e3).distance) < touching; };
      if (!touches(i)) continue;
      Contact contact{Articulator::lips, place, 0, lip[i], lip[i]};
      while (i + 1 < lip.size() && touches(i + 1)) {
        contact.length_mm += glm::distance(lip[i], lip[i + 1]);
        contact.to = lip[++i];
      }
      if (contact.length_mm > 0) out.push_back(contact);
    }
  };
  meet(outline.upper_lip_line, "bilabial");
  meet(anatomy.upper_incisor, "labiodental");
  return out;
}

double penetration(const Anatomy& anatomy, const Outline& outline) {
  Polyline tongue = outline.dorsum;
  tongue.insert(tongue.end(), outline.tip_cap.begin(), outline.tip_cap.end());
  tongue.insert(tongue.end(), outline.underside.begin(), outline.underside.end() - 3);
  const std::span upper = std::span(outline.upper_wall).first(outline.upper_wall.size() - 16);
  double depth = std::max(deepest(tongue, upper, 1, 12), deepest(tongue, anatomy.back_wall, 1, 12));
  depth = std::max({depth, deepest(std::span(outline.velum_under).subspan(1), outline.dorsum, 1, 6),
                    deepest(outline.velum_cap, outline.dorsum, 1, 6), tooth_in_tongue(outline)});
  Polyline lower(outline.lower_incisor_line.rbegin(), outline.lower_incisor_line.rend());
  lower.insert(lower.end(), outline.mouth_floor.begin() + 1, outline.mouth_floor.end());
  double lower_end = lower.front().x;
  for (const Vec2 p : lower) lower_end = std::max(lower_end, p.x);
  std::erase_if(tongue, [&](Vec2 p) { return p.x >= lower_end - 1; });
  return std::max(depth, deepest(tongue, lower, -1, 8));
}

} // namespace mw
