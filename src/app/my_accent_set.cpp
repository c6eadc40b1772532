#include "app/my_accent.h"
#include "app/panels.h"

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

/// The value in hand: of the set, or of its row for a special place; and the same at the start.
const SetValue& value_now(const MyAccent& mine) {
  const auto& rows = mine.accent.contexts[static_cast<std::size_t>(mine.set)];
  return mine.row && *mine.row < rows.size() ? rows[*mine.row].value : mine.accent.of(mine.set);
}
const SetValue& value_before(const MyAccent& mine) {
  const auto &rows = mine.accent.contexts[static_cast<std::size_t>(mine.set)], &old = mine.start.contexts[static_cast<std::size_t>(mine.set)];
  if (!mine.row || *mine.row >= rows.size()) return mine.start.of(mine.set);
  const auto at = std::find_if(old.begin(), old.end(), [&](const ContextValue& row) { return row.context == rows[*mine.row].context; });
  return at == old.end() ? mine.start.of(mine.set) : at->value;
}

/// Outlines of the vowel's start, its start at the beginning, and its end, each with the posture of its accent; traced again
/// when one of them changes.
void trace_set(Session& session, MyAccent& mine) {
  const Sound &now = value_now(mine).vowel, &before = value_before(mine).vowel;
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
  const bool glides = is_glide(value_now(mine).vowel), moved = !(mine.poses[0] == mine.poses[1]);
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

// In this phrase, and where else the set is said another way.
std::string where_heard(const Session& session, const MyAccent& mine) {
  const auto words = words_with(session, mine.set);
  std::string heard = words.empty() ? "not in this phrase" : "in this phrase: " + join(words, ", ");
  for (const ContextValue& row : mine.accent.contexts[static_cast<std::size_t>(mine.set)])
    if (const ContextName* name = find_context(row.context); name && name->evaluated) heard += "; " + row.value.ipa + " " + row.context;
  return heard;
}

void draw_source_link(Ui& ui, MyAccent& mine, Vec2 right) {
  const double u = ui.u;
  const std::string_view word = mine.sources ? "its words" : "source";
  const double width = text_width(word, 13 * u);
  if (ui.spot("value-source", {right.x - width - 6 * u, right.y - 12 * u, width + 12 * u, 24 * u}, {mine.sources ? "Its words" : "Source", mine.sources ? "Where it is heard" : "Where this value comes from, and how sure it is", ""}, true, 6)) mine.sources = !mine.sources;
  ui.canvas.text_middle({"source", ""}, right, word, {13 * u, ui.is_hovered("value-source") ? ui.theme->ink : ui.theme->action, false, Anchor::end});
}

void draw_ghost_key(Ui& ui, Vec2 at, std::string_view word, std::vector<double> dashes) {
  ui.canvas.line({}, at, at + Vec2{28 * ui.u, 0}, ui.theme->ink, 2.2 * ui.u, std::move(dashes));
  ui.canvas.text_middle({}, at + Vec2{36 * ui.u, 0}, word, {13 * ui.u, ui.theme->quiet});
}

// Which end of a glide is in hand, and how its lips are held.
void draw_hands(Ui& ui, Session& session, Rect r) {
  MyAccent& mine = my_accent(session);
  const double u = ui.u;
  const Sound& vowel = value_now(mine).vowel;
  if (is_glide(vowel)) {
    constexpr std::array<std::string_view, 2> ends{"starts", "ends"};
    if (const auto chosen = ui.tabs("glide", {r.x + 2 * u, r.y + 17 * u}, ends, mine.end ? 1 : 0, 14 * u, 20 * u)) mine.end = *chosen == 1, mine.place.reset();
  }
  constexpr std::array<std::string_view, 3> words{"spread", "half", "round"};
  const double lead = text_width("lips", 14 * u) + 10 * u, cell = std::min(68 * u, (r.width - lead) / 3);
  const std::array<double, 3> widths{cell, cell, cell};
  const Rect box{r.x + lead, r.bottom() - 40 * u, 3 * cell, 32 * u};
  ui.canvas.text_middle({}, {r.x, box.centre().y}, "lips", {14 * u, ui.theme->ink});
  const std::vector<Tip> tips{{"Lips", "Spread or neutral, a little rounded, rounded", "R"}};
  const auto place = vowel_place(vowel, mine.end);
  if (!place) return;
  if (const auto chosen = ui.segments("lips", box, words, widths, static_cast<int>(lips_of(*place)), tips)) set_lips(session, static_cast<Lips>(*chosen));
}

} // namespace

std::string told_source(const std::string& source, const std::string& status, const std::string& note) {
  if (status == coach_status) return "Set by you.";
  std::string out = source.empty() ? "No source is named." : "From " + source + ".";
  // the words that the tables use: read, measured, derived, from memory (never checked against the book)
  if (!status.empty()) out += status.starts_with("MEMORY") ? " Written from memory, not checked." : " Status: " + to_lower(status) + ".";
  return note.empty() ? out : out + " " + note + ".";
}

void draw_set_card(Ui& ui, Session& session, Vec2 sheet, Rect r) {
  MyAccent& mine = my_accent(session);
  const Theme& theme = *ui.theme;
  const double u = ui.u;
  ui.panel(r);
  if (mine.problem) {
    draw_problem_card(ui, session, r);
    return;
  }
  const SetValue &now = value_now(mine), &before = value_before(mine);
  const bool moved = !(now.vowel == before.vowel), other_rest = !(to_shift(mine.accent.posture) == to_shift(mine.start.posture)), glides = is_glide(now.vowel);
  mine.end = mine.end && glides;
  const double mouth = std::min(r.width * (r.height > r.width ? 0.58 : 0.5), r.height * 1.17);
  const bool tall = r.height > r.width; // the hands below the mouth, over the whole width
  draw_mouth(ui, session, mine, r, {r.right() - mouth, r.y, mouth, r.height - (tall ? 50 * u : 0)});
  const double x = r.x + 16 * u, width = r.width - mouth - 26 * u;
  ui.canvas.text({"set", ""}, {x, r.y + 34 * u}, to_keyword(mine.set), {24 * u, theme.ink, true});
  // the vowel, and what it was
  ui.canvas.text({"set", "ipa"}, {x, r.y + 68 * u}, now.ipa, {30 * u, moved ? theme.second : theme.action, true});
  if (moved) ui.canvas.fitted({"set", "was"}, {x + text_width(now.ipa, 30 * u, true) + 14 * u, r.y + 66 * u}, "was " + before.ipa, {15 * u, theme.quiet}, width - text_width(now.ipa, 30 * u, true) - 24 * u - text_width("put back", 13 * u));
  const std::string place = mine.row ? mine.accent.contexts[static_cast<std::size_t>(mine.set)][*mine.row].context : "";
  double y = ui.canvas.paragraph({}, {x, r.y + 80 * u}, place.empty() ? std::string(examples[static_cast<std::size_t>(mine.set)]) : place, {15 * u, theme.ink}, width, 2) + 4 * u;
  draw_source_link(ui, mine, {x + width, r.y + 27 * u});
  const std::string heard = mine.sources ? told_source(now.source, now.status, now.note) : where_heard(session, mine);
  const double foot = r.bottom() - (glides ? 70 : 44) * u; // of the hands' part
  const double low = foot - ((glides ? 20 : 0) + (moved || other_rest ? 20 : 0)) * u;
  const int lines = std::max(1, static_cast<int>((low - 4 * u - y) / (13.5 * 1.4 * u)));
  ui.canvas.paragraph({}, {x, y}, heard, {13.5 * u, theme.quiet}, width, std::min(lines, mine.sources ? 9 : 4));
  y = low + 6 * u;
  if (glides) draw_ghost_key(ui, {x, y}, "where it ends", {7 * u, 5 * u}), y += 20 * u;
  if (moved || other_rest) draw_ghost_key(ui, {x, y}, "where it began before", {2 * u, 5 * u});
  draw_hands(ui, session, {x, foot, tall ? r.width - 134 * u : width, r.bottom() - foot});
  show_speaker(ui, session, sheet, {r.right() - 100 * u, r.bottom() - 38 * u, 92 * u, 30 * u});
  const double back = text_width("put back", 13 * u);
  if (!moved) return;
  if (ui.spot("put-back", {x + width - back - 8 * u, r.y + 49 * u, back + 14 * u, 26 * u}, {"Put back", "This vowel as it was at the start", ""}, true, 6)) {
    commit(session, mine.row ? with_context_vowel(mine.accent, mine.set, place, before.vowel) : put_back(mine.accent, mine.set, mine.start));
    mine.place.reset();
  }
  ui.canvas.text({}, {x + width, r.y + 66 * u}, "put back", {13 * u, ui.is_hovered("put-back") ? theme.ink : theme.action, false, Anchor::end});
}

} // namespace mw::app
