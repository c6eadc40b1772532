#pragma once

#include "tract/outline.h"

#include <memory>
#include <optional>

namespace mw {

/// Coronal cut at `behind_teeth_mm`: palate arch and tongue surface across the mouth (z from -W to W). A closed formula
/// on top of the section (tract-model.md section 12), not a simulation of the tongue's sides. Behind the hard palate
/// the arch is that of its end.
struct FrontSection {
  double behind_teeth_mm = 15;
  Polyline palate{}, tongue{}; // (z, y)
  Polyline tongue_underside{}; // only when the cut passes under a raised tip; from +W round to -W
  bool tongue_present = true;
};
FrontSection front_section(const Anatomy& anatomy, const Outline& outline, const Pose& pose, double behind_teeth_mm);

/// Free area (cm2) between tongue and palate of one coronal cut, over the width of the tongue: the groove of s, the ways
/// beside an l; 0 where the surface touches all across. `grooved`: the same over a groove's width at least: close to the
/// round end of the tip, narrower than that, the air passes beside it.
struct Channel {
  double area_cm2 = 0, grooved_cm2 = 0;
};
/// Channels between tongue and palate. Keeps its working memory: no allocation after the first few poses. Looks at the anatomy: that must stay.
class Channels {
public:
  explicit Channels(const Anatomy& anatomy);
  ~Channels();
  Channels(Channels&&) noexcept;
  Channels& operator=(Channels&&) noexcept;

  /// The pose to ask about. Looks at its outline: that must stay.
  void set(const Outline& outline, const Pose& pose);
  /// The cut at `behind_teeth_mm`; none in front of the tip or far behind the hard palate.
  [[nodiscard]] std::optional<Channel> at(double behind_teeth_mm) const;

private:
  struct Work;
  std::unique_ptr<Work> work_;
};

/// Palate seen from below: x behind the teeth, z from the midline (both halves). The tongue touches where its surface
/// comes within 0.35 mm of the arch.
struct PalateMap {
  Polyline arch{};          // outline of the palate (x, z), teeth line, from the back left round the front
  std::vector<Vec2> grid{}; // sample points (x, z): `rows` from front to back, `columns` from left to right
  int rows = 0, columns = 0;
  std::vector<bool> contact{}; // per grid point
  std::vector<double> depth{}; // mm the surface is pressed against the arch; negative = air between
};
PalateMap palate_map(const Anatomy& anatomy, const Outline& outline, const Pose& pose);

/// Width (mm) of the opening between the lips' corners; 0 when they touch.
double lip_width(const Anatomy& anatomy, const Pose& pose);

/// Lips from the front: opening width and height (mm), outlines around (0, 0).
struct LipsFront {
  double width_mm = 0, height_mm = 0, rounding = 0, protrusion_mm = 0;
  bool teeth_on_lip = false; // labiodental
  Polyline outer{}, inner{};
};
LipsFront lips_front(const Anatomy& anatomy, const Pose& pose);

enum class FoldState { closed, creaky, voiced, breathy, voiceless };
/// From the glottis opening: below 0.05 closed, 0.1 creaky, 0.25 voiced, 0.5 breathy, else voiceless.
FoldState fold_state(const Pose& pose);

} // namespace mw
