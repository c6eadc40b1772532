#include "app/actions.h"
#include "app/panels.h"

namespace mw::app {

void show_quiet_mouth(Ui& ui, Session&, const Layout&, Rect rect) {
  ui.begin_sheet("stage", rect, ui.theme->ground);
  ui.panel({0, 0, rect.width, rect.height});
  ui.end_sheet();
}
void show_stage(Ui& ui, Session&, const Layout& layout) {
  ui.begin_sheet("stage", layout.stage, ui.theme->ground);
  ui.panel({0, 0, layout.stage.width, layout.stage.height});
  ui.end_sheet();
}
void show_score(Ui& ui, Session&, const Layout& layout) {
  ui.begin_sheet("score", layout.score, ui.theme->ground);
  ui.panel({0, 0, layout.score.width, layout.score.height});
  ui.end_sheet();
}
void show_vowels(Ui& ui, Session&, const Layout& layout) {
  ui.begin_sheet("vowels", layout.vowels, ui.theme->ground);
  ui.panel({0, 0, layout.vowels.width, layout.vowels.height});
  ui.end_sheet();
}
void draw_side_card(Ui&, Session&, const Layout&, Rect) {}
void show_presenter(Ui& ui, Session&, const Layout& layout) {
  ui.begin_sheet("presenter", layout.whole, ui.theme->panel);
  ui.end_sheet();
}

} // namespace mw::app
