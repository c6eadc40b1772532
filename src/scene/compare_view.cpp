#include "scene/compare_view.h"

#include "base/text.h"
#include "scene/accent_picture.h"
#include "scene/signs.h"
#include "text/shaper.h"

#include <algorithm>

namespace mw {

// Shares of the width and heights in u from the design's 1280 x 720: stages 386 wide, rows 156 high.
CompareLayout lay_out_compare(Rect room, double u) {
  CompareLayout out;
  const double gap = (room.width < 900 * u ? 8 : 10) * u;
  out.one_card = room.width < 900 * u;
  const double rows = std::min((room.height < 480 * u ? 128 : 156) * u, room.height * 0.32);
  out.rows = {room.x, room.bottom() - rows, room.width, rows};
  const double height = room.height - rows - gap;
  if (height > 0.85 * room.width) { // upright
    out.one_card = false;
    const double side = std::max(0.42 * height, std::min(330 * u, 0.5 * height)), stage = (room.width - gap) / 2;
    out.own = {room.x, room.y, stage, height - side - gap};
    out.target = {room.x + stage + gap, room.y, stage, height - side - gap};
    out.side = {room.x, room.y + height - side, room.width, side};
    return out;
  }
  const double share = out.one_card ? 0.335 : 0.3065, stage = share * room.width;
  out.own = {room.x, room.y, stage, height};
  out.target = {room.x + stage + gap, room.y, stage, height};
  const double x = out.target.right() + gap;
  out.side = {x, room.y, room.right() - x, height};
  return out;
}

std::optional<std::size_t> change_at(const Comparing& c, std::size_t column) {
  for (std::size_t i = 0; i < c.changes.size(); ++i)
    if (std::find(c.changes[i].columns.begin(), c.changes[i].columns.end(), column) != c.changes[i].columns.end()) return i;
  return {};
}

double moment_of_column(const Comparing& c, std::size_t column) {
  const CompareColumn& at = c.columns[column];
  const double middle = (at.target_from_s + at.target_to_s) / 2;
  if (!at.target) return middle;
  const double t = moment_of(*c.target, *at.target); // within a sound parted by the other side's sounds: inside this part
  return t > at.target_from_s && t < at.target_to_s ? t : middle;
}

std::size_t telling_column(const Comparing& c) { return c.changes.empty() || c.changes.front().columns.empty() ? 0 : c.changes.front().columns.front(); }

namespace {

// A change that keeps sounds apart or merges them has the fork's flag, any other an arrow.
void draw_change_flag(Canvas& canvas, const Theme& theme, const Change& change, bool lit, Vec2 centre, double r, std::size_t index) {
  const std::string id = "change-" + to_text(static_cast<int>(index));
  if (change.shift) {
    canvas.add(draw_flag(theme, ClashKind::accent_shift, change.weight > 24 ? 3 : 2, lit, centre, r, id));
    return;
  }
  canvas.box({"flag", id}, {centre.x - r, centre.y - r, 2 * r, 2 * r}, 0.42 * r, lit ? theme.select : theme.raised, lit ? theme.action : theme.edge, r / 9);
  canvas.add(draw_sign(Sign::right, centre, 0.62 * r, lit ? theme.ink : theme.quiet));
}

// At most so many lines, the last one cut with an ellipsis; a single line is left whole for shrinking.
std::vector<std::string> cut_lines(const std::string& text, double size, double width, int most) {
  if (most == 1) return {text};
  auto lines = wrap_text(text, size, false, width);
  if (lines.size() <= static_cast<std::size_t>(most)) return lines;
  lines.resize(static_cast<std::size_t>(most));
  lines.back() = cut_text(lines.back() + " \u2026", size, false, width);
  if (!lines.back().ends_with("\u2026")) lines.back() += "\u2026";
  return lines;
}

} // namespace

ChangesPicture compose_changes(const Comparing& c, const ChangesView& view) {
  const Theme& theme = view.theme ? *view.theme : light_theme();
  const double u = view.u, size = 14.5 * u, small = 13 * u, x = view.rect.x + 54 * u, width = view.rect.right() - x - 14 * u;
  ChangesPicture out;
  Canvas canvas;
  double y = view.rect.y;
  for (std::size_t i = view.first; i < std::min(c.changes.size(), view.first + view.most); ++i) {
    const Change& change = c.changes[i];
    const auto titles = cut_lines(change.title, size, width, view.title_lines), lines = cut_lines(change.detail, small, width, view.lines);
    const double title = (static_cast<double>(titles.size()) * 20 + 2) * u, height = title + static_cast<double>(lines.size()) * 17 * u + 4 * u;
    if (y + height > view.rect.bottom() + 4 * u && i > view.first) break;
    draw_change_flag(canvas, theme, change, view.lit == i, {view.rect.x + 30 * u, y + 21 * u}, 13 * u, i);
    for (std::size_t k = 0; k < titles.size(); ++k) canvas.fitted({"change", {}}, {x, y + (17 + 20 * static_cast<double>(k)) * u}, titles[k], {size, theme.ink}, width);
    for (std::size_t k = 0; k < lines.size(); ++k) canvas.text({"change-detail", {}}, {x, y + title + (12 + 17 * static_cast<double>(k)) * u}, lines[k], {small, theme.quiet});
    out.rows.emplace_back(i, Rect{view.rect.x + 10 * u, y, view.rect.width - 20 * u, height});
    y += height;
  }
  if (c.changes.empty()) y = canvas.paragraph({"change", {}}, {view.rect.x + 16 * u, y + 4 * u}, "Nothing: both accents say this phrase alike.", {size, theme.ink}, view.rect.width - 32 * u, 3);
  out.bottom = y;
  out.group.mark = {"changes", {}};
  out.group.marks = std::move(canvas.marks);
  return out;
}

namespace {

struct ComparePen {
  const Comparing& c;
  Tracer& tracer;
  const Theme& theme;
  double u, t;
  Canvas canvas{};

  void panel(Rect r) { canvas.box({"panel", {}}, r, 10 * u, theme.panel, theme.rule, 1.1 * u); }
  void stage(Rect r, bool target) {
    panel(r);
    CompareStageView s;
    s.theme = &theme, s.rect = r, s.u = u, s.target = target;
    s.role = target ? "the target" : "the learner\u2019s own";
    s.shadows = theme.name != "print";
    canvas.add(compose_compare_stage(c, tracer, t, s).group);
  }
  void side(Rect r, std::size_t column) {
    panel(r);
    ChangesView list;
    list.theme = &theme, list.u = u, list.lit = change_at(c, column);
    list.rect = {r.x, 0, r.width, 1e6};
    const double need = compose_changes(c, list).bottom + 40 * u, chart = std::max(r.height - need, 0.4 * r.height);
    canvas.text({"side", {}}, {r.x + 14 * u, r.y + 23 * u}, "Vowels of both", {15.5 * u, theme.ink, true});
    canvas.add(draw_compare_legend(c, theme, {r.right() - 16 * u, r.y + 18 * u}, u, r.width - 150 * u));
    canvas.add(compose_compare_chart(c, t, theme, {r.x + 16 * u, r.y + 34 * u, r.width - 32 * u, chart - 40 * u}, u));
    canvas.text({"side", {}}, {r.x + 16 * u, r.y + chart + 18 * u}, "What changes in this phrase", {15.5 * u, theme.ink, true});
    list.rect = {r.x, r.y + chart + 28 * u, r.width, r.height - chart - 30 * u};
    const auto changes = compose_changes(c, list);
    canvas.add(changes.group);
    const std::size_t shown = changes.rows.size();
    if (shown < c.changes.size())
      canvas.text({"side", {}}, {r.right() - 16 * u, r.y + chart + 18 * u}, to_text(static_cast<int>(shown)) + " of " + to_text(static_cast<int>(c.changes.size())), {13 * u, theme.quiet, false, Anchor::end});
  }
};

} // namespace

Scene compose_compare(const Comparing& c, Tracer& tracer, const ComparePictureView& view) {
  const Theme& theme = view.theme ? *view.theme : light_theme();
  const bool upright = view.height > view.width;
  const double u = std::max(0.2, upright ? std::min(view.width / 800, view.height / 1000) : std::min(view.width / 1280, view.height / 720)), gap = 10 * u, head = 46 * u, foot = 24 * u;
  const std::size_t column = std::min(view.column, c.columns.empty() ? 0 : c.columns.size() - 1);
  ComparePen pen{c, tracer, theme, u, c.columns.empty() ? 0 : moment_of_column(c, column)};
  const CompareLayout l = lay_out_compare({gap, head, view.width - 2 * gap, view.height - head - foot - gap / 2}, u);
  pen.canvas.add(draw_logo(theme, {gap + 14 * u, head / 2}, 10 * u));
  const std::string between = (c.own->accent ? c.own->accent->name : c.own->request.accent) + " to " + (c.target->accent ? c.target->accent->name : c.target->request.accent);
  const double between_width = std::min(text_width(between, 15 * u), 0.45 * view.width);
  pen.canvas.fitted({"title", {}}, {gap + 36 * u, 31 * u}, c.target->request.phrase, {22 * u, theme.ink, true}, view.width - 3 * gap - 56 * u - between_width, 0.6);
  pen.canvas.fitted({"accents", {}}, {view.width - gap - 4 * u, 30 * u}, between, {15 * u, theme.quiet, false, Anchor::end}, between_width, 0.7);
  pen.stage(l.own, false), pen.stage(l.target, true);
  pen.side(l.side, column);
  pen.panel(l.rows);
  CompareRowsView rows;
  rows.theme = &theme, rows.rect = l.rows, rows.u = u, rows.now = c.columns.empty() ? std::nullopt : std::optional{column};
  const auto picture = compose_compare_rows(c, rows);
  pen.canvas.add(picture.group);
  std::string sign = "Mouthwright \u00B7 a model, not a medical picture";
  if (picture.pages > 1) sign = "sounds: part " + to_text(static_cast<int>(picture.page + 1)) + " of " + to_text(static_cast<int>(picture.pages)) + " \u00B7 " + sign;
  pen.canvas.text({"sign", {}}, {view.width - gap - 4 * u, view.height - 9 * u}, sign, {13 * u, theme.quiet, false, Anchor::end});
  return {view.width, view.height, theme.ground, std::move(pen.canvas.marks)};
}

} // namespace mw
