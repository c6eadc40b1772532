#include "app/screens.h"

#include "app/compare.h"
#include "app/my_accent.h"
#include "app/panels.h"

#include <algorithm>
#include <array>

namespace mw::app {
namespace {

constexpr std::array rows{
    ScreenRow{Screen::mouth, "Mouth", "The line said by a mouth, and where its moves collide", show_mouth_screen},
    ScreenRow{Screen::compare, "Compare", "The line in the learner's own accent and in the target, side by side", show_compare_screen, false, false, show_compare_presenter},
    ScreenRow{Screen::my_accent, "My accent", "An accent of your own: drag its vowels, choose its rules", show_my_accent, true, true},
};

} // namespace

std::span<const ScreenRow> screens() { return rows; }

const ScreenRow& row_of(Screen screen) {
  const auto found = std::ranges::find(rows, screen, &ScreenRow::screen);
  return found == rows.end() ? rows.front() : *found;
}

void show_mouth_screen(Ui& ui, Session& session, const Layout& layout) {
  if (session.view.face == Face::pattern) return show_pattern_screen(ui, session, layout);
  show_stage(ui, session, layout);
  show_score(ui, session, layout);
  show_why(ui, session, layout);
  if (layout.fold == Fold::full) show_vowels(ui, session, layout);
}

} // namespace mw::app
