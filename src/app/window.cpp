#include "app/window.h"

#include "app/actions.h"
#include "app/correcting.h"
#include "app/field.h"
#include "app/my_accent.h"
#include "app/panels.h"
#include "app/pattern_play.h"
#include "app/playback.h"
#include "app/screens.h"
#include "base/text.h"
#include "scene/lit.h"
#include "text/shaper.h"

#include <SDL.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace mw::app {
namespace {

constexpr const char* without_window = "these commands work without a window: explain, frames, strip, sheet, chart, shape, motion, compare, rank, accents, evidence; see 'mouthwright --help'";

Problem no_display(const std::string& why) { return {ProblemKind::missing, "there is no display for the window", why, without_window}; }
Problem no_graphics(const std::string& why) {
  return {ProblemKind::missing, "there is no OpenGL 3.3 for the window", why, std::string("try LIBGL_ALWAYS_SOFTWARE=1, or install libgl1-mesa-dri; ") + without_window};
}

} // namespace

Result<std::unique_ptr<Window>> Window::open(const WindowOptions& options) {
  std::unique_ptr<Window> window(new Window(options));
  auto started = window->start();
  if (!started) return started.error();
  return window;
}

Result<Done> Window::start() {
  if (auto fonts = check_fonts(); !fonts) return fonts.error();
  auto theme = find_theme(options_.theme);
  if (!theme) return theme.error();
  if (SDL_Init(SDL_INIT_VIDEO) != 0) return no_display(SDL_GetError());
  // without a display SDL may fall back on a driver that nobody can see
  const std::string driver = SDL_GetCurrentVideoDriver();
  if ((driver == "offscreen" || driver == "dummy" || driver == "evdev") && !std::getenv("SDL_VIDEODRIVER")) return no_display("");

  SDL_GL_SetAttribute(SDL_GL_CONTEXT_MAJOR_VERSION, 3);
  SDL_GL_SetAttribute(SDL_GL_CONTEXT_MINOR_VERSION, 3);
  SDL_GL_SetAttribute(SDL_GL_CONTEXT_PROFILE_MASK, SDL_GL_CONTEXT_PROFILE_CORE);
  SDL_GL_SetAttribute(SDL_GL_DOUBLEBUFFER, 1);
  window_ = SDL_CreateWindow("Mouthwright", SDL_WINDOWPOS_CENTERED, SDL_WINDOWPOS_CENTERED, options_.width, options_.height,
                             SDL_WINDOW_OPENGL | SDL_WINDOW_RESIZABLE | SDL_WINDOW_ALLOW_HIGHDPI);
  if (!window_) return no_graphics(SDL_GetError());
  SDL_SetWindowMinimumSize(window_, 640, 480);
  context_ = SDL_GL_CreateContext(window_);
  if (!context_) return no_graphics(SDL_GetError());
  SDL_GL_SetSwapInterval(1);
  auto desk = Desk::make();
  if (!desk) return desk.error();
  desk_.emplace(std::move(desk).value());
  if (auto field = Field::start(window_, context_); !field) return field.error();
  field_started_ = true;
  SDL_StartTextInput();
  wake_event_ = SDL_RegisterEvents(1);

  // what the session starts from
  session_.request = options_.request;
  session_.view.theme = options_.theme;
  session_.view.calm = options_.reduced_motion;
  session_.accents = known_accents();
  auto anatomy = read_anatomy(session_.request.anatomy);
  if (!anatomy) return anatomy.error();
  session_.anatomy = *anatomy;
  auto pronouncer = make_pronouncer();
  if (pronouncer) pronouncer_ = std::move(pronouncer).value();
  else no_pronouncer_ = pronouncer.error();
  maker_ = std::make_unique<Maker>(
      [this](const Request& request) -> Result<std::shared_ptr<const Take>> {
        if (!pronouncer_) return *no_pronouncer_;
        return make_take(request, *pronouncer_);
      },
      [event = wake_event_] {
        SDL_Event wake{};
        wake.type = event;
        SDL_PushEvent(&wake);
      });
  if (session_.request.phrase.empty()) session_.wants_field = true;
  else ask_in_s_ = 0;
  return Done{};
}

Window::~Window() {
  maker_.reset();
  desk_.reset();
  if (field_started_) Field::stop();
  if (context_) SDL_GL_DeleteContext(context_);
  if (window_) SDL_DestroyWindow(window_);
  SDL_Quit();
}

void Window::run() {
  const double tick = 1.0 / static_cast<double>(SDL_GetPerformanceFrequency());
  auto last = SDL_GetPerformanceCounter();
  while (!session_.quits) {
    const int wait = milliseconds_to_wait();
    if (wait < 0) SDL_WaitEvent(nullptr);
    else if (wait > 0) SDL_WaitEventTimeout(nullptr, wait);
    take_events();
    // at most 60 pictures a second, also where the driver does not wait for the screen
    auto now = SDL_GetPerformanceCounter();
    if (const double early = 1.0 / 60 - static_cast<double>(now - last) * tick; early > 0.002) {
      SDL_Delay(static_cast<unsigned>(early * 1000));
      now = SDL_GetPerformanceCounter();
    }
    const double wall_s = static_cast<double>(now - last) * tick;
    last = now;
    // after a sleep nothing has moved: a long gap is not time played
    show_picture((is_moving(session_.view) && !is_stepping(session_.view)) || ask_in_s_ >= 0 ? std::min(wall_s, 0.1) : wall_s);
  }
}

void Window::follow_time(double wall_s) {
  const bool calm = session_.view.calm;
  follow_pattern(session_, wall_s, calm);
  session_.fades = fades_on(session_.fades, session_.view, wall_s, calm);
  if (!session_.take) return;
  session_.view = advance(session_.view, *session_.take, wall_s);
  if (session_.view.playing && !calm) session_.drift_mm = std::fmod(session_.drift_mm + 14 * wall_s, 9.5); // 14 mm/s, an arrow every 9.5 mm
  // the words follow what is lit, but a clash that is looped stays in hand
  if (session_.view.playing && session_.glow.clash && !session_.view.loop_span) session_.view.clash = session_.glow.clash;
  const auto wanted = wanted_clash(session_), slip = wanted_slip(session_);
  const bool at_once = calm && !(session_.view.playing && session_.view.calm_plays); // steps are a second apart; playing keeps the law of the glow
  session_.glow = glow_on(session_.glow, wanted, wall_s, at_once, wanted ? lit_part(session_.take->clashes[*wanted]) : -1);
  session_.slip_glow = glow_on(session_.slip_glow, slip, wall_s, at_once, slip ? 0 : -1);
}

void Window::follow_request(double wall_s) {
  if (auto made = maker_->collect()) {
    // one request may be both: what is said now, and what the view sets beside it
    const bool aside = session_.aside && made->request == *session_.aside;
    if (aside) session_.aside_take = made->take ? *made->take : nullptr;
    if (!aside || made->request == sent_) {
      if (made->take) accept(session_, made->take.value());
      else if (made->request == sent_) session_.problem = made->take.error();
    }
    another_ = true;
  }
  if (session_.asks_again) ask_in_s_ = 0, session_.asks_again = false;
  if (ask_in_s_ < 0) return ask_aside();
  ask_in_s_ -= wall_s;
  if (ask_in_s_ > 0) return;
  ask_in_s_ = -1;
  if (trim(session_.request.phrase).empty()) { // nothing typed is no mistake: the quiet mouth comes back
    session_.take.reset();
    session_.problem.reset();
    session_.view.presenting = session_.view.playing = false;
    session_.glow = session_.slip_glow = {};
    return;
  }
  if (ever_asked_ && !session_.asks_anew && asked_ == session_.request && !session_.problem && session_.take) return;
  session_.asks_anew = false;
  asked_ = session_.request, ever_asked_ = true;
  // a whole line between slashes is its sounds
  Request request = asked_;
  const auto line = trim(request.phrase);
  if (line.size() > 2 && line.front() == '/' && line.back() == '/' && line.find('/', 1) == line.size() - 1) {
    request.notation = Notation::ipa;
    request.phrase = std::string(line.substr(1, line.size() - 2));
  }
  sent_ = request;
  maker_->ask(std::move(request));
  if (!session_.aside_take || session_.aside != session_.aside_take->request) aside_asked_.reset(); // it may have been waiting
}

// The second take of a view, once for each request, when the worker has nothing else to do.
void Window::ask_aside() {
  if (!session_.aside || aside_asked_ == session_.aside || maker_->is_busy()) return;
  aside_asked_ = session_.aside;
  maker_->ask(*session_.aside);
}

void Window::keys() {
  if (session_.menu) return; // the menu reads them
  for (const KeyPress& key : ui_.input.keys) {
    if (key.code == SDLK_TAB) continue; // the focus
    if (session_.view.screen == Screen::my_accent && !session_.view.presenting && take_accent_key(ui_, session_, key)) {
      another_ = true;
      continue;
    }
    const KeyRow* row = find_key(key, session_.view.screen);
    if (!row) continue;
    const bool over = (session_.view.key_sheet || session_.correcting) && row->action != Action::key_sheet && row->action != Action::leave;
    if (!over) act(session_, row->action);
    another_ = true;
  }
}

void Window::panels() {
  if (session_.view.presenting && session_.take) {
    row_of(session_.view.screen).present(ui_, session_, layout_);
    show_blank(ui_, session_, layout_);
    return;
  }
  const Rect inside = show_top_bar(ui_, session_, layout_);
  field_rect_ = inside;
  const ScreenRow& screen = row_of(session_.view.screen);
  if (has_phrase(session_) || screen.without_phrase) screen.show(ui_, session_, layout_);
  else show_first_minute(ui_, session_, layout_);
  if (!screen.own_foot) show_transport(ui_, session_, layout_);
}

void Window::show_picture(double wall_s) {
  const auto begun = SDL_GetPerformanceCounter();
  another_ = false;
  follow_screen();
  SDL_GL_GetDrawableSize(window_, &width_, &height_);
  layout_ = lay_out(width_, height_);
  const auto theme = find_theme(session_.view.theme);
  follow_request(wall_s);
  follow_time(wall_s);
  // presenting, the pointer shows for two seconds after it moved
  still_s_ += wall_s;
  SDL_ShowCursor(session_.view.presenting && still_s_ > 2 ? SDL_DISABLE : SDL_ENABLE);

  // keys that no field is waiting for
  Input free = input_;
  if (session_.field_active) std::erase_if(free.keys, [](const KeyPress& key) { return key.code != SDLK_TAB && key.code != SDLK_F1; });
  ui_.begin(**theme, layout_.u, free);
  keys();

  // panels, then what lies over them
  ui_.cover(session_.menu.has_value() || session_.view.key_sheet || session_.correcting);
  const bool had_menu = session_.menu.has_value(), had_keys = session_.view.key_sheet, had_card = session_.correcting != nullptr;
  panels();
  ui_.cover(false);
  ui_.begin_sheet("over", layout_.whole, clear);
  ui_.canvas = std::move(ui_.above);
  if (had_menu) show_menu(ui_, session_, layout_);
  if (had_card) show_correcting(ui_, session_, layout_);
  if (had_keys) show_key_sheet(ui_, session_, layout_);
  hovered_s_ = ui_.is_hovered(hovered_) && !input_.pressed && !input_.down ? hovered_s_ + wall_s : 0;
  if (!session_.view.presenting) show_tip(ui_, layout_, hovered_s_), show_focus(ui_);
  ui_.end_sheet();
  ui_.end();
  for (const Spot& spot : ui_.spots())
    if (ui_.is_hovered(spot.id)) hovered_ = spot.id;
  if (ui_.shows_focus() && ui_.focused() == "phrase" && !session_.field_active) session_.wants_field = true;

  // paint
  const Colour ground = session_.view.presenting ? (*theme)->panel : (*theme)->ground;
  const bool fresh = was_presenting_ != session_.view.presenting || laid_for_ != has_phrase(session_) || laid_screen_ != session_.view.screen;
  was_presenting_ = session_.view.presenting, laid_for_ = has_phrase(session_), laid_screen_ = session_.view.screen;
  auto laid = desk_->lay(ui_.sheets(), width_, height_, ground, fresh);
  MW_EXPECT(laid.has_value());
  field(wall_s);
  if (keeps_picture_) picture_ = read_window(width_, height_);
  SDL_GL_SwapWindow(window_);
  if (input_.pressed || input_.released || !input_.keys.empty() || input_.moved) another_ = true;
  input_.pressed = input_.released = input_.moved = false;
  input_.wheel = 0;
  input_.keys.clear();
  picture_time_s_ += static_cast<double>(SDL_GetPerformanceCounter() - begun) / static_cast<double>(SDL_GetPerformanceFrequency());
  ++pictures_;
}

} // namespace mw::app
