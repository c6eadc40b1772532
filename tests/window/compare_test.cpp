#include "window/driver.h"

#include "app/compare.h"
#include "app/playback.h"

#include <algorithm>

using namespace driver;

namespace {

const Comparing& comparing(const Window& window) {
  REQUIRE(window.session().compare);
  REQUIRE(window.session().compare->comparing);
  return *window.session().compare->comparing;
}

std::unique_ptr<Window> opened(int width = 1280, int height = 720) {
  auto window = open("Glass kettles, brass ladles", width, height);
  play(*window, "settle");
  if (window->layout().fold == Fold::full) play(*window, "spot screen-Compare\nsettle");
  else { // a list of the views
    play(*window, "spot screen\nsettle");
    const auto& rows = window->session().menu->rows;
    const auto at = std::find_if(rows.begin(), rows.end(), [](const Menu::Row& row) { return row.text == "Compare"; });
    REQUIRE(at != rows.end());
    play(*window, "spot menu-" + std::to_string(at - rows.begin()) + "\nsettle");
  }
  return window;
}

std::size_t first_differing(const Comparing& c) {
  for (std::size_t i = 0; i < c.columns.size(); ++i)
    if (!c.columns[i].same) return i;
  return 0;
}

} // namespace

TEST_CASE("compare view: the second take is made beside the first, and both mouths stand at one moment") {
  const auto window = opened();
  const Comparing& c = comparing(*window);
  CHECK(c.target == window->session().take);
  CHECK(c.target->request.accent == "SSBE");
  CHECK(c.own->request.accent == "GA"); // no learner chosen: another accent than the target's
  CHECK(c.own->request.phrase == c.target->request.phrase);
  CHECK(window->session().request.learner.empty());
  CHECK_FALSE(c.changes.empty());
}

TEST_CASE("compare view: choosing a cell goes to its moment; arrows go sound by sound") {
  const auto window = opened();
  const Comparing& c = comparing(*window);
  const std::size_t at = first_differing(c);
  play(*window, "spot column-" + std::to_string(at) + "\nsettle");
  CHECK(column_at(c.columns, window->session().view.time_s) == at);
  CHECK(window->session().view.time_s == doctest::Approx(moment_of_column(c, at)));
  const Pixels before = window->picture();
  play(*window, "key right\nsettle");
  CHECK(column_at(c.columns, window->session().view.time_s) == at + 1);
  CHECK(changed(*window, before, window->picture(), {10, 110, 386, 370}) > 0.003);
  CHECK(changed(*window, before, window->picture(), {406, 110, 386, 370}) > 0.003);
}

TEST_CASE("compare view: choosing a change loops its place slowly, and again goes on to the next") {
  const auto window = opened();
  const Comparing& c = comparing(*window);
  const auto twice = std::find_if(c.changes.begin(), c.changes.end(), [](const Change& change) { return change.columns.size() > 1; });
  REQUIRE(twice != c.changes.end());
  REQUIRE(twice - c.changes.begin() < 3);
  const std::string spot = "spot change-" + std::to_string(twice - c.changes.begin());
  play(*window, spot + "\nwait 0.2");
  const View first = window->session().view;
  REQUIRE(first.loop_span);
  CHECK(first.playing);
  CHECK(first.slow >= 3);
  const CompareColumn& place = c.columns[twice->columns.front()];
  CHECK(first.loop_span->first < place.target_from_s);
  CHECK(first.loop_span->second > place.target_to_s);
  CHECK(first.loop_span->second - first.loop_span->first < 0.7);
  play(*window, spot + "\nwait 0.2");
  REQUIRE(window->session().view.loop_span);
  CHECK(window->session().view.loop_span->second > c.columns[twice->columns.back()].target_to_s);
  play(*window, "key space\nkey escape\nsettle");
  CHECK_FALSE(window->session().view.loop_span);
}

TEST_CASE("compare view: the learner is chosen from the list; swap turns both round; the window stays live meanwhile") {
  const auto window = opened();
  play(*window, "spot learner\nsettle");
  REQUIRE(window->session().menu);
  const auto& accents = window->session().accents;
  const auto nz = std::find_if(accents.begin(), accents.end(), [](const AccentName& a) { return a.id == "NZ"; });
  REQUIRE(nz != accents.end());
  const auto row = static_cast<int>(nz - accents.begin());
  const int now = window->session().menu->at;
  std::string keys;
  for (int i = now; i < row; ++i) keys += "key down\n";
  for (int i = now; i > row; --i) keys += "key up\n";
  play(*window, keys + "key return\nsettle");
  CHECK(window->session().request.learner == "NZ");
  CHECK(comparing(*window).own->request.accent == "NZ");
  CHECK(comparing(*window).target == window->session().take);
  play(*window, "spot swap-accents\nsettle");
  CHECK(comparing(*window).own->request.accent == "SSBE");
  CHECK(comparing(*window).target->request.accent == "NZ");
  CHECK(window->session().request.learner == "SSBE");
}

TEST_CASE("compare view: all changes, then the few again; a new line is compared as soon as it is made") {
  const auto window = opened();
  REQUIRE(comparing(*window).changes.size() > 3);
  CHECK(window->ui().find("change-3") == nullptr);
  play(*window, "spot all-changes\nsettle");
  CHECK(window->ui().find("change-3") != nullptr);
  play(*window, "spot all-changes\nsettle");
  CHECK(window->ui().find("change-3") == nullptr);
  play(*window, "key ctrl+l\ntype  and tins\nkey return\nsettle");
  CHECK(comparing(*window).target == window->session().take);
  CHECK(comparing(*window).own->request.phrase == window->session().take->request.phrase);
}

TEST_CASE("compare view: on every size its spots lie inside the window and apart, and the view paints over the one before") {
  for (const auto& [w, h] : {std::pair{1280, 720}, std::pair{1024, 768}, std::pair{800, 600}}) {
    CAPTURE(w);
    const auto window = opened(w, h);
    std::vector<const Spot*> mine;
    for (const Spot& spot : window->ui().spots()) {
      CHECK(spot.rect.x >= 0);
      CHECK(spot.rect.right() <= w + 0.5);
      if (spot.id.starts_with("column-") || spot.id == "swap-accents" || spot.id == "learner" || spot.id.starts_with("change-") || spot.id == "all-changes") mine.push_back(&spot);
    }
    CHECK(mine.size() > 20);
    for (std::size_t i = 0; i < mine.size(); ++i)
      for (std::size_t j = 0; j < i; ++j) {
        const Rect a = mine[i]->rect, b = mine[j]->rect;
        CHECK_FALSE_MESSAGE((a.x < b.right() - 0.5 && b.x < a.right() - 0.5 && a.y < b.bottom() - 0.5 && b.y < a.bottom() - 0.5), mine[i]->id << " " << mine[j]->id);
      }
    play(*window, "move 3 300\nsettle"); // no tip
    const Pixels before = window->picture();
    play(*window, "key h\nsettle");
    CHECK(changed(*window, before, window->picture(), window->layout().whole) > 0.1); // covered
    play(*window, "key h\nsettle");
    CHECK(changed(*window, before, window->picture(), window->layout().whole) == 0);
  }
}

TEST_CASE("compare view: the accent of the own side chosen as the target as well is taken, and another stands beside it") {
  const auto window = opened();
  REQUIRE(comparing(*window).own->request.accent == "GA");
  play(*window, "spot accent\nsettle");
  REQUIRE(window->session().menu);
  const auto& accents = window->session().accents;
  const auto ga = std::find_if(accents.begin(), accents.end(), [](const AccentName& a) { return a.id == "GA"; });
  REQUIRE(ga != accents.end());
  std::string keys = "key home\n";
  for (auto i = accents.begin(); i != ga; ++i) keys += "key down\n";
  play(*window, keys + "key return\nsettle");
  CHECK(window->session().take->request.accent == "GA");
  CHECK(comparing(*window).target->request.accent == "GA");
  CHECK(comparing(*window).own->request.accent == "SSBE");
}

TEST_CASE("compare view: X changes the accents round, Y opens the learner's list, N goes from difference to difference") {
  const auto window = opened();
  play(*window, "key home\nsettle");
  std::vector<std::size_t> places;
  for (int i = 0; i < 3; ++i) {
    play(*window, "key n\nsettle");
    const auto now = column_at(comparing(*window).columns, window->session().view.time_s);
    REQUIRE(now);
    CHECK_FALSE(comparing(*window).columns[*now].same);
    if (!places.empty()) CHECK(*now > places.back());
    places.push_back(*now);
  }
  play(*window, "key shift+n\nsettle");
  CHECK(column_at(comparing(*window).columns, window->session().view.time_s) == places[1]);
  play(*window, "key x\nsettle");
  CHECK(comparing(*window).own->request.accent == "SSBE");
  CHECK(comparing(*window).target->request.accent == "GA");
  play(*window, "key y\nwait 0.1");
  REQUIRE(window->session().menu);
  CHECK(window->session().menu->id == "learner");
  play(*window, "key escape\nsettle");
}

TEST_CASE("compare view: presented, both mouths and what changes fill the wall, nothing smaller than a thirtieth of the height, nothing to click but the sounds") {
  for (const auto& [w, h] : {std::pair{1280, 720}, std::pair{1024, 768}, std::pair{800, 600}}) {
    CAPTURE(w);
    const auto window = opened(w, h);
    const Pixels plain = window->picture();
    play(*window, "key n\nkey p\nsettle");
    CHECK(window->session().view.presenting);
    CHECK(changed(*window, plain, window->picture(), window->layout().whole) > 0.3);
    const auto small = [&](const auto& self, const std::vector<Mark>& marks) -> std::string {
      for (const Mark& mark : marks) {
        if (const auto* group = std::get_if<Group>(&mark))
          if (const auto found = self(self, group->marks); !found.empty()) return found;
        if (const auto* text = std::get_if<Text>(&mark); text && text->size < h / 30.0 - 0.01) return text->text;
      }
      return "";
    };
    for (const Sheet& sheet : window->ui().sheets()) CHECK(small(small, sheet.scene.marks) == "");
    for (const Spot& spot : window->ui().spots()) CHECK(spot.id.starts_with("column-"));
    const auto own = comparing(*window).own->request.accent;
    const Pixels before = window->picture();
    play(*window, "key x\nsettle");
    CHECK(comparing(*window).target->request.accent == own);
    CHECK(changed(*window, before, window->picture(), window->layout().whole) > 0.02);
    play(*window, "key right\nsettle\nkey b\nwait 0.4\nkey b\nwait 0.4\nkey escape\nsettle");
    CHECK_FALSE(window->session().view.presenting);
  }
}

TEST_CASE("compare view: words that are one in the learner's accent and two in the target are told whole, and the reverse when the accents change places") {
  auto window = open("Fine, find the kettle");
  play(*window, "settle\nspot screen-Compare\nsettle\nkey y\nwait 0.1\nkey j\nkey return\nsettle");
  REQUIRE(window->session().request.learner == "JAM");
  const auto told = [&](Change::Kind kind) {
    const auto& changes = comparing(*window).changes;
    return std::find_if(changes.begin(), changes.end(), [&](const Change& c) { return c.kind == kind && c.title.starts_with("fine and find"); });
  };
  const auto split = told(Change::Kind::split);
  REQUIRE(split != comparing(*window).changes.end());
  CHECK(split->shift);
  CHECK(split->detail.find("say the d") != std::string::npos);
  // told once: the d is not told again as a sound more
  for (const Change& c : comparing(*window).changes) CHECK((c.kind != Change::Kind::added || c.columns != std::vector<std::size_t>{split->columns.back()}));
  play(*window, "key x\nsettle");
  const auto merge = told(Change::Kind::merge);
  REQUIRE(merge != comparing(*window).changes.end());
  CHECK(merge->detail.find("leave the d") != std::string::npos);
}

TEST_CASE("compare view: an accent of one's own is set beside the one it began as") {
  const auto window = open("Glass kettles");
  play(*window, "settle\nspot screen-My accent\nsettle\nspot rule-TRAP_BATH_split\nsettle\nspot screen-Compare\nsettle");
  CHECK(comparing(*window).target->request.accent.starts_with("your-"));
  CHECK(comparing(*window).own->request.accent == "SSBE");
}
