#include "scene/sheet.h"

#include "base/text.h"
#include "scene/describe.h"
#include "scene/score_panel.h"
#include "scene/signs.h"
#include "text/shaper.h"

#include <algorithm>
#include <set>

namespace mw {
namespace {

constexpr double margin = 40, content_width = 515.3; // pt, visual design section 11
const char* const caution = "Warm up gently, stay quiet, sip water, rest; stop if it hurts. Hoarseness that lasts: see a doctor. A model, not a medical picture.";

/// Heights of the parts on each paper: Letter is 50 pt shorter than A4, and every row gives some.
struct SheetHeights { double moment, gap, catches, lanes, foot; };
SheetHeights heights_of(Paper paper) {
  if (paper == Paper::letter) return {113, 6, 116, 106, 776};
  return {127, 8, 128, 118, 824};
}

/// Up to eight moments: sounds in clashes first, then those whose articulator is new, kept in order of time.
std::vector<std::size_t> key_moments(const Take& take) {
  const auto& s = take.track.segments;
  std::vector<std::size_t> wanted;
  const auto add = [&](std::size_t i) {
    if (i < s.size() && wanted.size() < 8 && std::find(wanted.begin(), wanted.end(), i) == wanted.end()) wanted.push_back(i);
  };
  for (std::size_t c = 0; c < std::min<std::size_t>(take.clashes.size(), 2); ++c)
    for (const std::size_t i : take.clashes[c].segments) add(i);
  std::set<std::string> seen;
  for (const std::size_t i : wanted) seen.insert(to_ipa(s[i].sound));
  for (std::size_t i = 0; i < s.size(); ++i)
    if (seen.insert(to_ipa(s[i].sound)).second) add(i);
  for (std::size_t i = 0; i < s.size(); ++i) add(i);
  std::sort(wanted.begin(), wanted.end());
  return wanted;
}

struct SheetPen {
  const Take& take;
  Tracer& tracer;
  const SheetView& view;
  const Theme& theme;
  double width, left;
  SheetHeights h;
  Canvas canvas{};

  [[nodiscard]] double right() const { return left + content_width; }
  void text(Vec2 at, const std::string& words, double size, bool bold = false, Anchor anchor = Anchor::start) { canvas.text({"sheet", {}}, at, words, {size, theme.ink, bold, anchor}); }

  double draw_head() {
    canvas.add(draw_logo(theme, {left + 8, 42}, 7));
    text({left + 22, 46}, "Mouthwright handout", 9.5);
    text({right(), 46}, "Name ____________________   Date __________", 9.5, false, Anchor::end);
    const double size = fitting_size(take.request.phrase, 28, true, content_width, 16.0 / 28);
    double y = 84;
    std::vector<std::string> lines = wrap_text(take.request.phrase, size, true, content_width);
    if (lines.size() > 2) lines.resize(2), lines[1] = cut_text(lines[1] + " \u2026", size, true, content_width);
    for (std::size_t i = 0; i < lines.size(); ++i) text({left, lines.size() == 1 ? y : y - 6 + static_cast<double>(i) * 1.15 * size}, lines[i], size, true);
    if (lines.size() == 2) y += 1.15 * size - 6;
    std::string ipa, spelled;
    for (const Word& w : take.pronunciation.words) {
      ipa += (ipa.empty() ? "" : " ") + to_ipa(w) + (w.group_end ? " |" : "");
      spelled += (spelled.empty() ? "" : "   ") + respell(w);
    }
    if (ipa.ends_with(" |")) ipa.resize(ipa.size() - 2);
    std::string accent = take.accent ? take.accent->name : take.request.accent;
    if (const auto note = accent.find(" ("); note != std::string::npos && text_width(accent, 11) > content_width * 0.42) accent.resize(note); // its bracket goes first
    const double accent_width = std::min(text_width(accent, 11), content_width * 0.42);
    const double ipa_size = fitting_size(ipa, 19, false, content_width - accent_width - 14, 11.0 / 19);
    if (text_width(ipa, ipa_size) > content_width - accent_width - 14) { // long: over two lines of its own
      const auto rows = wrap_text(ipa, 12, false, content_width - accent_width - 14);
      for (std::size_t i = 0; i < std::min<std::size_t>(rows.size(), 2); ++i) text({left, y + 20 + 13 * static_cast<double>(i)}, rows[i], 12);
    } else text({left, y + 27}, ipa, ipa_size);
    canvas.fitted({"accent", {}}, {right(), y + 25}, accent, {11, theme.ink, false, Anchor::end}, accent_width, 0.7);
    const double source_width = view.source.empty() ? 0 : text_width(view.source, 9.5) + 14;
    canvas.fitted({"respelling", {}}, {left, y + 47}, spelled, {12.5, theme.ink}, content_width - source_width, 0.7);
    if (!view.source.empty()) text({right(), y + 45}, view.source, 9.5, false, Anchor::end);
    canvas.line({"rule", {}}, {left, y + 58}, {right(), y + 58}, theme.ink, 1.2);
    return y + 67;
  }

  [[nodiscard]] StageView window(Rect cell, double line) const {
    StageView s;
    s.theme = &theme;
    s.rect = cell;
    s.u = 1;
    s.line_scale = line;
    s.framing = Framing::small;
    s.shadows = false, s.detail = false, s.sound_now = s.shelf = s.peephole = false;
    s.air = std::nullopt;
    s.arrow_u = 0.64;
    s.tag_size = 18;
    return s;
  }
  void draw_window(Rect cell, double t, const StageView& s, double radius) {
    Group clipped{{"window", {}}};
    clipped.clip = rounded_rectangle({cell.x, cell.y}, {cell.width, cell.height}, radius);
    clipped.marks.emplace_back(compose_stage(take, tracer, t, s).group);
    canvas.add(std::move(clipped));
  }

  void draw_moment(Rect cell, std::size_t segment, int number) {
    const Rect picture{cell.x, cell.y, cell.width, cell.height - 25};
    StageView s = window({picture.x + 2, picture.y - 6, picture.width + 6, picture.height + 8}, 0.62);
    draw_window(picture, moment_of(take, segment), s, 5);
    canvas.box({"window", {}}, picture, 5, clear, theme.edge, 0.8);
    const std::string ipa = ipa_of(take, segment);
    text({cell.x + 9, picture.bottom() - 10}, ipa, fitting_size(ipa, 24, true, 40, 0.5), true);
    const SoundWords words = describe_sound(take.track.segments[segment].sound);
    text({cell.x + 2, cell.bottom() - 13}, to_text(number), 9.5, true);
    canvas.fitted({"moment", {}}, {cell.x + 13, cell.bottom() - 13}, words.what, {9.5, theme.ink, true}, cell.width - 13);
    canvas.fitted({"moment", {}}, {cell.x + 13, cell.bottom() - 2}, words.detail, {9, theme.ink}, cell.width - 13);
  }
  double draw_moments(double y) {
    const auto moments = key_moments(take);
    const double gap = 9, w = (content_width - 3 * gap) / 4;
    for (std::size_t n = 0; n < moments.size(); ++n)
      draw_moment({left + static_cast<double>(n % 4) * (w + gap), y + static_cast<double>(n / 4) * (h.moment + h.gap), w, h.moment}, moments[n], static_cast<int>(n) + 1);
    return y + 2 * (h.moment + h.gap);
  }

  void draw_catch(Rect box, std::size_t index) {
    const Clash& c = take.clashes[index];
    canvas.box({"catch", {}}, box, 6, clear, theme.ink, 1.1);
    const Rect picture{box.x + 0.8, box.y + 0.8, 132, box.height - 1.6};
    StageView s = window({picture.x - 2, picture.y - 6, picture.width + 6, picture.height + 10}, 0.72);
    s.band_depth_mm = 11;
    s.lit = Lit{index, 1};
    draw_window(picture, 0.5 * (c.start_s + c.end_s), s, 5);
    const double x = box.x + 140, w = box.width - 146;
    canvas.add(draw_flag(theme, c.kind, c.level, true, {x + 8, box.y + 15}, 8.5));
    std::string title{learner_name(c.kind)};
    const auto sounds = sounds_of(take, c);
    if (c.kind == ClashKind::tug && sounds.size() == 2) title += ": " + sounds[0] + " into " + sounds[1];
    else if (!sounds.empty()) title += ": " + join(sounds, " ");
    canvas.fitted({"catch", {}}, {x + 22, box.y + 19}, title, {10.5, theme.ink, true}, w - 22, 0.75);
    const std::string feel = sentence(c.feel);
    double size = 9.8; // Feel it is never cut: the words shrink together until they fit
    const auto lines = [&](double k) { return wrap_text(c.text, k, false, w).size() + wrap_text(feel, k, false, w).size() + 1; };
    while (size > 7 && static_cast<double>(lines(size)) * size * 1.3 > box.height - 36) size -= 0.2;
    double y = box.y + 26;
    for (const std::string& line : wrap_text(c.text, size, false, w)) text({x, y + size}, line, size), y += size * 1.3;
    y += 3;
    text({x, y + size}, "Feel it", size, true);
    y += size * 1.3;
    for (const std::string& line : wrap_text(feel, size, false, w)) text({x, y + size}, line, size), y += size * 1.3;
  }
  double draw_catches(double y) {
    text({left, y + 14}, "Where it catches", 14, true);
    y += 23;
    const double w = (content_width - 12) / 2;
    if (take.clashes.empty()) {
      canvas.box({"catch", {}}, {left, y, content_width, 30}, 6, clear, theme.edge, 0.8);
      canvas.text_middle({"catch", {}}, {left + 12, y + 15}, "Nothing in this phrase pulls one part of the mouth two ways.", {10.5, theme.ink});
    }
    for (std::size_t i = 0; i < std::min<std::size_t>(take.clashes.size(), 2); ++i) draw_catch({left + static_cast<double>(i) * (w + 12), y, w, h.catches}, i);
    return y + h.catches;
  }

  void draw_score(Rect rect, std::optional<std::size_t> page) {
    ScoreView s;
    s.theme = &theme;
    s.rect = {left - 6, rect.y, content_width + 10, rect.height};
    s.u = 0.62;
    s.gutter = 104, s.word = 17, s.sound = 22, s.load = 0;
    s.lanes = {Articulator::lips, Articulator::tip, Articulator::body, Articulator::root, Articulator::glottis};
    s.time_pill = false;
    s.page = page;
    canvas.add(compose_score_panel(take, s).group);
  }
  double draw_lanes(double y, std::size_t pages) {
    text({left, y + 14}, "Who moves when", 14, true);
    text({right(), y + 14}, pages > 1 ? "goes on overleaf" : "hatched boxes: two moves pull on one part of the mouth", 9.5, false, Anchor::end);
    draw_score({left, y + 19, content_width, h.lanes}, pages > 1 ? std::optional<std::size_t>{0} : std::nullopt);
    return y + 19 + h.lanes;
  }

  void draw_practice(double y) {
    canvas.line({"rule", {}}, {left, y}, {right(), y}, theme.rule, 0.8);
    y += 8;
    const double w = (content_width - 24) / 3;
    text({left, y + 8}, "Build it from the end", 11.5, true);
    const auto words = shown_words(take);
    const std::size_t steps = std::min<std::size_t>(words.size(), 4);
    for (std::size_t i = 0; i < steps; ++i) {
      // the steps share the words evenly; the last one is the whole phrase
      const std::size_t from = words.size() - (i + 1 == steps ? words.size() : (words.size() * (i + 1) + steps - 1) / steps);
      std::string line;
      for (std::size_t k = from; k < words.size(); ++k) line += (line.empty() ? "" : " ") + words[k].text;
      const double row = y + 17 + static_cast<double>(i) * 15;
      canvas.box({"tick-box", {}}, {left + 0.5, row, 9, 9}, 2, clear, theme.ink, 0.9);
      canvas.fitted({"step", {}}, {left + 16, row + 8}, line, {10.5, theme.ink}, w - 16, 0.8);
    }
    const double x = left + w + 12;
    text({x, y + 8}, "Ladder", 11.5, true);
    for (int i = 0; i < 5; ++i) {
      const Rect stair{x + i * 30, y + 48 - i * 9, 26, 17};
      canvas.box({"stair", {}}, stair, 3, clear, theme.ink, 1);
      canvas.text_middle({"stair", {}}, stair.centre(), to_text(i + 2), {10.5, theme.ink, false, Anchor::middle});
    }
    text({x, y + 78}, "syllables a second; up after three clean goes", 8.4);
    const double x3 = left + 2 * (w + 12);
    text({x3, y + 8}, "Then cover the picture", 11.5, true);
    canvas.paragraph({"cover", {}}, {x3, y + 13}, "Say it once while you look, once with your eyes shut, once to a friend who listens.", {10.5, theme.ink}, w);
  }
  void draw_foot() { canvas.fitted({"caution", {}}, {left, h.foot}, caution, {8.4, theme.ink}, content_width, 0.8); }
};

Scene on_paper(Paper paper, const Theme& theme, std::vector<Mark> marks) {
  const Vec2 size = paper_size(paper);
  const Colour ground = theme.name == "print" ? Colour{1, 1, 1, 1} : theme.panel;
  if (paper != Paper::a3) return {size.x, size.y, ground, std::move(marks)};
  Group larger{{"sheet", {}}}; // A3 is A4 drawn 1.414 times as large
  larger.a = larger.d = size.x / paper_size(Paper::a4).x;
  larger.marks = std::move(marks);
  return {size.x, size.y, ground, {Mark{std::move(larger)}}};
}

} // namespace

Vec2 paper_size(Paper paper) {
  switch (paper) { // ISO 216, ANSI Letter
    case Paper::letter: return {612, 792};
    case Paper::a3: return {841.89, 1190.55};
    case Paper::a4: break;
  }
  return {595.28, 841.89};
}

std::vector<Scene> compose_sheet(const Take& take, Tracer& tracer, const SheetView& view) {
  const Theme& theme = view.theme ? *view.theme : print_theme();
  const double width = view.paper == Paper::letter ? 612 : 595.28;
  SheetPen pen{take, tracer, view, theme, width, (width - content_width) / 2, heights_of(view.paper)};
  const auto pages = pages_of(take);
  double y = pen.draw_head();
  const double over = std::max(y - 151, 0.0); // a title of two lines: every row gives some of the room
  pen.h.moment -= over * 0.3, pen.h.catches -= over * 0.2, pen.h.lanes -= over * 0.2;
  y = pen.draw_moments(y);
  y = pen.draw_catches(y - 1);
  y = pen.draw_lanes(y + 7, pages.size());
  pen.draw_practice(y + 6);
  pen.draw_foot();
  std::vector<Scene> out{on_paper(view.paper, theme, std::move(pen.canvas.marks))};
  // the rest of a long phrase's score, five rows a page
  constexpr std::size_t rows = 5;
  for (std::size_t first = 1; first < pages.size(); first += rows) {
    pen.canvas = {};
    pen.text({pen.left, 46}, "Who moves when, continued", 14, true);
    pen.canvas.fitted({"title", {}}, {pen.right(), 46}, take.request.phrase, {9.5, theme.ink, false, Anchor::end}, content_width * 0.6, 0.85);
    for (std::size_t i = first; i < std::min(first + rows, pages.size()); ++i)
      pen.draw_score({pen.left, 62 + static_cast<double>(i - first) * (pen.h.lanes + 28), content_width, pen.h.lanes}, i);
    pen.draw_foot();
    out.push_back(on_paper(view.paper, theme, std::move(pen.canvas.marks)));
  }
  return out;
}

} // namespace mw
