#pragma once

#include "scene/vowel_chart.h"

namespace mw {

struct AccentPictureView {
  const Theme* theme = nullptr; // light when none
  double width = 1280, height = 720;
};
/// Every lexical set of an accent on the quadrilateral; with `other`, the sets that it says at another place as open
/// diamonds and dashes.
Scene compose_accent_picture(const Accent& accent, const Accent* other, const AccentPictureView& view);

/// The sets of `other` that stand elsewhere than those of `accent` (start, end or rounding), as ChartSet::Look::second.
std::vector<ChartSet> differing_sets(const Accent& accent, const Accent& other);
/// Name of an accent without what its list adds in brackets.
std::string short_name(const Accent& accent);

/// The mark of a side: disc for one's own look, open diamond for the second.
std::vector<Mark> draw_side_mark(const Theme& theme, ChartSet::Look look, Vec2 centre, double s);

} // namespace mw
