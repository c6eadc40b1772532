#include "app/my_accent.h"

#include "accent/contexts.h"
#include "accent/edit.h"
#include "base/text.h"
#include "scene/mouth.h"
#include "scene/shelf.h"
#include "score/posture.h"
#include "score/targets.h"
#include "take/posture.h"
#include "text/shaper.h"

#include <algorithm>
#include <array>

namespace mw::app {
namespace {

// Words of each set, our own choice from those that Wells 1982 puts there; in the order of LexicalSet.
constexpr std::array<std::string_view, lexical_set_count> examples{
    "tin, lid, mint, whistle", "kettle, shed, mend, bread",  "pan, handle, gasket, scrap", "pot, copper, top, wash",   "cup, rust, button, dust",  "cook, wood, soot, pull",
    "glass, brass, ask, bath", "cloth, off, cough, long",    "work, burn, first, earn",    "tea, steel, leak, key",    "lane, tray, scale, paint", "calm, palm, father, spa",
    "straw, hawk, brought, taught", "stove, soap, bowl, hold", "spoon, tool, glue, blue",  "iron, pipe, rind, light", "coil, boil, join, oil", "spout, town, round, out",
    "near, gear, fear, beer",  "pair, spare, square, wear",  "start, cart, tar, heart",    "cork, short, form, war",   "forge, four, board, more", "cure, poor, tour, pure",
    "lately, rusty, tidy, busy", "mender, copper, letter, other", "comma, about, china, sofa"};

/// Outlines of the vowel's start, its start at the beginning, and its end, each with the posture of its accent; traced again
/// when one of them changes.
void trace_set(Session& session, MyAccent& mine) {
  const Sound &now = mine.accent.of(mine.set).vowel, &before = mine.start.of(mine.set).vowel;
  const std::vector<Sound> wanted{now, before};
  const PostureShift shift = to_shift(mine.accent.posture), shift_before = to_shift(mine.start.posture);
  const std::vector<PostureShift> shifts{shift, shift_before};
  const auto anatomy = session.take ? session.take->anatomy : session.anatomy;
  const bool known = mine.tracer && &mine.tracer->anatomy() == anatomy.get();
  if (known && mine.traced == wanted && mine.shifts == shifts) return;
  if (!known) mine.tracer = std::make_shared<Tracer>(anatomy);
  mine.traced = wanted, mine.shifts = shifts;
  mine.poses.clear(), mine.outlines.clear();
  const auto targets = read_targets(*anatomy);
  if (!targets) return;
  const auto add = [&](const Sound& sound, bool end, const PostureShift& by) {
    const auto plain = pose_of(*anatomy, **targets, sound, end);
    if (!plain) return;
    mine.poses.push_back(in_vowel(*anatomy, *plain, by));
    mine.outlines.push_back(mine.tracer->trace(mine.poses.back()));
  };
  add(now, false, shift), add(before, false, shift_before), add(now, is_glide(now), shift);
}

void draw_mouth(Ui& ui, Session& session, MyAccent& mine, Rect card, Rect rect) {
  trace_set(session, mine);
  if (mine.outlines.size() < 3) return;
  const auto anatomy = session.take ? session.take->anatomy : session.anatomy;
  MouthView view;
  view.theme = ui.theme;
  // the whole width of the close framing, as much height as the card has
  const MmBox close = framing(*anatomy, Framing::close), full = framing(*anatomy, Framing::full);
  MmBox box = close;
  const double wanted = (close.x1 - close.x0) * rect.height / rect.width;
  box.y1 = std::min(full.y1, close.y1 + std::max(0.0, wanted - (close.y1 - close.y0)) * 0.3);
  box.y0 = std::max(full.y0, box.y1 - std::max(wanted, close.y1 - close.y0));
  const double height = std::min(rect.height, rect.width * (box.y1 - box.y0) / (box.x1 - box.x0));
  view.box = box, view.rect = {rect.x, rect.bottom() - height, rect.width, height};
  view.line_scale = ui.u, view.detail = false;
  view.backdrop = clear;
  const bool glides = is_glide(mine.accent.of(mine.set).vowel), moved = !(mine.poses[0] == mine.poses[1]);
  if (glides) view.ghosts.push_back({&mine.outlines[2], Ghost::Kind::next});
  if (moved) view.ghosts.push_back({&mine.outlines[1], Ghost::Kind::own});
  Group group = compose_mouth(mine.outlines[0], mine.poses[0], *anatomy, view).group;
  Group inside; // the paper ends with the card
  inside.clip = rounded_rectangle({card.x + ui.u, card.y + ui.u}, {card.right() - ui.u, card.bottom() - ui.u}, 9 * ui.u);
  inside.marks.push_back(std::move(group));
  ui.canvas.add(std::move(inside));
  // the lips from the front, below the chin
  const double u = ui.u, w = 70 * u;
  ui.canvas.add(draw_lips(*ui.theme, lips_front(*anatomy, mine.poses[0]), {rect.x - 6 * u, rect.bottom() - 56 * u, w, 0.64 * w}, u));
}

std::vector<std::string> words_with(const Session& session, LexicalSet set) {
  std::vector<std::string> out;
  if (!session.take) return out;
  for (const Word& word : session.take->pronunciation.words)
    if (std::any_of(word.syllables.begin(), word.syllables.end(), [&](const Syllable& s) { return s.set == set; }) &&
        std::find(out.begin(), out.end(), word.text) == out.end())
      out.push_back(word.text);
  return out;
}

void draw_ghost_key(Ui& ui, Vec2 at, std::string_view word, std::vector<double> dashes) {
  ui.canvas.line({}, at, at + Vec2{28 * ui.u, 0}, ui.theme->ink, 2.2 * ui.u, std::move(dashes));
  ui.canvas.text_middle({}, at + Vec2{36 * ui.u, 0}, word, {13 * ui.u, ui.theme->quiet});
}

} // namespace

void draw_set_card(Ui& ui, Session& session, Rect r) {
  MyAccent& mine = my_accent(session);
  const Theme& theme = *ui.theme;
  const double u = ui.u;
  ui.panel(r);
  if (mine.problem) {
    draw_problem_card(ui, session, r);
    return;
  }
  const SetValue &now = mine.accent.of(mine.set), &before = mine.start.of(mine.set);
  const bool moved = !(now.vowel == before.vowel), other_rest = !(to_shift(mine.accent.posture) == to_shift(mine.start.posture)), glides = is_glide(now.vowel);
  const double mouth = std::min(r.width * (r.height > r.width ? 0.58 : 0.5), r.height * 1.17);
  draw_mouth(ui, session, mine, r, {r.right() - mouth, r.y, mouth, r.height});
  const double x = r.x + 16 * u, width = r.width - mouth - 26 * u;
  ui.canvas.text({"set", ""}, {x, r.y + 34 * u}, to_keyword(mine.set), {24 * u, theme.ink, true});
  // the vowel, and what it was
  ui.canvas.text({"set", "ipa"}, {x, r.y + 68 * u}, now.ipa, {30 * u, moved ? theme.second : theme.action, true});
  if (moved) ui.canvas.fitted({"set", "was"}, {x + text_width(now.ipa, 30 * u, true) + 14 * u, r.y + 66 * u}, "was " + before.ipa, {15 * u, theme.quiet}, width - text_width(now.ipa, 30 * u, true) - 14 * u);
  double y = ui.canvas.paragraph({}, {x, r.y + 80 * u}, examples[static_cast<std::size_t>(mine.set)], {15 * u, theme.ink}, width, 2) + 4 * u;
  // where it is heard
  const auto words = words_with(session, mine.set);
  std::string heard = words.empty() ? "not in this phrase" : "in this phrase: " + join(words, ", ");
  for (const ContextValue& row : mine.accent.contexts[static_cast<std::size_t>(mine.set)])
    if (const ContextName* name = find_context(row.context); name && name->evaluated) heard += "; " + row.value.ipa + " " + row.context;
  const double low = r.bottom() - (48 + (glides ? 22 : 0) + (moved || other_rest ? 22 : 0)) * u;
  const int lines = std::max(1, static_cast<int>((low - y) / (13.5 * 1.4 * u)));
  ui.canvas.paragraph({}, {x, y}, heard, {13.5 * u, theme.quiet}, width, std::min(lines, 4));
  y = low + 6 * u;
  if (glides) draw_ghost_key(ui, {x, y}, "where it ends", {7 * u, 5 * u}), y += 22 * u;
  if (moved || other_rest) draw_ghost_key(ui, {x, y}, "where it began before", {2 * u, 5 * u});
  // back
  const Rect lips{x, r.bottom() - 42 * u, 96 * u, 32 * u}, back{x + 104 * u, lips.y, 92 * u, 32 * u};
  if (ui.button("turn-lips", lips, {}, "Turn lips", {"Turn the lips", "Spread, a little rounded, rounded", "R"})) turn_lips(session);
  if (moved && ui.button("put-back", back, {}, "Put back", {"Put back", "This vowel as it was at the start", ""})) {
    commit(session, put_back(mine.accent, mine.set, mine.start));
    mine.place.reset();
  }
}

} // namespace mw::app
