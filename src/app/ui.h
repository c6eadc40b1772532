#pragma once

#include "app/input.h"
#include "scene/canvas.h"
#include "scene/signs.h"
#include "scene/theme.h"

#include <optional>
#include <string>
#include <vector>

namespace mw::app {

/// What a tip says.
struct Tip { std::string name, does, key; };

/// A place that answers to the mouse, and to Tab and Enter when it takes the focus.
struct Spot {
  std::string id;
  Rect rect; // window pixels
  Tip tip;
  bool takes_focus = true;
  double radius = 8;
};

/// One drawn part of the window, its origin at `rect`.
struct Sheet {
  std::string name;
  Rect rect;
  Scene scene;
};

/// Widgets in the look of the design, drawn as marks; what they are doing is asked anew for every picture. A widget's
/// answer is whether it was chosen since the last picture.
class Ui {
public:
  /// Starts a picture.
  void begin(const Theme& theme, double u, const Input& input);
  /// Ends it: moves the focus, forgets what is gone.
  void end();

  /// Starts a sheet; marks and rectangles are its own from now on.
  void begin_sheet(std::string name, Rect rect, Colour ground);
  void end_sheet();
  [[nodiscard]] const std::vector<Sheet>& sheets() const { return sheets_; }

  /// Registers a place; true when it was clicked, or Enter or space was pressed on it.
  bool spot(const std::string& id, Rect local, Tip tip, bool takes_focus = true, double radius = 8);
  [[nodiscard]] bool is_hovered(const std::string& id) const { return hovered_ == id; }
  [[nodiscard]] bool is_held(const std::string& id) const { return held_ == id; }
  [[nodiscard]] bool is_focused(const std::string& id) const { return focused_ == id; }
  void focus(const std::string& id, bool shown) { focused_ = id; shows_focus_ = shown; }
  [[nodiscard]] const std::string& focused() const { return focused_; }
  [[nodiscard]] bool shows_focus() const { return shows_focus_; }
  [[nodiscard]] const Spot* find(const std::string& id) const;
  [[nodiscard]] const std::vector<Spot>& spots() const { return spots_; }
  /// While covered (a menu lies over everything), places are neither hovered nor chosen.
  void cover(bool covered) { covered_ = covered; }

  // ---- widgets; rectangles in sheet units
  bool button(const std::string& id, Rect rect, std::optional<Sign> sign, std::string_view label, Tip tip, bool on = false, bool primary = false);
  /// Index of the chosen word when it changed.
  std::optional<int> segments(const std::string& id, Rect rect, std::span<const std::string_view> words, std::span<const double> widths, int chosen,
                              const std::vector<Tip>& tips);
  std::optional<int> tabs(const std::string& id, Vec2 baseline, std::span<const std::string_view> words, int chosen, double size, double gap);
  /// A field that opens a menu: text and a small arrow.
  bool drop_field(const std::string& id, Rect rect, std::string_view text, Tip tip, bool bold, double size, std::optional<Sign> sign = {});
  void panel(Rect rect);

  Canvas canvas;
  Canvas above; // window pixels; laid over all sheets: what moves while the rest stands still
  const Theme* theme = nullptr;
  double u = 1;
  Input input;

private:
  void move_focus();

  std::vector<Sheet> sheets_;
  std::vector<Spot> spots_;
  Rect sheet_{};
  std::string sheet_name_, hovered_, next_hovered_, held_, focused_;
  Colour ground_{};
  bool shows_focus_ = false, activate_ = false, covered_ = false;
};

} // namespace mw::app
