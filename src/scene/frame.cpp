#include "scene/frame.h"

#include "base/text.h"
#include "scene/mouth_slip.h"
#include "scene/score_panel.h"
#include "scene/signs.h"
#include "text/shaper.h"

#include <algorithm>
#include <cmath>

namespace mw {
namespace {

constexpr double least_text_px = 9; // smaller letters cannot be read in a picture: left out

struct FramePen {
  const Take& take;
  Tracer& tracer;
  double t;
  const FrameView& view;
  const Theme& theme;
  std::optional<Lit> lit{};
  Canvas canvas{};
  double u = 1; // 1 at 1024 x 768

  [[nodiscard]] bool portrait() const { return view.width < view.height * 0.95; }
  [[nodiscard]] bool worded() const { return view.captions && 27 * u >= least_text_px; }

  StageView stage_view(Rect rect, Framing framing) const {
    StageView s;
    s.theme = &theme;
    s.rect = rect;
    s.u = u;
    s.line_scale = std::clamp(1.9 - (u > 0.5 ? 0 : 0.9 * (0.5 - u) / 0.5), 0.8, 1.9);
    s.framing = framing;
    s.mirrored = view.mirrored;
    s.shadows = view.shadows && u > 0.2;
    s.detail = u > 0.25;
    s.lit = lit;
    if (view.slips) s.slip = view.still ? slip_still(take, t) : lit_at(slip_times(take, view.slow), t * view.slow);
    s.arrows = worded();
    s.band_depth_mm = 11;
    s.arrow_u = 1.55 * u;
    s.sound_now = false, s.shelf = false, s.peephole = false;
    s.air = AirMarks{true, true, true, true, std::fmod(14.0 * t * view.slow, 9.5), 1}; // 14 mm/s of wall time
    if (lit && !take.clashes[lit->clash].articulators.empty()) { // one thing is strong at a time
      s.spotlight = take.clashes[lit->clash].articulators.front();
      s.spotlight_strength = lit->opacity;
      s.air->opacity = 1 - lit->opacity;
    }
    if (view.transparent) s.backdrop = clear, s.spotlight_strength *= 0.9;
    return s;
  }
  void draw_stage(Rect rect, Framing framing) {
    Group clipped{{"stage", {}}};
    clipped.clip = rounded_rectangle({rect.x, rect.y}, {rect.width, rect.height}, 0);
    // the stage keeps a rim for panels; a frame has none
    clipped.marks.emplace_back(compose_stage(take, tracer, t, stage_view({rect.x - 4 * u, rect.y - 4 * u, rect.width + 8 * u, rect.height + 8 * u}, framing)).group);
    canvas.add(std::move(clipped));
  }

  void draw_phrase(Rect rect) {
    if (!view.transparent) canvas.box({"ground", {}}, rect, 0, theme.ground);
    const double margin = 20 * u;
    // as many sounds a page as keep their size (at least 1/30 of the height)
    const double least = std::max(22 * u, view.height / 34);
    const auto room = static_cast<std::size_t>(std::clamp((rect.width - 2 * margin) / (least * 1.5), 3.0, 22.0));
    const auto now = sound_at(take, t);
    const auto pages = pages_of(take, room);
    Page page = pages.front();
    for (const Page& p : pages)
      if (now && *now >= p.first && *now <= p.last) page = p;
    PhraseRowView row;
    row.theme = &theme;
    const double k = rect.height / 132;
    row.rect = {rect.x + margin, rect.y + 4 * k, rect.width - 2 * margin, rect.height - 8 * k};
    row.word = 37 * k, row.sound = 38 * k, row.bar = 8 * k, row.quiet_bar = 3 * k;
    row.time = t;
    if (lit) row.lit = lit->clash, row.lit_opacity = lit->opacity;
    row.first = page.first, row.last = page.last;
    canvas.add(compose_phrase_row(take, row).group);
  }

  void draw_clash_words(Rect r, double opacity) {
    const Clash& c = take.clashes[lit->clash];
    Canvas words;
    const double flag = 36 * u;
    words.add(draw_flag(theme, c.kind, c.level, true, {r.x + flag, r.y + flag}, flag));
    const std::string kind{learner_name(c.kind)};
    const double kind_size = fitting_size(kind, 46 * u, true, r.width - 2.5 * flag, 0.5);
    words.text({"clash-kind", {}}, {r.x + 2.5 * flag, r.y + flag + kind_size * 0.33}, kind, {kind_size, theme.ink, true});
    double y = r.y + 2 * flag + 18 * u;
    if (const auto sounds = sounds_of(take, c); !sounds.empty()) { // as tags, so that the words and the arrows meet
      double x = r.x;
      for (const std::string& ipa : sounds) {
        const double w = std::max(52 * u, text_width(ipa, 36 * u, true) + 24 * u);
        words.box({"tag", ipa}, {x, y, w, 52 * u}, 11 * u, theme.raised, clash_edge(theme), 2.6 * u);
        words.text_middle({"tag", ipa}, {x + w / 2, y + 26 * u}, ipa, {36 * u, theme.ink, true, Anchor::middle});
        x += w + 14 * u;
      }
      y += 66 * u;
    }
    // the words shrink together until all of them are in; Feel it is never cut
    double size = 27 * u;
    const std::string feel = sentence(c.feel);
    const auto height = [&](double s) {
      return 1.4 * s * (static_cast<double>(wrap_text(c.text, s, false, r.width).size() + wrap_text(feel, s, false, r.width).size()) + 1) + 24 * u;
    };
    while (size > 12 * u && height(size) > r.bottom() - y) size *= 0.94;
    y = words.paragraph({"clash-text", {}}, {r.x, y}, c.text, {size, theme.ink}, r.width) + 12 * u;
    words.line({"rule", {}}, {r.x, y}, {r.right(), y}, theme.rule, 2 * u);
    y += 6 * u;
    if (!c.feel.empty()) {
      y = words.paragraph({"feel", {}}, {r.x, y}, "Feel it", {size, theme.action, true}, r.width);
      words.paragraph({"feel", {}}, {r.x, y}, feel, {size, theme.ink}, r.width);
    }
    Group group{{"clash-words", {}}};
    group.opacity = opacity;
    group.marks = std::move(words.marks);
    canvas.add(std::move(group));
  }

  void draw_sound_words(Rect r, double opacity) {
    const auto now = sound_at(take, t);
    if (!now || opacity <= 0.01) return;
    Canvas words;
    const std::string ipa = ipa_of(take, *now), name = learner_sound_name(take.track.segments[*now].sound);
    const double size = fitting_size(ipa, std::min(view.height / 5, r.height * 0.5), true, r.width, 0.3);
    const auto line = shape_line(ipa, true);
    const double base = r.y + std::max(size * 0.95, -line->ink_low.y * size + 8 * u);
    words.text({"sound-now", ipa}, {r.x, base}, ipa, {size, theme.ink, true});
    words.paragraph({"sound-name", {}}, {r.x, base + size * 0.42}, name, {27 * u, theme.quiet}, r.width, 4);
    Group group{{"sound-words", {}}};
    group.opacity = opacity;
    group.marks = std::move(words.marks);
    canvas.add(std::move(group));
  }
  void draw_words(Rect r) {
    const double on = lit ? lit->opacity : 0; // one goes before the other comes: they share a place
    if (on < 0.5) draw_sound_words(r, 1 - 2 * on);
    else draw_clash_words(r, 2 * on - 1);
  }

  void draw() {
    const double w = view.width, h = view.height;
    if (!worded()) { // the mouth alone
      draw_stage({0, 0, w, h}, w / h > 1.6 || std::min(w, h) < 160 ? Framing::small : Framing::close);
      return;
    }
    const double strip = 132 * u;
    if (portrait()) {
      const double words_height = std::min(h * 0.32, 300 * u);
      draw_stage({0, strip, w, h - strip - words_height}, Framing::close);
      draw_words({24 * u, h - words_height + 12 * u, w - 48 * u, words_height - 20 * u});
    } else {
      const double stage = w * 628 / 1024;
      draw_stage({0, strip, stage, h - strip}, Framing::frame);
      draw_words({stage + 22 * u, strip + 36 * u, w - stage - 46 * u, h - strip - 56 * u});
    }
    draw_phrase({0, 0, w, strip});
  }
};

} // namespace

Scene compose_frame(const Take& take, Tracer& tracer, double t, const FrameView& view) {
  const Theme& theme = view.theme ? *view.theme : light_theme();
  FramePen pen{take, tracer, t, view, theme, view.still ? lit_still(take, t) : lit_clash(take, t, view.slow)};
  pen.u = pen.portrait() ? std::min(view.width / 720, view.height / 1024) : std::min(view.width / 1024, view.height / 768);
  pen.draw();
  return {view.width, view.height, view.transparent ? clear : theme.panel, std::move(pen.canvas.marks)};
}

// ---- strip

namespace {

struct StripPlan { int columns = 1, rows = 1; double cell_w = 0, cell_h = 0, scale = 0; };

StripPlan plan_strip(int cells, double width, double height, double caption) {
  constexpr double gap = 10, shape = 130.0 / 144.0; // width to height of the close framing with room for the letter
  StripPlan best;
  for (int rows = 1; rows <= cells; ++rows) {
    const int columns = (cells + rows - 1) / rows;
    const double w = (width - gap * (columns - 1)) / columns, h = height / rows - caption;
    const double scale = std::min(w / shape, h);
    if (scale > best.scale) best = {columns, rows, w, h, scale};
  }
  return best;
}

/// Flag and strength of the clash that a segment belongs to, the strongest first.
std::optional<std::size_t> clash_at(const Take& take, std::size_t segment) {
  for (std::size_t i = 0; i < take.clashes.size(); ++i) {
    const auto& s = take.clashes[i].segments;
    if (!s.empty() && s.front() == segment) return i;
  }
  return {};
}

void draw_cell(Canvas& canvas, const Take& take, Tracer& tracer, std::size_t i, Rect cell, const Theme& theme, double u) {
  const double t = moment_of(take, i);
  StageView s;
  s.theme = &theme;
  s.rect = {cell.x - 2 * u, cell.y - 2 * u, cell.width + 4 * u, cell.height + 4 * u};
  s.u = u;
  const double size = std::min(cell.width, cell.height);
  s.line_scale = std::clamp(size / 300 / u, 0.4, 1.1);
  s.framing = cell.width > cell.height ? Framing::small : Framing::close;
  s.sound_now = false, s.shelf = false, s.peephole = false, s.air = std::nullopt;
  s.detail = size > 240 * u;
  s.shadows = theme.name != "print" && size > 120;
  s.backdrop = theme.name == "print" ? theme.panel : theme.ground;
  const auto clash = clash_at(take, i);
  if (clash) s.lit = Lit{*clash, 1};
  s.arrows = false; // the flag says it
  StagePicture picture = compose_stage(take, tracer, t, s);
  Group clipped{{"cell", to_text(static_cast<int>(i))}};
  clipped.clip = rounded_rectangle({cell.x, cell.y}, {cell.width, cell.height}, 6 * u);
  Canvas inside;
  inside.box({"cell", {}}, cell, 0, *s.backdrop);
  inside.add(std::move(picture.group));
  clipped.marks = std::move(inside.marks);
  canvas.add(std::move(clipped));
  const std::string ipa = ipa_of(take, i);
  const double letter = std::max(cell.height * 0.13, 9 * u);
  canvas.text({"sound", ipa}, {cell.x + 8 * u, cell.bottom() - letter * 0.42}, ipa, {letter, theme.ink, true, Anchor::start, letter * 0.16, *s.backdrop});
  if (clash) {
    canvas.box({"cell-clash", {}}, cell, 6 * u, clear, clash_edge(theme), 3 * u);
    const double r = std::clamp(size * 0.065, 6 * u, 16 * u);
    canvas.add(draw_flag(theme, take.clashes[*clash].kind, take.clashes[*clash].level, true, {cell.right() - r - 6 * u, cell.y + r + 6 * u}, r));
  } else canvas.box({"cell-edge", {}}, cell, 6 * u, clear, theme.rule, 1.2 * u);
}

std::string two_places(double seconds) {
  std::string text = to_text(std::round(seconds * 100) / 100, 2);
  if (text.find('.') == std::string::npos) text += ".";
  while (text.size() - text.find('.') < 3) text += "0";
  return text + " s";
}

} // namespace

Scene compose_strip(const Take& take, Tracer& tracer, const StripView& view) {
  const Theme& theme = view.theme ? *view.theme : light_theme();
  Canvas canvas;
  const auto& segments = take.track.segments;
  const double u = std::clamp(std::min(view.width / 1280, view.height / 470), 0.35, 3.0), margin = std::min(30 * u, view.width * 0.03);
  const bool worded = view.captions && 13 * u >= 6;
  const double head = worded ? 66 * u : margin, foot = worded ? 44 * u : margin, caption = worded ? 30 * u : 8 * u;
  if (worded) {
    const std::string accent = take.accent ? take.accent->name : take.request.accent, right = accent + " \u00B7 " + two_places(take.duration_s);
    const double right_width = std::min(text_width(right, 17 * u), view.width * 0.45);
    canvas.fitted({"accent", {}}, {view.width - margin, 48 * u}, right, {17 * u, theme.quiet, false, Anchor::end}, view.width * 0.45);
    canvas.fitted({"title", {}}, {margin, 50 * u}, take.request.phrase, {30 * u, theme.ink, true}, view.width - 2 * margin - right_width - 20 * u, 0.6);
    canvas.text({"key", {}}, {margin, view.height - 18 * u}, "Hatched flesh with a flag: two moves pull on one part of the mouth there.", {15 * u, theme.quiet});
    const std::string sign = "Mouthwright \u00B7 a model, not a medical picture";
    if (text_width("Hatched flesh with a flag: two moves pull on one part of the mouth there." + sign, 15 * u) < view.width - 2 * margin - 30 * u)
      canvas.text({"sign", {}}, {view.width - margin, view.height - 18 * u}, sign, {15 * u, theme.quiet, false, Anchor::end});
  }
  if (segments.empty()) return {view.width, view.height, theme.panel, std::move(canvas.marks)};
  const StripPlan plan = plan_strip(static_cast<int>(segments.size()), view.width - 2 * margin, view.height - head - foot, caption);
  const auto words = shown_words(take);
  for (std::size_t i = 0; i < segments.size(); ++i) {
    const int column = static_cast<int>(i) % plan.columns, row = static_cast<int>(i) / plan.columns;
    const Rect cell{margin + column * (plan.cell_w + 10), head + row * (plan.cell_h + caption), plan.cell_w, plan.cell_h};
    draw_cell(canvas, take, tracer, i, cell, theme, u);
    if (!worded) continue;
    const auto word = std::find_if(words.begin(), words.end(), [&](const ShownWord& w) { return i >= w.first && i <= w.last; });
    const std::string time = two_places(moment_of(take, i));
    const double size = 14.5 * u, time_width = text_width(time, size);
    const bool both = plan.cell_w > time_width + 40 * u;
    if (both) canvas.text({"time", {}}, {cell.right() - 4 * u, cell.bottom() + 20 * u}, time, {size, theme.quiet, false, Anchor::end});
    if (word != words.end()) canvas.fitted({"word", {}}, {cell.x + 4 * u, cell.bottom() + 20 * u}, word->text, {size, theme.ink}, plan.cell_w - 8 * u - (both ? time_width + 8 * u : 0), 0.8);
  }
  return {view.width, view.height, theme.panel, std::move(canvas.marks)};
}

// ---- one sound

Scene compose_shape(Tracer& tracer, const Pose& pose, const Sound& sound, const ShapeView& view) {
  const Theme& theme = view.theme ? *view.theme : light_theme();
  const double u = std::min(view.width / 1000, view.height / 720);
  StageView s;
  s.theme = &theme;
  s.rect = {0, 0, view.width, view.height};
  s.u = u;
  s.mirrored = view.mirrored;
  const bool large = 14.5 * u >= least_text_px && view.width > view.height * 0.9;
  s.labels = large ? Labelling::all : Labelling::none;
  s.sound_now = u > 0.25;
  s.shelf = s.peephole = 12.5 * u >= 6;
  if (!large && !s.shelf) s.framing = Framing::close;
  s.shadows = u > 0.2;
  s.line_scale = u < 0.4 ? 0.8 : 1.3;
  if (view.transparent) s.backdrop = clear;
  StagePicture picture = compose_pose_stage(tracer, pose, &sound, s);
  Scene scene{view.width, view.height, view.transparent ? clear : theme.panel, {}};
  scene.marks.emplace_back(std::move(picture.group));
  return scene;
}

} // namespace mw
