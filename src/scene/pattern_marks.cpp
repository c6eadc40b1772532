#include "scene/pattern_pen.h"
#include "scene/signs.h"

#include "base/text.h"
#include "text/shaper.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace mw {
namespace {

struct Foot { double column = 0, x = 0; }; // column counted on over a loop's seam

bool is_inside(const PatternFinding& f) { return stands_in(f, Slot::onset) && stands_in(f, Slot::coda); }

/// The feet of a link, its columns counted on where a loop begins again, shifted by `passes` rounds.
std::vector<Foot> feet_of(const PatternPen& pen, const PatternFinding& f, double passes) {
  std::vector<Foot> out;
  double add = passes * static_cast<double>(pen.at.count);
  const auto& segments = pen.pattern().links[*f.link].segments;
  for (std::size_t i = 0; i < f.columns.size(); ++i) {
    if (i > 0 && f.columns[i] < f.columns[i - 1]) add += static_cast<double>(pen.at.count);
    const double column = static_cast<double>(f.columns[i]) + add, shift = column - static_cast<double>(f.columns[i]);
    const double x = shift == 0 ? card_x(pen, f.columns[i], f.slot, segments[std::min(i, segments.size() - 1)]) : pen.at.x(column);
    out.push_back({column, x});
  }
  return out;
}

bool on_page(const PatternPen& pen, const std::vector<Foot>& feet) {
  return feet.back().column >= static_cast<double>(pen.at.page.first) && feet.front().column <= static_cast<double>(pen.at.page.last);
}

/// All drawings of a link on this page: one, or two where a loop is cut at its seam.
std::vector<std::vector<Foot>> drawings_of(const PatternPen& pen, const PatternFinding& f) {
  std::vector<std::vector<Foot>> out;
  for (const double passes : {0.0, -1.0}) {
    const auto feet = feet_of(pen, f, passes);
    const bool over_the_seam = feet_of(pen, f, 0).back().column >= static_cast<double>(pen.at.count);
    if ((passes == 0 || over_the_seam) && on_page(pen, feet)) out.push_back(feet);
  }
  return out;
}

Polyline arc(double from, double to, double base, double height, double power) {
  Polyline line;
  for (int i = 0; i <= 32; ++i) {
    const double t = i / 32.0;
    line.push_back({from + (to - from) * t, base - height * std::pow(std::sin(std::numbers::pi * t), power)});
  }
  return line;
}

Path band_of(const Polyline& outer, const Polyline& inner) {
  Path path = smooth_path(outer, false);
  const Path back = smooth_path(Polyline{inner.rbegin(), inner.rend()}, false);
  path.steps.emplace_back(Path::Line{inner.back()});
  path.steps.insert(path.steps.end(), back.steps.begin() + 1, back.steps.end());
  path.steps.emplace_back(Path::Close{});
  return path;
}

/// Edges where a mark goes on beyond the page.
void draw_chevrons(Canvas& canvas, const PatternPen& pen, const std::vector<Foot>& feet, double y) {
  const double u = pen.u();
  if (feet.front().column < static_cast<double>(pen.at.page.first)) canvas.add(draw_sign(Sign::left, {pen.at.left + 7 * u, y}, 8 * u, pen.theme.ink));
  if (feet.back().column > static_cast<double>(pen.at.page.last)) canvas.add(draw_sign(Sign::right, {pen.at.right - 7 * u, y}, 8 * u, pen.theme.ink));
}

double bridge_height(const PatternPen& pen, Slot slot) { return pen.at.row(slot).cards - pen.at.row(slot).top - 6 * pen.u(); }

/// Two arcs one inside the other, hatched by level between them, feet on the four sounds.
void draw_bridge(Canvas& canvas, const PatternPen& pen, const PatternFinding& f, const std::vector<Foot>& feet) {
  const double u = pen.u(), base = pen.at.row(f.slot).cards - 3 * u, height = bridge_height(pen, f.slot);
  const bool long_way = feet.back().column - feet.front().column >= 5; // more than five syllables: a thin band
  const double inner_height = long_way ? height - 14 * u : height * 0.46;
  const Polyline outer = arc(feet[0].x, feet[3].x, base, height, 1), inner = arc(feet[1].x, feet[2].x, base, inner_height, 1);
  const MarkId id{"bridge", f.told.title};
  canvas.fill(id, band_of(outer, inner), clash_hatch(pen.theme, f.told.level, 5.2 * u, 1.15 * u, 0.95));
  for (const Polyline& line : {outer, inner}) canvas.stroke(id, smooth_path(line, false), clash_edge(pen.theme), 1.8 * u);
  draw_chevrons(canvas, pen, feet, base - height * 0.5);
}

/// Starts and ends of two syllables exchanged: two lines that cross between their columns.
void draw_cross(Canvas& canvas, const PatternPen& pen, const PatternFinding& f, const std::vector<Foot>& feet) {
  const double u = pen.u(), half = 24 * u, high = pen.at.row(Slot::onset).foot(), low = pen.at.row(Slot::coda).cards;
  const double a = pen.at.x(feet[0].column) + half, b = pen.at.x(feet[1].column) - half, from = high - 20 * u, to = low + 20 * u;
  const auto line = [&](Vec2 p, Vec2 q) {
    const double middle = (p.x + q.x) / 2;
    Path path;
    path.steps = {Path::Move{p}, Path::Cubic{{middle, p.y}, {middle, q.y}, q}};
    canvas.stroke({"bridge", f.told.title}, path, clash_edge(pen.theme), 6 * u);
    canvas.stroke({"bridge", f.told.title}, path, pen.theme.clash(f.told.level), 3 * u);
  };
  line({a, from}, {b, to});
  line({a, to}, {b, from});
}

/// Dashes hanging from card to card below the lane.
void draw_link(Canvas& canvas, const PatternPen& pen, const PatternFinding& f, const LinkPlace& place, const std::vector<Foot>& feet) {
  const double u = pen.u(), base = pen.at.row(f.slot).foot() + 4 * u, depth = place.label.centre().y - 4 * u;
  for (std::size_t i = 0; i + 1 < feet.size(); ++i) {
    const bool first = i == 0, last = i + 2 == feet.size();
    const double from = feet[i].x + (first ? 0 : 3 * u), to = feet[i + 1].x - (last ? 0 : 3 * u);
    const double sag = std::min(depth, 14 * u + (to - from) * 0.16);
    canvas.stroke({"link", f.told.title}, smooth_path(arc(from, to, base, -std::max(sag, feet.size() == 2 ? depth : 0), 0.55), false), pen.theme.dark ? pen.theme.ink : pen.theme.clash_ink, 1.7 * u, {5 * u, 4 * u});
  }
}

Group faded(const PatternPen& pen, std::size_t finding, const char* role, Canvas inside, bool clipped) {
  Group group{{role, to_text(static_cast<int>(finding))}};
  group.opacity = pen.strength(finding);
  if (clipped) group.clip = rounded_rectangle({pen.at.left - 2 * pen.u(), pen.view.rect.y}, {pen.at.right - pen.at.left + 6 * pen.u(), pen.view.rect.height}, 0);
  group.marks = std::move(inside.marks);
  return group;
}

struct Flag { std::size_t finding = 0; Vec2 at{}; double r = 13; int more = 0; };

/// Where the flags of bridges and counter-moves stand; one closer than 30 u to a stronger one folds into it.
std::vector<Flag> flags_of(const PatternPen& pen) {
  const double u = pen.u();
  std::vector<Flag> out;
  const auto add = [&](std::size_t finding, Vec2 at, double r) {
    at.x = std::max(pen.at.left + r, std::min(at.x, pen.at.right - r));
    const auto near = std::find_if(out.begin(), out.end(), [&](const Flag& f) { return std::hypot(f.at.x - at.x, f.at.y - at.y) < 30 * u; });
    if (near != out.end()) ++near->more;
    else out.push_back({finding, at, r, 0});
  };
  for (const std::size_t i : pen.picture.choice.shown) {
    const PatternFinding& f = pen.shown.findings[i];
    if (!f.link || f.told.kind == ClashKind::near_twins) continue;
    for (const auto& feet : drawings_of(pen, f)) {
      const double middle = (feet.front().x + feet.back().x) / 2;
      if (f.told.kind == ClashKind::counter_move) add(i, {middle, (pen.at.tongue + pen.at.lips) / 2 + 1 * u}, 13 * u);
      else if (is_inside(f)) add(i, {middle, (pen.at.row(Slot::onset).foot() + pen.at.row(Slot::coda).cards) / 2}, 14 * u);
      else add(i, {middle, pen.at.row(f.slot).cards - 3 * u - bridge_height(pen, f.slot) + 10 * u}, std::min(15 * u, pen.at.row(f.slot).card_height * 0.27));
    }
  }
  return out;
}

void draw_flag_at(PatternPen& pen, const Flag& flag, bool lit) {
  const PatternFinding& f = pen.shown.findings[flag.finding];
  Canvas inside;
  inside.add(draw_flag(pen.theme, f.told.kind, f.told.level, lit, flag.at, flag.r, to_text(static_cast<int>(flag.finding))));
  if (pen.view.chosen == flag.finding) inside.box({"flag-chosen", {}}, {flag.at.x - flag.r - 3.5 * pen.u(), flag.at.y - flag.r - 3.5 * pen.u(), 2 * flag.r + 7 * pen.u(), 2 * flag.r + 7 * pen.u()}, flag.r * 0.55, clear, pen.theme.action, 2 * pen.u());
  if (flag.more > 0) inside.text_middle({"more", {}}, {flag.at.x + flag.r + 2 * pen.u(), flag.at.y - flag.r * 0.6}, "+" + to_text(flag.more), {12.5 * pen.u(), pen.theme.quiet});
  Group group = faded(pen, flag.finding, "pattern-flag", std::move(inside), false);
  if (!lit) group.opacity = 1; // what waits is there all the time
  pen.canvas.add(std::move(group));
  pen.hit(lit ? PatternPart::finding : PatternPart::waiting, flag.finding, {flag.at.x - flag.r, flag.at.y - flag.r, 2 * flag.r, 2 * flag.r});
}

bool touches(const Rect& a, const Rect& b) { return a.x < b.right() && b.x < a.right() && a.y < b.bottom() && b.y < a.bottom(); }

/// "tip back, then back tip" beside its bridge, where there is room; the card and the tip say it in any case.
void draw_bridge_words(PatternPen& pen, std::size_t finding) {
  const PatternFinding& f = pen.shown.findings[finding];
  if (f.told.kind != ClashKind::swap || is_inside(f)) return;
  const double u = pen.u(), size = pattern_text_u * u, width = text_width(words_of(pen.pattern(), f), size), base = pen.at.row(f.slot).cards - 3 * u;
  for (const auto& feet : drawings_of(pen, f))
    for (const double x : {feet.back().x + 14 * u, feet.front().x - 14 * u - width}) {
      const Rect box{x, base - bridge_height(pen, f.slot) * 0.72, width, 1.3 * size};
      if (box.x < pen.at.left || box.right() > pen.at.right || std::any_of(pen.words.begin(), pen.words.end(), [&](const Rect& r) { return touches(r, box); })) continue;
      Canvas inside;
      inside.text_middle({"finding-words", {}}, {x, box.centre().y}, words_of(pen.pattern(), f), {size, pen.theme.ink});
      pen.canvas.add(faded(pen, finding, "finding-words", std::move(inside), false));
      pen.words.push_back(box);
      return;
    }
}

/// The label of a link lies over its dashes.
void draw_link_label(PatternPen& pen, const LinkPlace& place) {
  const PatternFinding& f = pen.shown.findings[place.finding];
  const double u = pen.u(), r = link_flag_u * u, y = pen.at.row(f.slot).foot() + place.label.centre().y;
  Canvas inside;
  const Rect box{place.label.x + 2 * r + 4 * u, y - 11 * u, place.label.width - 2 * r - 4 * u, 22 * u};
  const Colour ground = pen.theme.ground; // the lane's tint: half of the ground over the panel
  inside.box({"link-label", {}}, box, 4 * u, pen.theme.panel);
  inside.box({"link-label", {}}, box, 4 * u, with_alpha(ground, 0.5));
  inside.fitted({"finding-words", {}}, {box.x + 4 * u, middle_baseline(y, pattern_text_u * u)}, words_of(pen.pattern(), f), {pattern_text_u * u, pen.theme.ink}, box.width - 4 * u);
  pen.canvas.add(faded(pen, place.finding, "finding-words", std::move(inside), false));
  draw_flag_at(pen, {place.finding, {place.label.x + r, y}, r, 0}, true);
  pen.words.push_back({place.label.x, y - r, place.label.width, 2 * r});
}

/// Findings that wait: small unlit flags at their lane's left end, and how many of the lane are drawn.
void draw_waiting(PatternPen& pen) {
  const double u = pen.u(), r = 8.5 * u;
  for (const Slot slot : all_slots) {
    std::vector<std::size_t> waiting;
    std::size_t shown = 0;
    for (const std::size_t i : pen.picture.choice.waiting)
      if (pen.shown.findings[i].slot == slot) waiting.push_back(i);
    for (const std::size_t i : pen.picture.choice.shown)
      shown += stands_in(pen.shown.findings[i], slot) && pen.shown.findings[i].link && pen.shown.findings[i].told.kind != ClashKind::counter_move;
    if (waiting.empty()) continue;
    const PatternRow& row = pen.at.row(slot);
    const double y = row.foot() - r + 2 * u;
    const std::string count = to_text(static_cast<int>(shown)) + " of " + to_text(static_cast<int>(shown + waiting.size()));
    double x = pen.at.left - 14 * u - text_width(count, 12.5 * u);
    pen.canvas.text_middle({"waiting", count}, {x, y}, count, {12.5 * u, pen.theme.quiet});
    for (std::size_t k = 0; k < waiting.size() && x - 2 * r - 3 * u > pen.view.rect.x + 6 * u; ++k) {
      x -= 2 * r + 4 * u;
      draw_flag_at(pen, {waiting[k], {x + r, y}, r, 0}, false);
    }
  }
}

} // namespace

void draw_pattern_marks(PatternPen& pen) {
  for (const std::size_t i : pen.picture.choice.shown) {
    const PatternFinding& f = pen.shown.findings[i];
    if (f.told.kind != ClashKind::swap && f.told.kind != ClashKind::near_twins) continue;
    Canvas inside;
    for (const auto& feet : drawings_of(pen, f)) {
      const auto place = std::find_if(pen.at.links.begin(), pen.at.links.end(), [&](const LinkPlace& l) { return l.finding == i; });
      if (place != pen.at.links.end()) draw_link(inside, pen, f, *place, feet);
      else if (is_inside(f)) draw_cross(inside, pen, f, feet);
      else if (feet.size() == 4) draw_bridge(inside, pen, f, feet);
    }
    pen.canvas.add(faded(pen, i, f.told.kind == ClashKind::swap ? "pattern-bridge" : "pattern-link", std::move(inside), true));
  }
}

void draw_pattern_flags(PatternPen& pen) {
  const auto flags = flags_of(pen);
  for (const Flag& flag : flags) pen.words.push_back({flag.at.x - flag.r, flag.at.y - flag.r, 2 * flag.r, 2 * flag.r});
  for (const LinkPlace& place : pen.at.links) draw_link_label(pen, place);
  for (const std::size_t i : pen.picture.choice.shown) draw_bridge_words(pen, i);
  for (const Flag& flag : flags) draw_flag_at(pen, flag, true);
  draw_waiting(pen);
}

} // namespace mw
