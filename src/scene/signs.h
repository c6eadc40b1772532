#pragma once

#include "clash/clash.h"
#include "scene/canvas.h"
#include "scene/theme.h"

#include <string_view>
#include <vector>

namespace mw {

/// Every sign of the program (visual design, section 4), drawn in a box of side 2s, strokes 0.2 s with round ends.
enum class Sign {
  play, pause, step, back, loop, slow, sound, no_sound, spotlight, mirror, labels, cover, present, down, right, left, tick, cross, plus,
  glass, tug, quick_return, swap, near_twins, counter_move, out_of_step, accent_shift
};
std::string_view to_text(Sign sign); // its name, for tips and screen readers
std::span<const Sign> all_signs();
Sign sign_of(ClashKind kind);

/// The sign about `centre`, half side `s`; `width` 0 gives the usual stroke.
std::vector<Mark> draw_sign(Sign sign, Vec2 centre, double s, Colour colour, double width = 0);
/// One shape for each articulator, half side `s`.
std::vector<Mark> draw_articulator(Articulator articulator, Vec2 centre, double s, Colour colour);
/// A square flag with the kind's sign and one to three pips for the level; half side `r`.
std::vector<Mark> draw_flag(const Theme& theme, ClashKind kind, int level, bool lit, Vec2 centre, double r, const std::string& id = {});
/// The program's own mark: a try-square holding a tongue hump.
std::vector<Mark> draw_logo(const Theme& theme, Vec2 centre, double s);
/// Lips between spread (0, a flat lens) and rounded (1, a ring): the sign on a glide's arrow.
std::vector<Mark> draw_lip_sign(Vec2 centre, double r, double rounding, Colour line, Colour ground, double width);

/// Words of a level: mild, clear, strong.
std::string_view level_word(int level);
/// Fill of a clash by level: broken lines, one family, crossed (visual design, section 7.5). `alpha` of the ground.
Hatch clash_hatch(const Theme& theme, int level, double pitch, double width, double alpha = 1);
/// Colour of signs and lines that stand on a clash fill.
Colour on_clash(const Theme& theme);
/// Edge of clash boxes and tags: dark ink, in the dark theme the light gold.
Colour clash_edge(const Theme& theme);

} // namespace mw
