#pragma once

#include "tract/outline.h"

namespace mw {

/// Narrowest midsagittal channel of the tongue: against teeth, palate, velum or throat wall; 0 in contact. The place is
/// the middle of the closure or of the evenly narrow stretch.
struct Narrowest {
  Articulator articulator = Articulator::body; // lips, tip, body, root
  std::string_view place;                      // IPA place
  double gap_mm = 0;
  double u_mm = 0;                             // along the upper wall
  Vec2 at{};                                   // middle of the gap
};
Narrowest tongue_gap(const Anatomy& anatomy, const Outline& outline);
/// The narrowest place of the whole mouth, lips included (what `shape` reports as `narrowest`).
Narrowest narrowest(const Anatomy& anatomy, const Outline& outline, const Pose& pose);
/// Smallest distance of the lips (mm); with the lower lip on the teeth the opening of the margins. 0 when closed.
double lip_gap(const Outline& outline);
/// Smallest distance of soft palate and throat wall (mm); 0 when shut.
double nasal_port(const Outline& outline);

/// A stretch of midsagittal contact.
struct Contact {
  Articulator articulator = Articulator::tip;
  std::string_view place;
  double length_mm = 0;
  Vec2 from{}, to{};
};
std::vector<Contact> contacts(const Anatomy& anatomy, const Outline& outline);

/// Deepest overlap (mm) of the drawn tongue with palate, velum, throat wall, lower teeth and floor; 0 when none.
double penetration(const Anatomy& anatomy, const Outline& outline);

} // namespace mw
