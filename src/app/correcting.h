#pragma once

#include "app/session.h"
#include "app/ui.h"

namespace mw::app {

/// The card of one word: how it is said, other readings, a field for one's own.
struct Correcting {
  std::size_t word = 0; // of the take's pronunciation
  std::string text;     // as typed in the line
  Rect under;           // the word, window pixels
  Writing writing{};
  bool everywhere = false; // kept in one's own dictionary, not only with this line
  std::optional<Problem> problem{};
  bool waits = false;      // for the take with the new reading
};

/// Opens the card of a word; `under` none: where the view has no place for it.
void open_correcting(Session& session, std::size_t word, std::optional<Rect> under);
/// The word said now, for the key.
void correct_word_now(Session& session);
/// Takes the last correction back; nothing without one.
void undo_correction(Session& session);

/// The card, over everything; and its field, which Dear ImGui draws after it. True while another picture is needed.
void show_correcting(Ui& ui, Session& session, const Layout& layout);
bool show_correcting_field(const Ui& ui, Session& session, const Theme& theme, const Input& input, double u, double wall_s, int width, int height);

} // namespace mw::app
