#include "motion/landmarks.h"

#include "score/disc_gaps.h"
#include "score/plan.h"

#include <algorithm>

namespace mw {
namespace {
struct Contact {
  double made_s = 0, broken_s = 0;
};

/// The last moment at which `opening` is over 0 on the way from `open` to `shut`, to 24 bisections.
template <typename Opening> double crossing(const Opening& opening, double open, double shut) {
  if (opening(open) <= 0) return open;
  for (int i = 0; i < 24; ++i) {
    const double middle = 0.5 * (open + shut);
    (opening(middle) <= 0 ? shut : open) = middle;
  }
  return shut;
}

std::optional<Contact> contact_of(const Gesture& g, const Score& score, const Motion& motion, const DiscWalls& walls) {
  if (!g.primary || g.vowel || g.degree != Degree::closed) return {};
  const Anatomy& anatomy = *score.plan->anatomy;
  const auto& units = score.plan->units;
  const bool nasal = std::ranges::any_of(
      units, [&](const Unit& u) { return u.segment == g.segment && u.target.pose.velum > 0.5; });
  const auto opening = [&](double t) {
    const Pose p = pose_at(motion, t);
    if (g.articulator == Articulator::lips) return p.lip_opening;
    if (g.articulator == Articulator::tip) return tip_gap(anatomy, walls, p);
    return body_gap(anatomy, walls, p, nasal);
  };
  if (g.articulator != Articulator::lips && g.articulator != Articulator::tip && g.articulator != Articulator::body)
    return {};
  const double apex = 0.5 * (g.reached_s + g.release_s);
  if (opening(apex) > 0) return {};
  return Contact{crossing(opening, g.onset_s, apex), crossing(opening, g.offset_s, apex)};
}
} // namespace

std::string_view to_text(LandmarkKind kind) {
  switch (kind) {
  case LandmarkKind::onset: return "onset";
  case LandmarkKind::contact_made: return "contact_made";
  case LandmarkKind::reached: return "reached";
  case LandmarkKind::release: return "release";
  case LandmarkKind::contact_broken: return "contact_broken";
  case LandmarkKind::offset: return "offset";
  }
  return "";
}

std::vector<Landmark> landmarks(const Score& score, const Motion& motion) {
  const DiscWalls& walls = disc_walls(*score.plan->anatomy);
  std::vector<Landmark> out;
  for (std::size_t i = 0; i < score.gestures.size(); ++i) {
    const Gesture& g = score.gestures[i];
    const auto add = [&](LandmarkKind kind, double t) { out.push_back({t, kind, i, g.segment, g.articulator}); };
    add(LandmarkKind::onset, g.onset_s);
    add(LandmarkKind::reached, g.reached_s);
    add(LandmarkKind::release, g.release_s);
    add(LandmarkKind::offset, g.offset_s);
    if (const auto contact = contact_of(g, score, motion, walls)) {
      add(LandmarkKind::contact_made, contact->made_s);
      add(LandmarkKind::contact_broken, contact->broken_s);
    }
  }
  std::ranges::stable_sort(out, [](const Landmark& a, const Landmark& b) {
    return a.time_s != b.time_s ? a.time_s < b.time_s : a.kind < b.kind;
  });
  return out;
}

} // namespace mw
