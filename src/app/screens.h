#pragma once

#include "app/panels.h"
#include "app/session.h"
#include "app/ui.h"

#include <span>
#include <string_view>

namespace mw::app {

/// A view of the top bar: its word, what its tip says, and how it is shown between top bar and transport when there is a
/// phrase. A view may draw its own first minute: `without_phrase`.
struct ScreenRow {
  Screen screen;
  std::string_view word, does;
  void (*show)(Ui&, Session&, const Layout&);
  bool without_phrase = false;
  bool own_foot = false; // it fills the place of the transport too
  void (*present)(Ui&, Session&, const Layout&) = show_presenter;
};
/// In the order of the bar.
std::span<const ScreenRow> screens();
const ScreenRow& row_of(Screen screen);

/// Mouth: stage, score, why, vowels.
void show_mouth_screen(Ui& ui, Session& session, const Layout& layout);

} // namespace mw::app
