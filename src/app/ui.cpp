#include "app/ui.h"

#include "text/shaper.h"

#include <SDL_keycode.h>

#include <algorithm>

namespace mw::app {
namespace {

bool holds(Rect r, Vec2 p) { return p.x >= r.x && p.x < r.right() && p.y >= r.y && p.y < r.bottom(); }

} // namespace

void Ui::begin(const Theme& new_theme, double new_u, const Input& new_input) {
  theme = &new_theme, u = new_u, input = new_input;
  sheets_.clear(), spots_.clear(), next_hovered_.clear();
  covered_ = false;
  above = {};
  // Enter and space press what has the focus and shows it; they are used up here
  activate_ = false;
  if (!focused_.empty() && shows_focus_)
    std::erase_if(input.keys, [&](const KeyPress& key) {
      const bool press = key.code == SDLK_RETURN || key.code == SDLK_SPACE || key.code == SDLK_KP_ENTER;
      activate_ = activate_ || press;
      return press;
    });
  if (input.pressed) shows_focus_ = false;
}

void Ui::end() {
  hovered_ = next_hovered_;
  if (!input.down) held_.clear();
  move_focus();
}

void Ui::move_focus() {
  for (const KeyPress& key : input.keys) {
    if (key.code != SDLK_TAB || key.control || key.alt) continue;
    std::vector<std::string> order;
    for (const Spot& spot : spots_)
      if (spot.takes_focus) order.push_back(spot.id);
    if (order.empty()) return;
    const auto here = std::find(order.begin(), order.end(), focused_);
    const auto n = static_cast<std::ptrdiff_t>(order.size());
    std::ptrdiff_t at = key.shift ? n - 1 : 0;
    if (here != order.end()) at = ((here - order.begin()) + (key.shift ? -1 : 1) + n) % n;
    focused_ = order[static_cast<std::size_t>(at)];
    shows_focus_ = true;
  }
}

void Ui::begin_sheet(std::string name, Rect rect, Colour ground) {
  sheet_name_ = std::move(name), sheet_ = rect, ground_ = ground;
  canvas = {};
}

void Ui::end_sheet() {
  sheets_.push_back({sheet_name_, sheet_, {sheet_.width, sheet_.height, ground_, std::move(canvas.marks)}});
  canvas = {};
}

const Spot* Ui::find(const std::string& id) const {
  const auto it = std::find_if(spots_.begin(), spots_.end(), [&](const Spot& s) { return s.id == id; });
  return it == spots_.end() ? nullptr : &*it;
}

bool Ui::spot(const std::string& id, Rect local, Tip tip, bool takes_focus, double radius) {
  if (covered_) return false;
  const Rect rect{local.x + sheet_.x, local.y + sheet_.y, local.width, local.height};
  spots_.push_back({id, rect, std::move(tip), takes_focus, radius * u});
  const bool over = holds(rect, input.mouse);
  if (over) next_hovered_ = id;
  if (over && input.pressed) held_ = id;
  if (over && input.released && held_ == id) return true;
  return activate_ && focused_ == id;
}

bool Ui::button(const std::string& id, Rect rect, std::optional<Sign> sign, std::string_view label, Tip tip, bool on, bool primary) {
  const bool chosen = spot(id, rect, std::move(tip));
  const bool lifted = is_hovered(id) || is_held(id);
  Colour fill = primary ? theme->action : on ? theme->select : theme->raised;
  if (lifted && !primary && !on) fill = theme->select;
  const Colour ink = primary ? theme->on_action : theme->ink;
  canvas.box({"button", id}, rect, 8 * u, fill, on || primary ? theme->action : theme->edge, (on || (lifted && !primary) ? 1.8 : 1.1) * u);
  const Vec2 middle = rect.centre();
  const double s = (primary ? 10 : 8) * u;
  if (sign && !label.empty()) {
    canvas.add(draw_sign(*sign, {rect.x + 18 * u, middle.y}, 8 * u, ink));
    canvas.text_middle({}, {rect.x + 32 * u, middle.y}, label, {14 * u, ink});
  } else if (sign) canvas.add(draw_sign(*sign, middle, s, ink));
  else canvas.text_middle({}, middle, label, {14 * u, ink, on, Anchor::middle});
  return chosen;
}

std::optional<int> Ui::segments(const std::string& id, Rect rect, std::span<const std::string_view> words, std::span<const double> widths,
                                int chosen, const std::vector<Tip>& tips) {
  std::optional<int> out;
  canvas.box({"segments", id}, rect, 8 * u, theme->raised, theme->edge, 1.1 * u);
  double x = rect.x;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const Rect cell{x, rect.y, widths[i], rect.height};
    const std::string own = id + "-" + std::string(words[i]);
    const bool on = static_cast<int>(i) == chosen;
    if (spot(own, cell, tips[std::min(i, tips.size() - 1)]) && !on) out = static_cast<int>(i);
    if (on) canvas.box({}, inset(cell, 2 * u), 6 * u, theme->select, theme->action, 1.8 * u);
    else if (is_hovered(own)) canvas.box({}, inset(cell, 2 * u), 6 * u, with_alpha(theme->select, 0.6));
    canvas.text_middle({}, cell.centre(), words[i], {14 * u, theme->ink, on, Anchor::middle});
    x += widths[i];
  }
  return out;
}

std::optional<int> Ui::tabs(const std::string& id, Vec2 at, std::span<const std::string_view> words, int chosen, double size, double gap) {
  std::optional<int> out;
  double x = at.x;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const bool on = static_cast<int>(i) == chosen;
    const double width = text_width(words[i], size, on);
    const std::string own = id + "-" + std::string(words[i]);
    if (spot(own, {x - 6 * u, at.y - 1.3 * size, width + 12 * u, 2 * size}, {std::string(words[i]), "", ""}) && !on) out = static_cast<int>(i);
    canvas.text({}, {x, at.y}, words[i], {size, on || is_hovered(own) ? theme->ink : theme->quiet, on});
    if (on) canvas.box({}, {x - 2 * u, at.y + 7 * u, width + 4 * u, 4 * u}, 2 * u, theme->action);
    x += width + gap;
  }
  return out;
}

bool Ui::drop_field(const std::string& id, Rect rect, std::string_view text, Tip tip, bool bold, double size, std::optional<Sign> sign) {
  const bool chosen = spot(id, rect, std::move(tip));
  const bool lifted = is_hovered(id);
  canvas.box({"field", id}, rect, 8 * u, theme->raised, lifted ? theme->action : theme->edge, (lifted ? 1.8 : 1.1) * u);
  double x = rect.x + 12 * u;
  if (sign) {
    canvas.add(draw_sign(*sign, {rect.x + 18 * u, rect.centre().y}, 8 * u, theme->quiet));
    x = rect.x + 38 * u;
  }
  const double room = rect.right() - 32 * u - x;
  canvas.fitted({}, {x, middle_baseline(rect.centre().y, size, bold)}, text, {size, theme->ink, bold}, room);
  canvas.add(draw_sign(Sign::down, {rect.right() - 17 * u, rect.centre().y}, 8 * u, theme->quiet));
  return chosen;
}

void Ui::panel(Rect rect) { canvas.box({"panel", ""}, rect, 10 * u, theme->panel, theme->rule, 1.1 * u); }

} // namespace mw::app
