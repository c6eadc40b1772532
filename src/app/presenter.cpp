#include "app/panels.h"

namespace mw::app {

void show_presenter(Ui& ui, Session&, const Layout& layout) {
  ui.begin_sheet("presenter", layout.whole, ui.theme->panel);
  ui.end_sheet();
}

} // namespace mw::app
