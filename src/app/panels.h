#pragma once

#include "app/session.h"
#include "app/ui.h"

#include <span>

namespace mw::app {

// One panel a file; each draws its sheet, answers its widgets and changes the session.

/// Logo, phrase field, accent, Present. Gives the window rectangle of the text inside the phrase field.
Rect show_top_bar(Ui& ui, Session& session, const Layout& layout);
void show_transport(Ui& ui, Session& session, const Layout& layout);
void show_stage(Ui& ui, Session& session, const Layout& layout);
void show_score(Ui& ui, Session& session, const Layout& layout);
/// Why (and, where folded, vowels and sides behind tabs).
void show_why(Ui& ui, Session& session, const Layout& layout);
void show_vowels(Ui& ui, Session& session, const Layout& layout);
/// Before the first phrase: a labelled mouth breathing quietly, and three lines to take.
void show_first_minute(Ui& ui, Session& session, const Layout& layout);
/// The lines offered before the first phrase; `shows` is the kind of clash that each is there for.
struct FirstLine { std::string_view text, about; ClashKind shows; };
std::span<const FirstLine> first_lines();
/// What Enter does in the empty field: the first of the three lines.
void take_first_line(Session& session);
/// The labelled mouth breathing quietly.
void show_quiet_mouth(Ui& ui, Session& session, const Layout& layout, Rect rect);
/// The other face of the score panel, with the stage and the card that go with it.
void show_pattern_screen(Ui& ui, Session& session, const Layout& layout);
/// "Moves", "Pattern" at the head of the score panel.
void show_face_tabs(Ui& ui, Session& session, double u);
/// A field with the speaker's word that opens the list of speakers; `sheet`: where its sheet stands in the window.
void show_speaker(Ui& ui, Session& session, Vec2 sheet, Rect rect);
/// A lowered cloth with a scalloped hem.
void draw_curtain(Ui& ui, Rect rect, double opacity);
void show_presenter(Ui& ui, Session& session, const Layout& layout);
/// Over all that is presented: nothing but the ground.
void show_blank(Ui& ui, const Session& session, const Layout& layout);

// Over everything else, on one clear sheet of the window's size.
void show_menu(Ui& ui, Session& session, const Layout& layout);
void show_key_sheet(Ui& ui, Session& session, const Layout& layout);
void show_tip(Ui& ui, const Layout& layout, double hovered_for_s);
void show_focus(Ui& ui);

/// What is said when a phrase cannot be shown: what, where, what to try. Gives the bottom.
double draw_problem(Ui& ui, const Problem& problem, Vec2 at, double width);
/// Vowels or sides inside the card of the lower band, as the view asks.
void draw_side_card(Ui& ui, Session& session, const Layout& layout, Rect rect);

} // namespace mw::app
