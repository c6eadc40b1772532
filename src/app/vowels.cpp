#include "app/panels.h"

#include "motion/motion.h"
#include "scene/shelf.h"
#include "scene/take_text.h"
#include "scene/vowel_chart.h"

namespace mw::app {
namespace {

void draw_chart(Ui& ui, Session& session, Rect rect) {
  const Take& take = *session.take;
  ChartView view;
  view.theme = ui.theme, view.u = ui.u, view.rect = rect;
  view.sets = sets_in_phrase(take);
  // where the tongue is now, while a vowel is said
  const auto sound = sound_at(take, session.view.time_s);
  if (sound && is_vowel(take.track.segments[*sound].sound)) view.now = tongue_place(*take.targets, pose_at(take.motion, session.view.time_s));
  ui.canvas.add(compose_vowel_chart(view).group);
}

} // namespace

void show_vowels(Ui& ui, Session& session, const Layout& layout) {
  const Theme& theme = *ui.theme;
  const double u = layout.u, w = layout.vowels.width, h = layout.vowels.height;
  ui.begin_sheet("vowels", layout.vowels, theme.ground);
  ui.panel({0, 0, w, h});
  ui.canvas.text({}, {14 * u, 23 * u}, "Vowels", {15.5 * u, theme.ink, true});
  ui.canvas.text({}, {w - 14 * u, 23 * u}, "in this phrase", {13 * u, theme.quiet, false, Anchor::end});
  draw_chart(ui, session, {32 * u, 62 * u, w - 72 * u, h - 92 * u});
  ui.end_sheet();
}

void draw_side_card(Ui& ui, Session& session, const Layout& layout, Rect rect) {
  if (!session.take) return;
  const double u = layout.u;
  if (session.view.card == Card::vowels) {
    const double height = rect.height - 56 * u, width = std::min(rect.width - 76 * u, height * 1.5);
    draw_chart(ui, session, {rect.x + (rect.width - width) / 2, rect.y + 28 * u, width, height});
    return;
  }
  ShelfView shelf;
  shelf.theme = ui.theme, shelf.u = u;
  shelf.rect = {rect.x + 16 * u, rect.y + 16 * u, rect.width - 32 * u, rect.height - 26 * u};
  if (const auto sound = sound_at(*session.take, session.view.time_s)) shelf.section_mm = section_place(session.take->track.segments[*sound].sound);
  ui.canvas.add(compose_shelf(*session.take->anatomy, outline_now(session), pose_at(session.take->motion, session.view.time_s), shelf));
}

} // namespace mw::app
