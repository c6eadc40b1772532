#include "scene/compare_view.h"
#include "support/scene_take.h"
#include "text/shaper.h"

#include <functional>

using namespace mw;

namespace {

constexpr const char* american = "\u02C8\u0261\u026B\u00E6s \u02C8k\u025B\u027E\u026B\u0329z | \u02C8b\u0279\u00E6s \u02C8\u026Be\u026A\u027E\u026B\u0329z f\u0251\u0279";
constexpr const char* british = "\u02C8\u0261l\u0251\u02D0s \u02C8k\u025Bt\u026B\u0329z | \u02C8b\u0279\u0251\u02D0s \u02C8l\u025Bid\u026B\u0329z f\u0251\u02D0";

Comparing two(const std::string& own = american, const std::string& target = british) {
  return compare_takes(std::make_shared<const Take>(take_of_ipa(own)), std::make_shared<const Take>(take_of_ipa(target)));
}

bool overlap(const Rect& a, const Rect& b) { return a.x < b.right() - 1e-6 && b.x < a.right() - 1e-6 && a.y < b.bottom() - 1e-6 && b.y < a.bottom() - 1e-6; }
bool inside(const Rect& a, const Rect& b) { return a.x >= b.x - 1e-6 && a.right() <= b.right() + 1e-6 && a.y >= b.y - 1e-6 && a.bottom() <= b.bottom() + 1e-6; }

void each_mark(const std::vector<Mark>& marks, const std::function<void(const Mark&)>& f) {
  for (const Mark& m : marks) {
    f(m);
    if (const auto* g = std::get_if<Group>(&m)) each_mark(g->marks, f);
  }
}
Rect box_of(const Text& t) {
  const double w = text_width(t.text, t.size, t.bold);
  return {t.at.x - (t.anchor == Anchor::end ? w : t.anchor == Anchor::middle ? w / 2 : 0), t.at.y - 0.7 * t.size, w, 0.75 * t.size};
}
std::vector<Text> texts(const std::vector<Mark>& marks) {
  std::vector<Text> out;
  each_mark(marks, [&](const Mark& m) { if (const auto* t = std::get_if<Text>(&m)) out.push_back(*t); });
  return out;
}
std::size_t count(const std::vector<Mark>& marks, const std::string& role) {
  std::size_t n = 0;
  each_mark(marks, [&](const Mark& m) { n += std::visit([&](const auto& x) { return x.mark.role == role; }, m); });
  return n;
}

} // namespace

TEST_CASE("compare layout: at any size the parts lie inside the room and apart; stages are alike and large") {
  for (double w = 620; w < 2600; w += 83)
    for (double h = 360; h < 2000; h += 71) {
      CAPTURE(w);
      CAPTURE(h);
      const double u = std::clamp(std::min(w / 1260, h / 590), 0.6, 2.5);
      const Rect room{10, 62, w, h};
      const CompareLayout l = lay_out_compare(room, u);
      const std::array parts{l.own, l.target, l.side, l.rows};
      for (std::size_t i = 0; i < parts.size(); ++i) {
        CHECK(inside(parts[i], room));
        CHECK(parts[i].width > 100 * u);
        CHECK(parts[i].height > 90 * u);
        for (std::size_t j = 0; j < i; ++j) CHECK_FALSE(overlap(parts[i], parts[j]));
      }
      CHECK(l.own.width == doctest::Approx(l.target.width));
      CHECK(l.own.height == doctest::Approx(l.target.height));
      CHECK(l.own.x < l.target.x);
    }
}

TEST_CASE("compare rows: slot stands under slot, only what differs is filled and joined, a missing sound leaves an open cell") {
  const Comparing c = two();
  CompareRowsView view;
  view.rect = {10, 500, 1260, 156};
  const auto rows = compose_compare_rows(c, view);
  REQUIRE(rows.cells.size() == c.columns.size());
  for (std::size_t i = 0; i < rows.cells.size(); ++i) {
    CHECK(inside(rows.cells[i].second, view.rect));
    for (std::size_t j = 0; j < i; ++j) CHECK_FALSE(overlap(rows.cells[i].second, rows.cells[j].second));
  }
  std::size_t differ = 0, both = 0, open = 0;
  for (const auto& column : c.columns) {
    differ += !column.same;
    both += !column.same && column.own && column.target;
    open += !column.own || !column.target;
  }
  REQUIRE(open == 1);
  CHECK(count(rows.group.marks, "open-cell") == open);
  CHECK(count(rows.group.marks, "cell") == 2 * (2 * both + open)); // a box is a fill and an edge
  CHECK(count(rows.group.marks, "becomes") == 2 * differ);
  // both sounds of a column stand over each other
  const auto all = texts(rows.group.marks);
  for (const auto& [column, rect] : rows.cells) {
    std::size_t here = 0;
    for (const Text& t : all)
      if (t.mark.role == "sound" && t.at.x > rect.x && t.at.x < rect.right()) {
        ++here;
        CHECK(inside(box_of(t), rect));
      }
    CHECK(here == static_cast<std::size_t>(c.columns[column].own.has_value()) + static_cast<std::size_t>(c.columns[column].target.has_value()));
  }
  CHECK(inside(rows.swap, view.rect));
  for (const Text& t : all) CHECK_FALSE(overlap(rows.swap, box_of(t)));
}

TEST_CASE("compare rows: a long phrase pages at words, and the page shown holds the sound now") {
  std::string own, target;
  for (int i = 0; i < 9; ++i) own += std::string(american) + " ", target += std::string(british) + " ";
  const Comparing c = two(own, target);
  CompareRowsView view;
  view.rect = {8, 400, 784, 122};
  std::size_t seen = 0;
  for (std::size_t page = 0, pages = 1; page < pages; ++page) {
    view.page = page;
    const auto rows = compose_compare_rows(c, view);
    pages = rows.pages;
    CHECK(rows.page == page);
    for (const auto& [column, rect] : rows.cells) {
      CHECK(column == seen++);
      CHECK(inside(rect, view.rect));
      CHECK(rect.width >= 27);
    }
    CHECK(word_of(c, rows.cells.front().first) != "");
  }
  CHECK(seen == c.columns.size());
  view.page.reset();
  for (std::size_t now = 0; now < c.columns.size(); now += 7) {
    view.now = now;
    const auto rows = compose_compare_rows(c, view);
    CHECK(rows.cells.front().first <= now);
    CHECK(rows.cells.back().first >= now);
  }
}

TEST_CASE("compare changes: every differing place is told in exactly one change; what is kept apart is one change, not two") {
  const Comparing c = two();
  std::vector<int> told(c.columns.size());
  for (const Change& change : c.changes) {
    CHECK_FALSE(change.title.empty());
    CHECK_FALSE(change.detail.empty());
    for (const std::size_t i : change.columns) ++told[i];
  }
  for (std::size_t i = 0; i < told.size(); ++i)
    if (!c.columns[i].same) CHECK(told[i] == 1);
  const auto split = std::find_if(c.changes.begin(), c.changes.end(), [](const Change& x) { return x.kind == Change::Kind::split; });
  REQUIRE(split != c.changes.end()); // one tap where the target has t and d
  CHECK(split->columns.size() == 2);
  CHECK(split->shift);
  CHECK(std::count_if(c.changes.begin(), c.changes.end(), [](const Change& x) { return x.kind == Change::Kind::left_out; }) == 1);
  for (std::size_t i = 1; i < c.changes.size(); ++i) CHECK(c.changes[i].weight <= c.changes[i - 1].weight);
  // the other way round the tap joins what was apart
  const Comparing back = two(british, american);
  CHECK(std::any_of(back.changes.begin(), back.changes.end(), [](const Change& x) { return x.kind == Change::Kind::merge; }));
  CHECK(two(british, british).changes.empty());
  CHECK(two(british, british).sets.empty());
}

TEST_CASE("compare changes: the list keeps to its room, at most three, and a row is where its words are") {
  const Comparing c = two();
  REQUIRE(c.changes.size() > 3);
  for (const double height : {60.0, 120.0, 200.0, 500.0}) {
    ChangesView view;
    view.rect = {800, 300, 460, height};
    const auto list = compose_changes(c, view);
    CHECK(list.rows.size() <= 3);
    if (height >= 200) CHECK(list.rows.size() == 3);
    for (std::size_t i = 1; i < list.rows.size(); ++i) CHECK_FALSE(overlap(list.rows[i].second, list.rows[i - 1].second));
    for (const Text& t : texts(list.group.marks)) {
      CHECK(inside(box_of(t), {800, 300, 460, height + 6}));
      CHECK(std::any_of(list.rows.begin(), list.rows.end(), [&](const auto& row) { return inside(box_of(t), row.second); }));
    }
  }
}

TEST_CASE("compare stages: the other tongue as dashes on the own side and dots on the target's, an arrow only where a sound differs") {
  const Comparing c = two();
  Tracer tracer(c.target->anatomy);
  const auto dashes_of = [&](bool target, double t) {
    CompareStageView view;
    view.rect = {0, 0, 386, 424}, view.target = target;
    const auto stage = compose_compare_stage(c, tracer, t, view);
    double first = 0;
    each_mark(stage.group.marks, [&](const Mark& m) {
      if (const auto* s = std::get_if<Stroke>(&m); s && s->mark.role == "ghost" && !s->dashes.empty()) first = s->dashes[0] / s->dashes[1];
    });
    for (const Text& x : texts(stage.group.marks)) CHECK(inside(box_of(x), view.rect));
    return std::pair{first, count(stage.group.marks, "difference")};
  };
  const double differs = moment_of_column(c, 2), same = moment_of_column(c, 3);
  CHECK_FALSE(c.columns[2].same);
  CHECK(c.columns[3].same);
  CHECK(dashes_of(false, differs).first == doctest::Approx(7.0 / 5));
  CHECK(dashes_of(true, differs).first == doctest::Approx(2.0 / 5));
  CHECK(dashes_of(true, differs).second > 0);
  CHECK(dashes_of(true, same).second == 0);
  CHECK(dashes_of(false, differs).second == 0);
}

TEST_CASE("compare picture: all words stay inside at the sizes of screens and paper; the place asked for is the one shown") {
  const Comparing c = two();
  Tracer tracer(c.target->anatomy);
  for (const auto& [w, h] : {std::pair{1280, 720}, std::pair{1024, 768}, std::pair{800, 600}, std::pair{595, 842}, std::pair{1920, 1080}}) {
    CAPTURE(w);
    const Scene scene = compose_compare(c, tracer, {nullptr, static_cast<double>(w), static_cast<double>(h), 7});
    const auto all = texts(scene.marks);
    for (const Text& t : all) {
      CAPTURE(t.text);
      CHECK(inside(box_of(t), {0, 0, scene.width, scene.height}));
    }
    const auto now = [&](const std::string& ipa) { return std::count_if(all.begin(), all.end(), [&](const Text& t) { return t.mark.role == "sound-now" && t.text == ipa; }); };
    REQUIRE(c.columns[7].own);
    CHECK(now(ipa_of(*c.own, *c.columns[7].own)) >= 1);
    CHECK(now(ipa_of(*c.target, *c.columns[7].target)) >= 1);
  }
}
