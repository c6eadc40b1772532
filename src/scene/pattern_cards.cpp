#include "scene/pattern_pen.h"
#include "scene/signs.h"

#include "base/text.h"
#include "clash/features.h"
#include "text/shaper.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace mw {
namespace {

constexpr double card_u = 54, narrow_u = 36; // a card's step; below the second its glyph stands over the letter

bool has(const std::vector<std::size_t>& list, std::size_t i) { return std::find(list.begin(), list.end(), i) != list.end(); }

bool is_kept(const PatternPen& pen, const PatternCard& card) {
  return !pen.view.only || card.articulator == *pen.view.only || card.also == pen.view.only;
}

Polyline arch(double x, double y, double half, double height) {
  Polyline line;
  for (int i = 0; i <= 12; ++i) {
    const double a = std::numbers::pi * i / 12;
    line.push_back({x + half * std::cos(a), y - height * std::sin(a)});
  }
  return line;
}
Polyline wave(double x, double y, double half, double height, double turns) {
  Polyline line;
  for (int i = 0; i <= 36; ++i) {
    const double t = -1 + i / 18.0;
    line.push_back({x + half * t, y - height * std::sin(turns * t)});
  }
  return line;
}
Polyline cup(double x, double y, double half, double depth) {
  Polyline line;
  for (int i = 0; i <= 16; ++i) {
    const double t = -1 + i / 8.0;
    line.push_back({x + half * t, y - 0.67 * depth + depth * (1 - t * t)});
  }
  return line;
}

/// How the way is narrowed, at the foot of a card: bar shut, wave hissing, bar with arch nasal, broken bar with hooks round
/// the sides, cup open, bar and wave shut then hissing, short bar a tap, three short bars a trill.
void draw_manner(Canvas& canvas, Manner manner, Vec2 c, double half, Colour colour, double u) {
  const MarkId id{"manner", std::string{manner_word(manner)}};
  const double thick = 4.4 * u, thin = 2.4 * u;
  const auto bar = [&](double from, double to) { canvas.line(id, {c.x + from * half, c.y}, {c.x + to * half, c.y}, colour, thick); };
  const auto line = [&](const Polyline& points, double width) { canvas.stroke(id, smooth_path(points, false), colour, width); };
  switch (manner) {
    case Manner::stop: bar(-1, 1); return;
    case Manner::fricative: line(wave(c.x, c.y, half, 2.6 * u, 9.4), thin); return;
    case Manner::affricate: bar(-1, -0.15), line(wave(c.x + 0.52 * half, c.y, half * 0.48, 2.6 * u, 4.7), thin); return;
    case Manner::nasal: bar(-1, 1), line(arch(c.x, c.y - 3 * u, half * 0.5, 5 * u), 2 * u); return;
    case Manner::lateral:
      bar(-0.42, 0.42);
      for (const double side : {-1.0, 1.0})
        canvas.stroke(id, line_path({{c.x + side * half * 0.78, c.y - 4 * u}, {c.x + side * half, c.y}, {c.x + side * half * 0.78, c.y + 3.4 * u}}, false), colour, 2 * u);
      return;
    case Manner::approximant: line(cup(c.x, c.y - 1 * u, half, 6 * u), thin); return;
    case Manner::tap: bar(-0.3, 0.3); return;
    case Manner::trill:
      for (const double q : {-0.75, 0.0, 0.75}) bar(q - 0.12, q + 0.12);
      return;
    case Manner::vowel: return;
  }
}

struct CardPlace { Rect rect; std::size_t seed = 0; };

/// Cards of a slot side by side about the middle of their column.
std::vector<CardPlace> card_places(const PatternPen& pen, std::size_t column, Slot slot) {
  const auto& cards = pen.pattern().syllables[column].at(slot);
  const PatternRow& row = pen.at.row(slot);
  std::vector<CardPlace> out;
  const double n = static_cast<double>(cards.size()), u = pen.u();
  const double step = std::min(card_u * u, (pen.at.column - 8 * u) / std::max(n, 1.0)), left = pen.at.x(static_cast<double>(column)) - step * n / 2;
  for (std::size_t i = 0; i < cards.size(); ++i)
    out.push_back({{left + static_cast<double>(i) * step + 1.5 * u, row.cards, step - 3 * u, row.card_height}, column * 5 + i + (slot == Slot::coda ? 100 : 0)});
  return out;
}

void draw_consonant(Canvas& canvas, const PatternPen& pen, const PatternCard& card, const CardPlace& place, bool lit) {
  const double u = pen.u();
  const Rect r = place.rect;
  const auto [ground, hue] = card_colours(pen.theme, card.articulator);
  const Path paper = paper_path(r, u, place.seed);
  const MarkId id{"card", card.ipa};
  canvas.fill(id, paper, ground);
  canvas.stroke(id, paper, lit ? pen.theme.action : hue, (lit ? 2.6 : 1.6) * u);
  const bool narrow = r.width < narrow_u * u;
  const double glyph = std::min(6 * u, r.width * 0.14);
  // letter left and glyph right; in a narrow card the glyph stands above
  const double middle = r.y + (r.height - 14 * u) * (narrow ? 0.66 : 0.55), shift = narrow ? 0 : 6.5 * u, room = narrow ? r.width - 4 * u : r.width - 24 * u;
  const double size = fitting_size(card.ipa, std::min(25 * u, r.height * 0.46), true, room, 0.55);
  canvas.text_middle({"card-sound", card.ipa}, {r.centre().x - shift, middle}, card.ipa, {size, pen.theme.ink, true, Anchor::middle});
  const Vec2 sign = narrow ? Vec2{r.centre().x, r.y + 8 * u} : Vec2{r.right() - 11 * u, middle};
  canvas.add(draw_articulator(card.articulator, sign, glyph, hue));
  if (card.also && !narrow) canvas.add(draw_articulator(*card.also, sign - Vec2{0, 2.4 * glyph}, glyph * 0.8, card_colours(pen.theme, *card.also).sign));
  draw_manner(canvas, card.manner, {r.centre().x, r.bottom() - 9 * u}, (r.width - 16 * u) / 2, hue, u);
}

void draw_nucleus(Canvas& canvas, const PatternPen& pen, const PatternCard& card, Rect r, std::size_t seed, bool lit) {
  const double u = pen.u();
  const Path paper = paper_path(r, u, seed);
  const MarkId id{"card", card.ipa};
  const bool consonant = card.manner != Manner::vowel;
  const Colour hue = pen.theme.of(card.articulator);
  canvas.fill(id, paper, pen.theme.raised);
  canvas.stroke(id, paper, lit ? pen.theme.action : hue, (lit ? 2.6 : 1.4) * u);
  const double size = fitting_size(card.ipa, std::min(24 * u, r.height * 0.66), true, r.width - (consonant ? 26 : 8) * u, 0.55);
  canvas.text_middle({"card-sound", card.ipa}, {r.centre().x - (consonant ? 7 * u : 0), r.centre().y}, card.ipa, {size, pen.theme.ink, true, Anchor::middle});
  if (consonant) canvas.add(draw_articulator(card.articulator, {r.right() - 13 * u, r.centre().y}, 6 * u, hue));
}

void draw_one(PatternPen& pen, const PatternCard& card, const CardPlace& place, bool nucleus) {
  const bool lit = has(pen.lit, card.segment) || pen.now_sound == card.segment;
  if (!is_kept(pen, card)) {
    pen.canvas.stroke({"card-off", card.ipa}, paper_path(place.rect, pen.u(), place.seed), pen.theme.edge, 0.9 * pen.u(), {1.5 * pen.u(), 3 * pen.u()});
    return;
  }
  Canvas inside;
  if (nucleus) draw_nucleus(inside, pen, card, place.rect, place.seed, lit);
  else draw_consonant(inside, pen, card, place, lit);
  Group group{{"card", to_text(static_cast<int>(card.segment))}};
  group.opacity = pen.view.pointed && !has(pen.pointed, card.segment) ? 0.45 : 1;
  group.marks = std::move(inside.marks);
  pen.canvas.add(std::move(group));
  pen.hit(PatternPart::card, card.segment, place.rect);
}

/// Place on the drawn quadrilateral: top 1 wide, bottom half of it, back edge upright; 1.4 times as wide as high.
Vec2 on_chart(const ChartPlace& p) {
  const double front = 0.5 * (1 - p.height);
  return {1.4 * (front + p.back * (1 - front)), -p.height};
}

/// Where the tongue goes on the vowel chart: forward is left, up is up.
void draw_tongue_arrow(Canvas& canvas, const PatternPen& pen, const PatternSyllable& s, double x) {
  const double u = pen.u(), y = pen.at.tongue;
  const Colour hue = pen.theme.of(Articulator::body);
  const SoundFacts facts = facts_of(pen.take.track.segments[s.nucleus.front().segment].sound);
  const Vec2 way = (on_chart(facts.to) - on_chart(facts.from)) * (62 * u);
  const double length = glm::length(way);
  if (length < 1e-6) return canvas.circle({"glide", "tongue"}, {x, y}, 3 * u, hue);
  // as long as its way, within the room of the cell, and never so short that it has no direction
  const double most = std::min({52 * u, (pen.at.column - 16 * u) / std::max(std::abs(way.x) / length, 0.01), (pen.at.glide_height - 8 * u) / std::max(std::abs(way.y) / length, 0.01)});
  const Vec2 drawn = way / length * std::clamp(length, std::min(20 * u, most), most);
  const bool small = glm::length(drawn) < 25 * u;
  canvas.arrow({"glide", "tongue"}, Vec2{x, y} - drawn / 2.0, Vec2{x, y} + drawn / 2.0, {hue, (small ? 2.4 : 3.4) * u, (small ? 9 : 12) * u});
}

/// Left spreads, right rounds; the lips at both ends where there is room.
void draw_lip_arrow(Canvas& canvas, const PatternPen& pen, const PatternSyllable& s, double x) {
  const double u = pen.u(), y = pen.at.lips, way = s.glide.round;
  const Colour hue = pen.theme.of(Articulator::lips);
  if (std::abs(way) < 1e-6) return canvas.circle({"glide", "lips"}, {x, y}, 3 * u, hue);
  const double d = way > 0 ? 1 : -1, reach = std::min(36 * u, pen.at.column / 2 - 23 * u);
  const bool small = std::abs(way) < 0.05 || reach < 22 * u; // clash/counter_moves: less is no direction that could be felt
  if (small) return canvas.arrow({"glide", "lips"}, {x - d * 11 * u, y}, {x + d * 11 * u, y}, {hue, 2.4 * u, 9 * u});
  const double sign = 7 * u;
  const auto rounding = [](double lips) { return (lips + 1) / 2; };
  canvas.arrow({"glide", "lips"}, {x - d * (reach - 13 * u), y}, {x + d * (reach - 12 * u), y}, {hue, 3.4 * u, 12 * u});
  canvas.add(draw_lip_sign({x - d * reach, y}, sign, rounding(s.lips_from), hue, pen.theme.panel, 1.8 * u));
  canvas.add(draw_lip_sign({x + d * (reach + 1 * u), y}, sign * 1.1, rounding(s.lips_to), hue, pen.theme.panel, 1.8 * u));
}

void draw_glide(PatternPen& pen, std::size_t column) {
  const PatternSyllable& s = pen.pattern().syllables[column];
  if (s.nucleus.empty() || s.nucleus.front().manner != Manner::vowel) return;
  const double x = pen.at.x(static_cast<double>(column));
  Canvas inside;
  const auto kept = [&](Articulator a) { return !pen.view.only || *pen.view.only == a; };
  if (kept(Articulator::body)) draw_tongue_arrow(inside, pen, s, x);
  if (kept(Articulator::lips)) draw_lip_arrow(inside, pen, s, x);
  Group group{{"glide", to_text(static_cast<int>(column))}};
  group.opacity = pen.view.pointed && !has(pen.pointed, s.nucleus.front().segment) ? 0.45 : 1;
  group.marks = std::move(inside.marks);
  pen.canvas.add(std::move(group));
}

} // namespace

CardColours card_colours(const Theme& theme, Articulator articulator) {
  const auto mixed = [](Colour a, Colour b, float share) { return Colour{a.r + (b.r - a.r) * share, a.g + (b.g - a.g) * share, a.b + (b.b - a.b) * share, 1}; };
  const Colour hue = theme.of(articulator);
  CardColours out{mixed(theme.raised, hue, 0.13F), hue};
  for (int i = 1; i <= 20 && contrast(out.sign, out.paper) < 3.1; ++i) out.sign = mixed(hue, theme.ink, 0.05F * static_cast<float>(i));
  return out;
}

Path paper_path(Rect r, double u, std::size_t seed) {
  // a fixed sequence of numbers -1..1 (the constants of Numerical Recipes' quick generator, from memory)
  auto state = static_cast<std::uint32_t>(seed * 2654435761u + 12345u);
  const auto off = [&] {
    state = state * 1664525u + 1013904223u;
    return (static_cast<double>(state >> 8) / 8388608.0 - 1) * 1.3 * u; // visual design of the practice views, section 0
  };
  Polyline corners{{r.x, r.y}, {r.right(), r.y}, {r.right(), r.bottom()}, {r.x, r.bottom()}};
  for (Vec2& corner : corners) {
    const double dx = off();
    corner += Vec2{dx, off()};
  }
  return line_path(corners, true);
}

double card_x(const PatternPen& pen, std::size_t column, Slot slot, std::size_t segment) {
  if (!pen.at.page.holds(column)) return pen.at.x(static_cast<double>(column));
  const auto& cards = pen.pattern().syllables[column].at(slot);
  const auto places = card_places(pen, column, slot);
  for (std::size_t i = 0; i < cards.size(); ++i)
    if (cards[i].segment == segment) return places[i].rect.centre().x;
  return pen.at.x(static_cast<double>(column));
}

void draw_pattern_cards(PatternPen& pen) {
  for (std::size_t c = pen.at.page.first; c <= pen.at.page.last; ++c)
    for (const Slot slot : all_slots) {
      const auto& cards = pen.pattern().syllables[c].at(slot);
      auto places = card_places(pen, c, slot);
      for (std::size_t i = 0; i < cards.size(); ++i) {
        if (slot == Slot::nucleus) { // one wide card
          const double width = std::min(60 * pen.u(), pen.at.column - 12 * pen.u()) / static_cast<double>(cards.size());
          places[i].rect.x = pen.at.x(static_cast<double>(c)) + (static_cast<double>(i) - static_cast<double>(cards.size()) / 2) * width;
          places[i].rect.width = width, places[i].seed = c + 40;
        }
        draw_one(pen, cards[i], places[i], slot == Slot::nucleus);
      }
      if (slot == Slot::nucleus) draw_glide(pen, c);
    }
}

void draw_pattern_key(PatternPen& pen) {
  if (pen.at.key <= 0) return;
  const double u = pen.u(), y = pen.at.key, end = pen.view.rect.right() - 14 * u;
  double x = pen.view.rect.x + 14 * u;
  std::vector<Manner> used;
  for (std::size_t c = pen.at.page.first; c <= pen.at.page.last; ++c)
    for (const Slot slot : {Slot::onset, Slot::coda})
      for (const PatternCard& card : pen.pattern().syllables[c].at(slot))
        if (std::find(used.begin(), used.end(), card.manner) == used.end()) used.push_back(card.manner);
  std::sort(used.begin(), used.end());
  for (const Manner manner : used) {
    const double width = 31 * u + text_width(manner_word(manner), 13 * u) + 16 * u;
    if (manner == Manner::vowel || x + width > end) continue;
    draw_manner(pen.canvas, manner, {x + 13 * u, y + 1 * u}, 11 * u, pen.theme.quiet, u);
    pen.canvas.text_middle({"key", {}}, {x + 31 * u, y}, manner_word(manner), {13 * u, pen.theme.quiet});
    x += width;
  }
  bool bridge = false, dashes = false;
  for (const std::size_t i : pen.picture.choice.shown) bridge = bridge || pen.shown.findings[i].told.kind == ClashKind::swap, dashes = dashes || pen.shown.findings[i].told.kind == ClashKind::near_twins;
  std::vector<std::string> notes;
  if (bridge) notes.emplace_back("bridge: exchanged order");
  if (dashes) notes.emplace_back("dashes: almost the same");
  for (; !notes.empty(); notes.pop_back())
    if (const std::string note = join(notes, " · "); end - text_width(note, 13 * u) > x + 10 * u) return pen.canvas.text_middle({"key", {}}, {end, y}, note, {13 * u, pen.theme.quiet, false, Anchor::end});
}

} // namespace mw
