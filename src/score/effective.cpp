#include "score/planning.h"

#include "anatomy/places.h"

#include <algorithm>

// Which stretch of its segment a consonant must have made its constriction in, as shares of the segment, and how the
// neighbours change it: the table "Effective stretch" of tract-model.md section 10.

namespace mw {
namespace {
bool is_sibilant(const Target& t) { return t.jaw_weight >= 0.9; }

bool is_fricative(const Target& t) { return t.manner.find("fricative") != std::string::npos; }

bool same_primary(const Unit* a, const Target& row) { return a != nullptr && !a->vowel && a->target.primary == row.primary; }

/// Voiceless friction before a stop in the same onset takes its breath away (s in "spin").
bool breath_is_spent(const Unit* p) {
  return p != nullptr && !p->vowel && p->onset && is_fricative(p->target) && p->target.pose.glottis > 0.5 &&
         p->target.place != "glottal";
}

bool is_aspirated(const Unit& u, const Unit* p) {
  if (!u.mark.empty()) return u.mark == "aspirated";
  return u.onset && (u.stressed_onset || u.word_initial) && !breath_is_spent(p);
}

void set_aspiration(Unit& u, const Unit* p) {
  const Target& r = u.target;
  if (r.manner != "stop" || r.voiced || r.place == "glottal") return;
  u.aspirated = is_aspirated(u, p);
  if (u.aspirated) u.effective_to = same_primary(p, r) ? 0.64 : 0.52;
}

/// A th is made behind the teeth when it is too short for the way out and back (the tip would have to move at over
/// 75 cm/s), and sooner beside another sound of the tip, which needs it further back.
void keep_behind_teeth(Unit& u, const Unit* p, const Unit* n, const Anatomy& anatomy) {
  if (u.target.place != "interdental") return;
  bool sibilant = false, alveolar = false, tip_beside = false;
  for (const Unit* q : {p, n}) {
    if (q == nullptr || q->vowel || q->target.primary != Primary::tip) continue;
    tip_beside = true;
    sibilant = sibilant || is_sibilant(q->target);
    alveolar = alveolar || q->target.pose.tip_x > 8 * anatomy.jaw_x;
  }
  const double least_s = tip_beside ? 0.055 : 0.025; // tried on running speech: every demand on it is still met
  if (u.length() >= least_s && !sibilant && !alveolar) return;
  const Vec2 tip = tip_goal(anatomy, (sibilant ? 6.0 : 1.0) * anatomy.jaw_x, 1.0);
  u.target.pose.tip_x = tip.x;
  u.target.pose.tip_y = tip.y;
  u.target.pose.tip_curl = 6;
  u.target.pose.jaw_opening = 4.5 * anatomy.jaw_x;
}

/// How long a closure is held into what follows.
void set_hold(Unit& u, const Unit* n) {
  if (u.mark.ends_with(" release")) { // the mouth stays shut while nose or sides let the air go
    u.effective_to = 1.05;
    return;
  }
  if (!is_closure(u) || u.target.manner == "affricate" || n == nullptr || n->vowel) return;
  const bool same = same_primary(n, u.target);
  if (is_closure(*n) && !same) u.effective_to = u.target.manner == "stop" ? 1.18 : 1.08; // no release before the next
  else if (same && (is_closure(*n) || n->target.manner.starts_with("lateral"))) u.effective_to = 1.0; // held through
  else if (!u.aspirated) u.effective_to = same ? 0.80 : 0.84;
}

/// How early a consonant is made after a stop of another articulator.
void set_lead(Unit& u, const Unit* p) {
  if (p == nullptr || p->vowel || p->target.manner != "stop" || p->target.place == "glottal") return;
  if (same_primary(p, u.target)) return;
  const auto& manner = u.target.manner;
  if (is_closure(u)) u.effective_from = -0.38 * p->length() / u.length(); // the closures overlap
  else if (manner == "lateral" || manner == "approximant")
    u.effective_from = std::min(u.effective_from, -0.15 * p->length() / u.length());
}
} // namespace

void set_effective(std::vector<Unit>& units, const Anatomy& anatomy) {
  for (std::size_t i = 0; i < units.size(); ++i) {
    Unit& u = units[i];
    if (u.vowel) continue;
    const Unit *p = before(units, i), *n = after(units, i);
    u.effective_from = u.target.effective_from;
    u.effective_to = u.target.effective_to;
    set_aspiration(u, p);
    keep_behind_teeth(u, p, n, anatomy);
    set_hold(u, n);
    set_lead(u, p);
  }
}

} // namespace mw
