#include "app/pattern_play.h"
#include "app/playback.h"
#include "app/window.h"

#include "base/assets.h"
#include "base/text.h"

#include <SDL.h>
#include <stb/stb_image_write.h>

#include <cmath>
#include <cstdio>
#include <ctime>
#include <map>
#include <sstream>

namespace mw::app {
namespace {

constexpr double picture_s = 1.0 / 60;

void push_button(Vec2 at, bool down) {
  SDL_Event event{};
  event.type = down ? SDL_MOUSEBUTTONDOWN : SDL_MOUSEBUTTONUP;
  event.button.button = SDL_BUTTON_LEFT;
  event.button.state = down ? SDL_PRESSED : SDL_RELEASED;
  event.button.clicks = 1;
  event.button.x = static_cast<int>(at.x), event.button.y = static_cast<int>(at.y);
  SDL_PushEvent(&event);
}

void push_motion(Vec2 at) {
  SDL_Event event{};
  event.type = SDL_MOUSEMOTION;
  event.motion.x = static_cast<int>(at.x), event.motion.y = static_cast<int>(at.y);
  SDL_PushEvent(&event);
}

// "shift+n", "left", "f1", "/"; false when there is no such key.
bool push_key(std::string name, bool down) {
  unsigned mod = 0;
  const std::map<std::string, unsigned> mods{{"shift+", KMOD_LSHIFT}, {"ctrl+", KMOD_LCTRL}, {"alt+", KMOD_LALT}};
  for (bool found = true; found;) {
    found = false;
    for (const auto& [prefix, bit] : mods)
      if (starts_with(name, prefix)) mod |= bit, name = name.substr(prefix.size()), found = true;
  }
  const auto code = SDL_GetKeyFromName(name.c_str());
  if (code == SDLK_UNKNOWN) return false;
  SDL_Event event{};
  event.type = down ? SDL_KEYDOWN : SDL_KEYUP;
  event.key.state = down ? SDL_PRESSED : SDL_RELEASED;
  event.key.keysym.sym = code;
  event.key.keysym.scancode = SDL_GetScancodeFromKey(code);
  event.key.keysym.mod = static_cast<std::uint16_t>(mod);
  SDL_PushEvent(&event);
  SDL_SetModState(down ? static_cast<SDL_Keymod>(mod) : KMOD_NONE); // as a keyboard would
  return true;
}

void push_letter(char32_t letter) {
  SDL_Event event{};
  event.type = SDL_TEXTINPUT;
  std::snprintf(event.text.text, sizeof event.text.text, "%s", encode_utf8(letter).c_str());
  SDL_PushEvent(&event);
}

std::vector<double> numbers(const std::string& text) {
  std::vector<double> out;
  for (const auto& word : split(replace_all(text, "x", " "), ' '))
    if (const auto value = parse_number(word)) out.push_back(*value);
  return out;
}

std::string state_of(const Session& session) {
  const View& view = session.view;
  std::ostringstream out;
  out << "phrase " << session.request.phrase << "\naccent " << session.request.accent << "\ntime_s " << to_text(view.time_s, 4)
      << "\nplaying " << view.playing << "\nslow " << slow_divisors[static_cast<std::size_t>(view.slow)] << "\nclash "
      << (view.clash ? to_text(static_cast<int>(*view.clash)) : "none") << "\nlit " << to_text(session.glow.level, 3) << "\ntheme " << view.theme
      << "\nclashes " << (session.take ? session.take->clashes.size() : 0) << "\npresenting " << view.presenting << "\nproblem " << (session.problem ? session.problem->what : "none") << "\n";
  return out.str();
}

} // namespace

void Window::some_pictures(int count) {
  for (int i = 0; i < count; ++i) {
    take_events();
    keeps_picture_ = i + 1 == count;
    show_picture(picture_s);
  }
}

void Window::settle() {
  for (int i = 0; i < 6000; ++i) {
    some_pictures(1);
    const bool fades = !(fades_on(session_.fades, session_.view, fade_s, false) == session_.fades);
    const bool rests = !another_ && !is_settling(session_) && !fades && ask_in_s_ < 0 && !maker_->is_busy() && !session_.view.glide && (session_.view.playing || (!is_fading(session_.glow, wanted_clash(session_)) && !is_fading(session_.slip_glow, wanted_slip(session_))));
    if (rests && i > 2) return;
    if (maker_->is_busy()) SDL_Delay(1);
  }
}

Result<Done> Window::save_picture(const std::string& file) const {
  if (stbi_write_png(file.c_str(), width_, height_, 4, picture_.data(), width_ * 4) != 0) return Done{};
  return Problem{ProblemKind::output, "the picture cannot be written", file, "try another folder"};
}

Result<Done> Window::obey(const ScriptCommand& command) {
  const auto n = numbers(command.rest);
  const Problem wrong{ProblemKind::input, "the script's " + command.verb + " does not fit: " + command.rest, "line " + to_text(command.line), ""};
  if (command.verb == "type") {
    const auto letters = decode_utf8(command.rest);
    if (!letters) return letters.error();
    for (const char32_t letter : *letters) push_letter(letter), some_pictures(1);
  } else if (command.verb == "key") {
    if (!push_key(command.rest, true)) return wrong;
    some_pictures(1);
    push_key(command.rest, false);
    some_pictures(2);
  } else if (command.verb == "move" || command.verb == "click" || command.verb == "drag") {
    if (n.size() < (command.verb == "drag" ? 4u : 2u)) return wrong;
    push_motion({n[0], n[1]});
    some_pictures(1);
    if (command.verb == "move") return Done{};
    push_button({n[0], n[1]}, true);
    some_pictures(1);
    Vec2 end{n[0], n[1]};
    for (int i = 1; command.verb == "drag" && i <= 8; ++i) {
      end = {n[0] + (n[2] - n[0]) * i / 8, n[1] + (n[3] - n[1]) * i / 8};
      push_motion(end);
      some_pictures(1);
    }
    push_button(end, false);
    some_pictures(2);
  } else if (command.verb == "spot") {
    const Spot* spot = ui_.find(command.rest);
    if (!spot) return wrong;
    const Vec2 middle = spot->rect.centre();
    return obey({"click", to_text(middle.x) + " " + to_text(middle.y), command.line});
  } else if (command.verb == "wheel") {
    SDL_Event event{};
    event.type = SDL_MOUSEWHEEL;
    event.wheel.y = n.empty() ? 0 : static_cast<int>(n[0]);
    SDL_PushEvent(&event);
    some_pictures(1);
  } else if (command.verb == "wait") some_pictures(std::max(1, static_cast<int>(std::lround((n.empty() ? 0 : n[0]) / picture_s))));
  else if (command.verb == "settle") settle();
  else if (command.verb == "size") {
    if (n.size() < 2) return wrong;
    SDL_SetWindowSize(window_, static_cast<int>(n[0]), static_cast<int>(n[1]));
    some_pictures(3);
  } else if (command.verb == "shot") return save_picture(command.rest);
  else if (command.verb == "state") return write_file(command.rest, state_of(session_), true);
  else if (command.verb == "time") {
    const double processor_ms = 1000.0 * static_cast<double>(std::clock() - processor_from_) / CLOCKS_PER_SEC / std::max(pictures_, 1);
    std::printf("%s ms a picture (processor %s ms) over %d pictures\n", to_text(mean_picture_ms(), 2).c_str(), to_text(processor_ms, 2).c_str(), pictures_);
    picture_time_s_ = 0, pictures_ = 0, processor_from_ = std::clock();
  }
  return Done{};
}

Result<Done> Window::play(const std::vector<ScriptCommand>& script) {
  scripted_ = true;
  some_pictures(3);
  for (const auto& command : script)
    if (auto done = obey(command); !done) return done;
  return Done{};
}

} // namespace mw::app
