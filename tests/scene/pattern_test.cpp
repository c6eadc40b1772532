#include "scene/pattern_chart.h"
#include "support/scene_take.h"

#include "scene/pattern_pen.h"
#include "text/shaper.h"

#include <algorithm>
#include <functional>
#include <set>

using namespace mw;

namespace {

// our own lines: out of step, swaps in all lanes, near twins, long, without a pattern, one syllable
const std::vector<std::string> phrases{"ˈtɪn ˈkeɪks ˈkoʊld ˈtɹeɪz ˈɡoʊld ˈkiz",
                                       "ˈpak ðə ˈkap ˈkap ðə ˈpak",
                                       "ˈtɪp ˈkɪp ˈkɪp ˈtɪp",
                                       "ˈsɪks ˈsaʃ ˈskɹuz ˈsɪksθ ˈʃɛlf",
                                       "ˈθɪn ˈtɪn ˈlɪd ˈfɪts ˈðɪs ˈdɪʃ",
                                       "ˈpɪt ˈbɪt ˈpɪd ˈbɪt ˈpɪd ˈbɪt ˈpɪd ˈbɪt ˈsɪp ˈʃɪp ˈsɪp ˈʃɪp ˈsɪp ˈʃɪp",
                                       "ˈlamps ˈoʊ.və",
                                       "ˈspɹɪŋ"};

void each_mark(const std::vector<Mark>& marks, const std::function<void(const Mark&)>& f) {
  for (const Mark& m : marks) {
    f(m);
    if (const auto* g = std::get_if<Group>(&m)) each_mark(g->marks, f);
  }
}
Rect box_of(const Text& t) {
  const double width = text_width(t.text, t.size, t.bold), x = t.at.x - (t.anchor == Anchor::middle ? width / 2 : t.anchor == Anchor::end ? width : 0);
  return {x, t.at.y - 0.7 * t.size, width, 0.72 * t.size}; // heights of x and of capitals, not of marks
}
bool touches(const Rect& a, const Rect& b, double by = 0.5) { return a.x + by < b.right() && b.x + by < a.right() && a.y + by < b.bottom() && b.y + by < a.bottom(); }
std::set<std::string> groups(const PatternPicture& p, const std::string& role) {
  std::set<std::string> ids;
  each_mark(p.group.marks, [&](const Mark& m) { if (const auto* g = std::get_if<Group>(&m); g && g->mark.role == role && !g->marks.empty()) ids.insert(g->mark.id); });
  return ids;
}
Colour over(Colour top, Colour under) {
  const float a = top.a;
  return {top.r * a + under.r * (1 - a), top.g * a + under.g * (1 - a), top.b * a + under.b * (1 - a), 1};
}

// the panels of the four window sizes, and a picture's
const std::vector<std::pair<Vec2, double>> panels{{{918, 552}, 1}, {{698, 600}, 1}, {{778, 392}, 0.95}, {{1377, 828}, 1.5}, {{1280, 720}, 1.2}};

void each_picture(const std::function<void(const Take&, const ShownPattern&, const PatternView&, const PatternPicture&)>& f) {
  for (const std::string& phrase : phrases)
    for (const bool loop : {false, true}) {
      Take take = take_of_ipa(phrase);
      take.request.loop = loop;
      const ShownPattern shown = pattern_of(take);
      for (const auto& [size, u] : panels) {
        PatternView view;
        view.rect = {10, 20, size.x, size.y}, view.u = u, view.pattern = &shown;
        const std::size_t pages = pattern_pages(take, shown.pattern, pattern_columns(size.x, u)).size();
        for (std::size_t page = 0; page < pages; ++page) {
          INFO(phrase, " loop ", loop, " width ", size.x, " page ", page);
          view.page = page;
          f(take, shown, view, compose_pattern(take, view));
        }
      }
    }
}

} // namespace

TEST_CASE("pattern chart: every sound of the take has its card on exactly one page, in a column of its syllable") {
  for (const std::string& phrase : phrases) {
    const Take take = take_of_ipa(phrase);
    const ShownPattern shown = pattern_of(take);
    PatternView view;
    view.rect = {0, 0, 600, 552}, view.pattern = &shown;
    std::multiset<std::size_t> cards;
    const auto pages = pattern_pages(take, shown.pattern, pattern_columns(600, 1));
    for (std::size_t page = 0; page < pages.size(); ++page) {
      CHECK(pages[page].count() <= pattern_columns(600, 1));
      view.page = page;
      for (const PatternHit& hit : compose_pattern(take, view).hits)
        if (hit.part == PatternPart::card) cards.insert(hit.index);
    }
    CHECK(cards.size() == take.track.segments.size());
    CHECK(std::set<std::size_t>(cards.begin(), cards.end()).size() == cards.size());
  }
}

TEST_CASE("pattern chart: what the pattern holds is drawn, or waits for a reason that the design names") {
  std::size_t drawn = 0, waits = 0;
  each_picture([&](const Take&, const ShownPattern& shown, const PatternView&, const PatternPicture& p) {
    const auto bridges = groups(p, "pattern-bridge"), links = groups(p, "pattern-link"), flags = groups(p, "pattern-flag");
    for (const std::size_t i : p.choice.shown) {
      ++drawn;
      const PatternFinding& f = shown.findings[i];
      const std::string id = std::to_string(i);
      if (f.told.kind == ClashKind::swap) CHECK(bridges.contains(id));
      if (f.told.kind == ClashKind::near_twins) CHECK(links.contains(id));
      if (f.told.kind == ClashKind::near_twins || f.told.kind == ClashKind::out_of_step) CHECK(flags.contains(id));
    }
    for (const std::size_t i : p.choice.waiting) { // it shares a place with one that goes before, or two links stand already
      ++waits;
      const PatternFinding& f = shown.findings[i];
      int rivals = 0, same_card = 0;
      for (const std::size_t k : p.choice.shown) {
        const PatternFinding& o = shown.findings[k];
        if (o.told.kind != f.told.kind || !(stands_in(o, f.slot) || stands_in(f, o.slot))) continue;
        ++rivals;
        const auto [a0, a1] = std::minmax_element(f.columns.begin(), f.columns.end());
        const auto [b0, b1] = std::minmax_element(o.columns.begin(), o.columns.end());
        same_card += *a0 <= *b1 && *b0 <= *a1;
        CHECK(o.told.level >= f.told.level);
      }
      CHECK((same_card > 0 || rivals >= 2));
      CHECK((f.told.kind == ClashKind::swap || f.told.kind == ClashKind::near_twins));
    }
  });
  CHECK(drawn > 100);
  CHECK(waits > 5);
}

TEST_CASE("pattern chart: in a lane at most two links and no two bridges over one place") {
  each_picture([](const Take&, const ShownPattern& shown, const PatternView&, const PatternPicture& p) {
    for (const Slot slot : all_slots) {
      int links = 0;
      std::vector<std::pair<std::size_t, std::size_t>> spans;
      for (const std::size_t i : p.choice.shown) {
        const PatternFinding& f = shown.findings[i];
        links += f.told.kind == ClashKind::near_twins && f.slot == slot;
        if (f.told.kind != ClashKind::swap || !stands_in(f, slot)) continue;
        const auto [a, b] = std::minmax_element(f.columns.begin(), f.columns.end());
        for (const auto& [from, to] : spans) CHECK((*b < from || *a > to));
        spans.emplace_back(*a, *b);
      }
      CHECK(links <= 2);
    }
  });
}

TEST_CASE("pattern chart: everything that can be pointed at, and all text, stays inside the panel") {
  each_picture([](const Take&, const ShownPattern&, const PatternView& view, const PatternPicture& p) {
    const Rect r = inset(view.rect, -1);
    const auto inside = [&](const Rect& box) { return box.x >= r.x && box.right() <= r.right() && box.y >= r.y && box.bottom() <= r.bottom(); };
    for (const PatternHit& hit : p.hits) CHECK(inside(hit.rect));
    each_mark(p.group.marks, [&](const Mark& m) {
      if (const auto* t = std::get_if<Text>(&m)) { INFO(t->text); CHECK(inside(box_of(*t))); }
    });
  });
}

TEST_CASE("pattern chart: no text stands on another, and none on a flag") {
  each_picture([](const Take&, const ShownPattern&, const PatternView&, const PatternPicture& p) {
    std::vector<Text> texts;
    std::vector<Rect> flags;
    each_mark(p.group.marks, [&](const Mark& m) {
      if (const auto* t = std::get_if<Text>(&m)) texts.push_back(*t);
      if (const auto* f = std::get_if<Fill>(&m); f && f->mark.role == "flag") {
        const auto [low, high] = bounds(f->path);
        flags.push_back({low.x, low.y, high.x - low.x, high.y - low.y});
      }
    });
    for (std::size_t i = 0; i < texts.size(); ++i) {
      for (std::size_t j = i + 1; j < texts.size(); ++j) {
        INFO(texts[i].text, " and ", texts[j].text);
        CHECK_FALSE(touches(box_of(texts[i]), box_of(texts[j])));
      }
      for (const Rect& flag : flags) {
        INFO(texts[i].text, " at ", texts[i].at.x, ",", texts[i].at.y, " flag ", flag.x, ",", flag.y);
        CHECK_FALSE(touches(box_of(texts[i]), flag));
      }
    }
  });
}

TEST_CASE("pattern chart: letters keep 4.5 and signs 3 to 1 on their cards and strips, in every theme") {
  for (const std::string_view name : theme_names()) {
    const Theme& theme = **find_theme(name);
    INFO(name);
    for (const ArticulatorRow& row : articulator_rows()) {
      const auto [paper, sign] = card_colours(theme, row.articulator);
      CHECK(contrast(theme.ink, paper) >= 4.5);
      CHECK(contrast(sign, paper) >= 3.0);
      CHECK(contrast(theme.of(row.articulator), theme.panel) >= 3.0);
    }
    CHECK(contrast(theme.ink, theme.select) >= 4.5);
    CHECK(contrast(theme.quiet, over(with_alpha(theme.ground, 0.5), theme.panel)) >= 4.5);
  }
}

TEST_CASE("pattern chart: strips are as long as the lane's period, the first begins it in bold") {
  const Take take = take_of_ipa(phrases[0]);
  PatternView view;
  view.rect = {0, 0, 918, 552};
  const ShownPattern shown = pattern_of(take);
  view.pattern = &shown;
  std::size_t bold = 0, all = 0;
  each_mark(compose_pattern(take, view).group.marks, [&](const Mark& m) {
    if (const auto* t = std::get_if<Text>(&m); t && t->mark.role == "strip-sound") ++all, bold += t->bold;
  });
  std::size_t runs = 0, items = 0;
  for (const auto& lanes : strip_lanes(shown.pattern))
    for (const StripLane& strip : lanes) runs += (strip.lane->syllables.size() + strip.lane->period - 1) / strip.lane->period, items += strip.lane->items.size();
  CHECK(runs > 2);
  CHECK(bold == runs);
  CHECK(all == items);
}

TEST_CASE("pattern chart: only one articulator's cards are kept when asked, and pointing dims the rest to 45 %") {
  const Take take = take_of_ipa(phrases[4]);
  const ShownPattern shown = pattern_of(take);
  REQUIRE_FALSE(shown.findings.empty());
  PatternView view;
  view.rect = {0, 0, 918, 552}, view.pattern = &shown, view.only = Articulator::lips;
  for (const PatternHit& hit : compose_pattern(take, view).hits)
    if (hit.part == PatternPart::card) CHECK(facts_of(take.track.segments[hit.index].sound).articulator == Articulator::lips);
  view.only.reset(), view.pointed = 0;
  const auto sounds = sounds_of(shown, shown.findings[0]);
  std::size_t cards = 0;
  each_mark(compose_pattern(take, view).group.marks, [&](const Mark& m) {
    const auto* g = std::get_if<Group>(&m);
    if (!g || g->mark.role != "card") return;
    ++cards;
    const bool its = std::count(sounds.begin(), sounds.end(), std::stoul(g->mark.id)) > 0;
    CHECK(g->opacity == doctest::Approx(its ? 1 : 0.45));
  });
  CHECK(cards == take.track.segments.size());
}

TEST_CASE("pattern chart: without a pattern it says so; one syllable has lanes and no sentence; nothing gives nothing") {
  const auto said = [](const Take& take) {
    PatternView view;
    view.rect = {0, 0, 918, 552};
    bool found = false;
    each_mark(compose_pattern(take, view).group.marks, [&](const Mark& m) { if (const auto* t = std::get_if<Text>(&m)) found = found || t->text == "Nothing repeats here within six syllables."; });
    return found;
  };
  CHECK(said(take_of_ipa(phrases[6])));
  CHECK_FALSE(said(take_of_ipa(phrases[7])));
  CHECK_FALSE(said(take_of_ipa(phrases[0])));
  Take nothing = take_of_ipa("ɑ");
  nothing.track.segments.clear();
  CHECK(compose_pattern(nothing, {}).group.marks.empty());
}

TEST_CASE("pattern sheet: any size gives a picture with all of its text inside") {
  for (const std::string& phrase : phrases)
    for (const auto& [w, h] : {std::pair{64.0, 64.0}, {64.0, 2000.0}, {1280.0, 720.0}, {720.0, 1280.0}, {3000.0, 300.0}}) {
      const Take take = take_of_ipa(phrase);
      const Scene scene = compose_pattern_sheet(take, {.width = w, .height = h});
      INFO(phrase, " ", w, "x", h);
      CHECK(scene.marks.size() >= 1);
      each_mark(scene.marks, [&](const Mark& m) {
        if (const auto* t = std::get_if<Text>(&m)) {
          INFO(t->text);
          CHECK(box_of(*t).right() <= w + 1);
          CHECK(t->at.y <= h + 1);
        }
      });
    }
}
