#pragma once

#include "app/app.h"
#include "app/desk.h"
#include "app/maker.h"
#include "app/script.h"
#include "app/session.h"
#include "app/ui.h"

#include <array>
#include <ctime>
#include <memory>
#include <string>
#include <vector>

struct SDL_Window;
union SDL_Event;

namespace mw::app {

/// The window: SDL, OpenGL, the clock, the worker that computes takes. One at a time.
class Window {
public:
  /// Problem (missing) without a display, OpenGL 3.3 or the fonts.
  static Result<std::unique_ptr<Window>> open(const WindowOptions& options);
  ~Window();
  Window(const Window&) = delete;
  Window& operator=(const Window&) = delete;

  /// Until it is closed.
  void run();
  /// Plays a script with a clock of its own, 60 pictures a second. Problem (input, output) names the line.
  Result<Done> play(const std::vector<ScriptCommand>& script);

  [[nodiscard]] const Session& session() const { return session_; }
  [[nodiscard]] const Layout& layout() const { return layout_; }
  [[nodiscard]] const Ui& ui() const { return ui_; }
  /// The picture as it stands in the window: RGBA8, rows from the top.
  [[nodiscard]] std::vector<std::uint8_t> picture() const { return picture_; }
  [[nodiscard]] int width() const { return width_; }
  [[nodiscard]] int height() const { return height_; }
  [[nodiscard]] double mean_picture_ms() const { return pictures_ ? picture_time_s_ / pictures_ * 1000 : 0; }

private:
  explicit Window(WindowOptions options) : options_(std::move(options)) {}
  Result<Done> start();
  Result<std::shared_ptr<Pronouncer>> make_pronouncer() const;

  // events
  void take_events();
  void take_event(const SDL_Event& event);
  [[nodiscard]] int milliseconds_to_wait() const;

  // one picture
  void show_picture(double wall_s);
  void keys();
  void panels();
  void follow_screen();
  void field(double wall_s);
  void follow_request(double wall_s);
  void ask_aside();
  void follow_time(double wall_s);

  // scripts
  Result<Done> obey(const ScriptCommand& command);
  void some_pictures(int count);
  void settle();
  Result<Done> save_picture(const std::string& file) const;

  WindowOptions options_;
  SDL_Window* window_ = nullptr;
  void* context_ = nullptr;
  std::optional<Desk> desk_;
  std::shared_ptr<Pronouncer> pronouncer_;
  std::optional<Problem> no_pronouncer_;
  std::unique_ptr<Maker> maker_;
  Session session_;
  Ui ui_;
  Layout layout_;
  Input input_;
  Request asked_, sent_; // as edited; as sent to the maker (sounds between slashes become their own notation)
  std::optional<Request> aside_asked_;
  Screen laid_screen_ = Screen::mouth; // of the last picture
  Rect field_rect_{}; // of the text in the phrase field
  bool laid_for_ = false; // a phrase was shown in the last picture
  bool ever_asked_ = false, another_ = true, field_started_ = false, scripted_ = false, keeps_picture_ = false, was_presenting_ = false, fills_screen_ = false;
  int leaves_field_ = 0; // pictures in which no field may take up the focus of another
  double ask_in_s_ = -1; // time left until an edited request is asked for; < 0: nothing waits
  double hovered_s_ = 0, still_s_ = 0;
  std::string hovered_;
  int width_ = 0, height_ = 0;
  std::array<int, 2> windowed_{1280, 720}; // size to come back to from the whole screen
  double pixels_per_point_ = 1, picture_time_s_ = 0;
  int pictures_ = 0;
  std::clock_t processor_from_ = 0;
  std::vector<std::uint8_t> picture_;
  unsigned wake_event_ = 0;
};

} // namespace mw::app
