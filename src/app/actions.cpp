#include "app/actions.h"

#include "app/compare.h"
#include "app/correcting.h"
#include "app/pattern_play.h"
#include "app/playback.h"
#include "scene/mouth_slip.h"
#include "scene/take_text.h"

#include <SDL_keycode.h>

#include <algorithm>
#include <array>

namespace mw::app {
namespace {

// Numpad and clicker keys that mean the same stand unlisted behind their row.
constexpr std::array rows{
    KeyRow{SDLK_SPACE, false, false, Action::play, "space", "play, pause"},
    KeyRow{SDLK_RIGHT, false, false, Action::step_on, "→", "next sound, frame or move"},
    KeyRow{SDLK_LEFT, false, false, Action::step_back, "←", "the one before"},
    KeyRow{SDLK_PAGEDOWN, false, false, Action::step_on, "page down", "next (clicker)", false},
    KeyRow{SDLK_PAGEUP, false, false, Action::step_back, "page up", "the one before (clicker)", false},
    KeyRow{SDLK_HOME, false, false, Action::start, "Home", "to the start"},
    KeyRow{SDLK_END, false, false, Action::end, "End", "to the end"},
    KeyRow{SDLK_n, false, false, Action::next_clash, "N", "next clash"},
    KeyRow{SDLK_n, true, false, Action::last_clash, "shift N", "the clash before"},
    KeyRow{SDLK_o, false, false, Action::loop, "O", "over and over, or once"},
    KeyRow{SDLK_o, true, false, Action::loop_clash, "shift O", "loop this clash"},
    KeyRow{SDLK_s, false, false, Action::slower, "S", "slower, down to 1/32"},
    KeyRow{SDLK_s, true, false, Action::faster, "shift S", "faster, up to true speed"},
    KeyRow{SDLK_g, false, false, Action::step_by, "G", "go by frame, sound or move"},
    KeyRow{SDLK_1, false, false, Action::spot_lips, "1", "spotlight: lips"},
    KeyRow{SDLK_2, false, false, Action::spot_tip, "2", "tip"},
    KeyRow{SDLK_3, false, false, Action::spot_body, "3", "back of the tongue"},
    KeyRow{SDLK_4, false, false, Action::spot_root, "4", "root"},
    KeyRow{SDLK_5, false, false, Action::spot_velum, "5", "soft palate"},
    KeyRow{SDLK_6, false, false, Action::spot_jaw, "6", "jaw"},
    KeyRow{SDLK_7, false, false, Action::spot_glottis, "7", "voice box"},
    KeyRow{SDLK_0, false, false, Action::spot_none, "0", "spotlight off"},
    KeyRow{SDLK_m, false, false, Action::mirror, "M", "mirror: facing right"},
    KeyRow{SDLK_l, false, false, Action::labels, "L", "labels"},
    KeyRow{SDLK_h, false, false, Action::cover, "H", "cover the picture"},
    KeyRow{SDLK_d, false, false, Action::dark, "D", "light, dark, high contrast"},
    KeyRow{SDLK_a, false, false, Action::all_lanes, "A", "all lanes, or those of the clash"},
    KeyRow{SDLK_w, false, false, Action::slips, "W", "where a sound may slip: likely slips"},
    KeyRow{SDLK_a, true, false, Action::all_clashes, "shift A", "all clashes, or the three that matter"},
    KeyRow{SDLK_v, false, false, Action::face, "V", "the pattern of the line, or its moves"},
    KeyRow{SDLK_UP, false, false, Action::lane_up, "↑", "pattern: a lane up; ← → a syllable", false},
    KeyRow{SDLK_DOWN, false, false, Action::lane_down, "↓", "pattern: a lane down", false},
    KeyRow{SDLK_c, false, false, Action::speaker, "C", "whose mouth: man, woman, child"},
    KeyRow{SDLK_e, false, false, Action::correct, "E", "say the word here another way"},
    KeyRow{SDLK_z, false, true, Action::undo, "ctrl Z", "take that back: the word as before"},
    KeyRow{SDLK_p, false, false, Action::present, "P", "present, and back"},
    KeyRow{SDLK_F11, false, false, Action::full_screen, "F11", "the whole screen, or a window"},
    KeyRow{SDLK_t, false, false, Action::calm, "T", "reduced motion: steps, no fades"},
    KeyRow{SDLK_b, false, false, Action::blank, "B", "blank the picture while presenting"},
    KeyRow{SDLK_PERIOD, false, false, Action::blank, ".", "blank (clicker)", false},
    KeyRow{SDLK_SLASH, false, false, Action::phrase, "/", "edit the line"},
    KeyRow{SDLK_l, false, true, Action::phrase, "ctrl L", "edit the line", false},
    KeyRow{SDLK_ESCAPE, false, false, Action::leave, "Esc", "close, leave, back"},
    KeyRow{SDLK_F1, false, false, Action::key_sheet, "F1", "this table"},
    KeyRow{SDLK_q, false, true, Action::quit, "ctrl Q", "quit"},
    KeyRow{SDLK_x, false, false, Action::swap, "X", "the two accents change places", true, KeyPlace::compare},
    KeyRow{SDLK_y, false, false, Action::learner, "Y", "choose the learner\u2019s own accent", true, KeyPlace::compare},
    KeyRow{SDLK_n, false, false, Action::next_clash, "N", "the next sound that differs", true, KeyPlace::compare},
    KeyRow{SDLK_TAB, false, false, Action::none, "tab", "from vowel to vowel", true, KeyPlace::my_accent},
    KeyRow{SDLK_RIGHT, false, false, Action::none, "\u2190 \u2191 \u2192 \u2193", "move the vowel, or the slider", true, KeyPlace::my_accent},
    KeyRow{SDLK_RIGHT, true, false, Action::none, "shift \u2192", "the same, five times finer", true, KeyPlace::my_accent},
    KeyRow{SDLK_r, false, false, Action::none, "R", "turn its lips: spread, half, rounded", true, KeyPlace::my_accent},
    KeyRow{SDLK_z, false, true, Action::none, "ctrl Z", "undo", true, KeyPlace::my_accent},
    KeyRow{SDLK_y, false, true, Action::none, "ctrl Y", "redo", true, KeyPlace::my_accent},
};

void next_theme(View& view) { view.theme = view.theme == "light" ? "dark" : view.theme == "dark" ? "high" : "light"; }

void change_slow(View& view, int by) {
  view.slow = std::clamp(view.slow + by, 0, static_cast<int>(slow_divisors.size()) - 1);
}

void set_spotlight(View& view, Articulator articulator) {
  view.spotlight = view.spotlight == articulator ? std::optional<Articulator>{} : articulator;
}

// On: standing still, the time goes to the nearest sound that may slip, so that something is seen.
void turn_slips(Session& session) {
  View& view = session.view;
  view.slips = !view.slips;
  if (!view.slips || view.playing || !session.take) return;
  if (const auto slip = nearest_slip(*session.take, view.time_s)) view = go_to(view, *session.take, moment_of(*session.take, session.take->likely_slips[*slip].segment));
}

// One thing at a time: the nearest cover first.
void leave(Session& session) {
  View& view = session.view;
  if (session.correcting) session.correcting.reset(), session.field_active = false;
  else if (session.menu) session.menu.reset();
  else if (view.key_sheet) view.key_sheet = false;
  else if (view.blank) view.blank = false;
  else if (view.presenting) view.presenting = false;
  else if (view.covered) view.covered = false;
  else if (view.spotlight) view.spotlight.reset();
  else if (view.loop_span) view.loop_span.reset();
  else if (view.full_screen) view.full_screen = false;
}

// Keys that mean the pattern while it is in front; false for all others.
bool act_on_pattern(Session& session, Action action) {
  switch (action) {
    case Action::step_on: return go_by_syllable(session, 1), true;
    case Action::step_back: return go_by_syllable(session, -1), true;
    case Action::lane_up: return go_by_lane(session, -1), true;
    case Action::lane_down: return go_by_lane(session, 1), true;
    case Action::next_clash: return go_to_finding(session, 1), true;
    case Action::last_clash: return go_to_finding(session, -1), true;
    case Action::loop_clash: return loop_finding(session), true;
    default: return false;
  }
}

// In Compare the next place is the next that differs.
bool act_on_compare(Session& session, Action action) {
  if (action != Action::next_clash && action != Action::last_clash) return false;
  go_to_difference(session, action == Action::next_clash ? 1 : -1);
  return true;
}

void act_on_take(Session& session, Action action) {
  if (!session.take) return;
  if (shows_pattern(session) && act_on_pattern(session, action)) return;
  if (session.view.screen == Screen::compare && act_on_compare(session, action)) return;
  View& view = session.view;
  const Take& take = *session.take;
  switch (action) {
    case Action::play: view = toggle_play(view, take); return;
    case Action::step_on: view = step(view, take, 1); return;
    case Action::step_back: view = step(view, take, -1); return;
    case Action::start: view = go_to(view, take, start_of(take)); return;
    case Action::end: view = go_to(view, take, end_of(take)); return;
    case Action::next_clash: view = go_to_clash(view, take, 1, clashes_in_view(session)); return;
    case Action::last_clash: view = go_to_clash(view, take, -1, clashes_in_view(session)); return;
    case Action::loop_clash:
      view.clash = shown_clash(session);
      view = loop_clash(view, take);
      return;
    default: return;
  }
}

} // namespace

std::span<const KeyRow> key_rows() { return rows; }

std::string_view to_title(KeyPlace place) {
  switch (place) {
    case KeyPlace::anywhere: return "Keys";
    case KeyPlace::compare: return "In Compare";
    case KeyPlace::my_accent: return "In My accent";
  }
  return "";
}

std::string_view key_of(Action action) {
  const auto row = std::find_if(rows.begin(), rows.end(), [&](const KeyRow& r) { return r.action == action; });
  return row == rows.end() ? std::string_view{} : row->label;
}

const KeyRow* find_key(const KeyPress& key, Screen screen) {
  if (key.alt) return nullptr;
  const auto row = std::find_if(rows.begin(), rows.end(), [&](const KeyRow& r) {
    const bool here = r.place == KeyPlace::anywhere || (r.place == KeyPlace::compare && screen == Screen::compare);
    return here && r.code == key.code && r.shift == key.shift && r.control == key.control;
  });
  return row == rows.end() ? nullptr : &*row;
}

void act(Session& session, Action action) {
  View& view = session.view;
  switch (action) {
    case Action::loop:
      view.loop = !view.loop;
      view.loop_span.reset();
      return;
    case Action::slower: return change_slow(view, 1);
    case Action::faster: return change_slow(view, -1);
    case Action::step_by: view.step_by = static_cast<StepBy>((static_cast<int>(view.step_by) + 1) % 3); return;
    case Action::mirror: view.mirrored = !view.mirrored; return;
    case Action::dark: return next_theme(view);
    case Action::labels: view.labels = !view.labels; return;
    case Action::cover: view.covered = !view.covered; return;
    case Action::present:
      view.presenting = has_phrase(session) && !view.presenting;
      view.blank = false;
      return;
    case Action::blank:
      view.blank = view.presenting && !view.blank;
      if (view.blank) view.playing = false;
      return;
    case Action::key_sheet: view.key_sheet = !view.key_sheet; return;
    case Action::phrase:
      session.wants_field = !view.presenting;
      return;
    case Action::leave: return leave(session);
    case Action::spot_none: view.spotlight.reset(); return;
    case Action::spot_lips: return set_spotlight(view, Articulator::lips);
    case Action::spot_tip: return set_spotlight(view, Articulator::tip);
    case Action::spot_body: return set_spotlight(view, Articulator::body);
    case Action::spot_root: return set_spotlight(view, Articulator::root);
    case Action::spot_velum: return set_spotlight(view, Articulator::velum);
    case Action::spot_jaw: return set_spotlight(view, Articulator::jaw);
    case Action::spot_glottis: return set_spotlight(view, Articulator::glottis);
    case Action::slips: return turn_slips(session);
    case Action::all_clashes: view.all_clashes = !view.all_clashes; return;
    case Action::face:
      view.face = view.face == Face::moves ? Face::pattern : Face::moves;
      return;
    case Action::all_lanes: view.all_lanes = !view.all_lanes; return;
    case Action::speaker: return choose_speaker(session, next_speaker(session.request.anatomy));
    case Action::calm:
      view.calm = !view.calm;
      view.calm_plays = false;
      return;
    case Action::full_screen: view.full_screen = !view.full_screen; return;
    case Action::swap:
      if (has_phrase(session)) swap_accents(session);
      return;
    case Action::learner: session.wants_learner = has_phrase(session); return;
    case Action::correct: return correct_word_now(session);
    case Action::undo: return undo_correction(session);
    case Action::quit: session.quits = true; return;
    default: return act_on_take(session, action);
  }
}

} // namespace mw::app
