#pragma once

#include "anatomy/pose.h"
#include "base/result.h"
#include "scene/scene.h"

#include <array>
#include <span>
#include <string_view>

namespace mw {

/// Line pattern that repeats an articulator's colour in grey (visual design, section 2).
struct GreyPattern {
  double angle_deg = 0;
  bool crossed = false;
  std::array<double, 2> dash{}; // {0, 0}: solid; units of the view
};

/// All colours of one look. Every token has a row in token_rows(); see there for its use.
struct Theme {
  std::string_view name; // light, dark, high, print
  bool dark = false;
  Colour ground, panel, raised, ink, quiet, rule, edge, action, on_action, second, focus, select, changed;
  Colour head, deep, air, nasal, tongue, tongue_hi, tongue_lo, fibre, velum, lips, lip_hi, gum, bone, tooth, cart, epi, turb,
      vert, vert_e, line, line2, shadow, flow, voice, ghost, halo;
  Colour clash1, clash2, clash3, clash_ink, hatch;
  std::array<Colour, articulator_count> articulators{}; // by Articulator
  [[nodiscard]] Colour of(Articulator a) const { return articulators[static_cast<std::size_t>(a)]; }
  [[nodiscard]] Colour clash(int level) const { return level <= 1 ? clash1 : level == 2 ? clash2 : clash3; }
};

/// One row per token: name, where it is kept, its four values (light, dark, high, print) and its use.
struct TokenRow {
  std::string_view name;
  Colour Theme::*value;
  std::array<std::string_view, 4> hex;
  std::string_view use;
};
std::span<const TokenRow> token_rows();

/// Everything the picture needs to know about one articulator.
struct ArticulatorRow {
  Articulator articulator;
  std::string_view lane;  // word on screen
  std::array<std::string_view, 4> hex;
  std::vector<double> trail; // dashes of its trail, empty = solid
  GreyPattern pattern;
};
std::span<const ArticulatorRow> articulator_rows();
const ArticulatorRow& articulator_row(Articulator articulator);

const Theme& light_theme();
const Theme& dark_theme();
const Theme& high_theme();
const Theme& print_theme();
std::span<const std::string_view> theme_names();
/// A theme by name; Problem (usage) lists the names.
Result<const Theme*> find_theme(std::string_view name);

/// "#RRGGBB" to a colour; anything else is our own mistake.
Colour from_hex(std::string_view hex);
Colour with_alpha(Colour colour, double alpha);
/// WCAG 2 contrast ratio of two opaque colours, 1 to 21.
double contrast(Colour a, Colour b);

} // namespace mw
