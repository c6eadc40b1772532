#include "scene/accent_picture.h"
#include "scene/chart_labels.h"
#include "text/shaper.h"

#include <doctest/doctest.h>

#include <functional>
#include <random>
#include <set>

using namespace mw;

namespace {

bool overlap(const Rect& a, const Rect& b) { return a.x < b.right() && b.x < a.right() && a.y < b.bottom() && b.y < a.bottom(); }

void each_mark(const std::vector<Mark>& marks, const std::function<void(const Mark&)>& f) {
  for (const Mark& m : marks) {
    f(m);
    if (const auto* g = std::get_if<Group>(&m)) each_mark(g->marks, f);
  }
}

std::vector<std::pair<std::string, Rect>> label_boxes(const Scene& scene) {
  std::vector<std::pair<std::string, Rect>> out;
  each_mark(scene.marks, [&](const Mark& m) {
    const auto* t = std::get_if<Text>(&m);
    if (t && t->mark.role == "set-label") out.emplace_back(t->text, Rect{t->at.x - (t->anchor == Anchor::end ? text_width(t->text, t->size, t->bold) : 0), t->at.y - 0.75 * t->size, text_width(t->text, t->size, t->bold), 0.8 * t->size});
  });
  return out;
}

} // namespace

TEST_CASE("chart labels: sixty labels on random points stay inside and apart, whatever stands in their way") {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> x(60, 940), y(40, 560);
  for (int round = 0; round < 5; ++round) {
    LabelField field{{0, 0, 1000, 600}, {}, {}};
    std::vector<LabelWish> wishes;
    for (int i = 0; i < 60; ++i) {
      wishes.push_back({{"THOUGHT"}, {x(random), y(random)}, 13.5, true});
      field.boxes.push_back({wishes.back().point.x - 6, wishes.back().point.y - 6, 12, 12});
      if (i % 3 == 0) field.lines.emplace_back(wishes.back().point, Vec2{x(random), y(random)});
    }
    const auto placed = place_labels(wishes, field, 1);
    REQUIRE(placed.size() == wishes.size());
    for (std::size_t i = 0; i < placed.size(); ++i) {
      const Rect& box = placed[i].box;
      CHECK((box.x >= 0 && box.right() <= 1000 && box.y >= 0 && box.bottom() <= 600));
      CHECK(box.width >= text_width("THOUGHT", 13.5, true));
      for (std::size_t j = 0; j < i; ++j) CHECK_FALSE(overlap(box, placed[j].box));
    }
  }
}

TEST_CASE("chart labels: alone, a label stands right beside its point; hemmed in, a leader joins the two") {
  const LabelField open{{0, 0, 400, 300}, {}, {}};
  const auto near = place_labels({{{"KIT"}, {200, 150}, 13.5, true}}, open, 1).front();
  CHECK_FALSE(near.led);
  CHECK(near.box.x - 200 == doctest::Approx(9).epsilon(0.01));
  LabelField hemmed = open;
  hemmed.boxes.push_back({150, 110, 100, 80});
  const auto far = place_labels({{{"KIT"}, {200, 150}, 13.5, true}}, hemmed, 1).front();
  REQUIRE(far.led);
  CHECK_FALSE(overlap(far.box, hemmed.boxes.front()));
  CHECK(glm::distance(far.from, Vec2{200, 150}) == doctest::Approx(7));
}

TEST_CASE("chart labels: length of a line inside a box") {
  CHECK(length_inside({0, 0, 10, 10}, {-5, 5}, {15, 5}) == doctest::Approx(10));
  CHECK(length_inside({0, 0, 10, 10}, {2, 2}, {5, 6}) == doctest::Approx(5));
  CHECK(length_inside({0, 0, 10, 10}, {-5, 12}, {15, 12}) == 0);
  CHECK(length_inside({0, 0, 10, 10}, {20, 20}, {30, 30}) == 0);
}

TEST_CASE("accent picture: every set of every accent is named once, no label touches another, alone and beside its neighbour in the list") {
  const auto accents = list_accents();
  REQUIRE(accents.has_value());
  for (std::size_t i = 0; i < accents->size(); ++i) {
    const auto accent = read_accent((*accents)[i].id), next = read_accent((*accents)[(i + 1) % accents->size()].id);
    REQUIRE((accent.has_value() && next.has_value()));
    for (const Accent* other : {static_cast<const Accent*>(nullptr), &*next}) {
      CAPTURE(accent->id);
      const Scene scene = compose_accent_picture(*accent, other, {});
      const auto boxes = label_boxes(scene);
      std::multiset<std::string> named;
      for (std::size_t a = 0; a < boxes.size(); ++a) {
        CAPTURE(boxes[a].first);
        for (std::size_t at = 0; at <= boxes[a].first.size();) { // "LOT, CLOTH" names two
          const std::size_t end = std::min(boxes[a].first.find(", ", at), boxes[a].first.size());
          named.insert(boxes[a].first.substr(at, end - at));
          at = end + 2;
        }
        CHECK((boxes[a].second.x >= 0 && boxes[a].second.right() <= scene.width && boxes[a].second.y >= 0 && boxes[a].second.bottom() <= scene.height));
        for (std::size_t b = 0; b < a; ++b) CHECK_FALSE_MESSAGE(overlap(boxes[a].second, boxes[b].second), boxes[b].first);
      }
      std::size_t expected = sets_of(*accent).size();
      if (other) expected += differing_sets(*accent, *other).size();
      CHECK(named.size() == expected);
    }
  }
}

TEST_CASE("accent picture: an accent beside itself has no second sets; one beside another only those that move") {
  const auto ssbe = read_accent("SSBE"), ga = read_accent("GA");
  REQUIRE((ssbe.has_value() && ga.has_value()));
  CHECK(differing_sets(*ssbe, *ssbe).empty());
  const auto moved = differing_sets(*ssbe, *ga);
  CHECK(moved.size() < static_cast<std::size_t>(lexical_set_count));
  for (const ChartSet& set : moved) {
    const auto keyword = parse_keyword(set.label);
    REQUIRE(keyword);
    CHECK(ssbe->of(*keyword).ipa != ga->of(*keyword).ipa);
    CHECK(set.look == ChartSet::Look::second);
  }
}
