#include "app/actions.h"
#include "app/layout.h"

#include <SDL_keycode.h>
#include <doctest/doctest.h>

#include <array>
#include <set>

using namespace mw;
using namespace mw::app;

namespace {

bool overlap(Rect a, Rect b) { return a.x < b.right() && b.x < a.right() && a.y < b.bottom() && b.y < a.bottom(); }

} // namespace

TEST_CASE("layout: at any size the panels lie inside the window and apart") {
  for (int w = 800; w <= 3840; w += 97)
    for (int h = 600; h <= 2160; h += 83) {
      CAPTURE(w);
      CAPTURE(h);
      const Layout l = lay_out(w, h);
      std::vector<Rect> panels{l.top, l.stage, l.score, l.why, l.transport};
      if (l.fold == Fold::full) panels.push_back(l.vowels);
      for (std::size_t i = 0; i < panels.size(); ++i) {
        CHECK(panels[i].x >= 0);
        CHECK(panels[i].y >= 0);
        CHECK(panels[i].right() <= w);
        CHECK(panels[i].bottom() <= h);
        CHECK(panels[i].width > 200);
        CHECK(panels[i].height > 40);
        for (std::size_t j = 0; j < i; ++j) CHECK_FALSE(overlap(panels[i], panels[j]));
      }
    }
}

TEST_CASE("layout: the three sizes of the design fold as the design says, and 4K is three times 720p") {
  CHECK(lay_out(1280, 720).fold == Fold::full);
  CHECK(lay_out(1280, 720).u == 1);
  CHECK(lay_out(1920, 1080).fold == Fold::full);
  CHECK(lay_out(1920, 1080).u == 1.5);
  CHECK(lay_out(1024, 768).fold == Fold::middle);
  CHECK(lay_out(800, 600).fold == Fold::small);
  CHECK(lay_out(800, 600).u == 0.95);
  CHECK(lay_out(3840, 2160).u == 2.5);
}

TEST_CASE("layout: larger text folds as if the window were smaller") {
  CHECK(lay_out(1280, 720, 1.25).fold != Fold::full);
  CHECK(lay_out(1280, 720, 1.25).u == 1.25);
}

TEST_CASE("keys: no two rows of a place answer to one key, every row has words, every key does what its row says") {
  std::set<std::tuple<KeyPlace, int, bool, bool>> seen;
  for (const KeyRow& row : key_rows()) {
    CAPTURE(row.label);
    CHECK(seen.insert({row.place, row.code, row.shift, row.control}).second);
    CHECK_FALSE(row.label.empty());
    CHECK_FALSE(row.does.empty());
    if (row.place == KeyPlace::my_accent) { // told here, read by its view
      CHECK(row.action == Action::none);
      continue;
    }
    const KeyRow* found = find_key({row.code, row.shift, row.control, false}, row.place == KeyPlace::compare ? Screen::compare : Screen::mouth);
    REQUIRE(found);
    CHECK(found->action == row.action);
    if (row.place == KeyPlace::anywhere) CHECK(found == &row);
    CHECK(find_key({row.code, row.shift, row.control, true}) == nullptr);
  }
  CHECK(find_key({SDLK_z, false, false, false}) == nullptr);
}

TEST_CASE("keys: what is switched on by a key goes off by the same key or by Esc") {
  for (const auto action : {Action::cover, Action::spot_tip, Action::key_sheet}) {
    Session session;
    const View before = session.view;
    act(session, action);
    CHECK(session.view != before);
    Session other = session;
    act(session, action);
    CHECK(session.view == before);
    act(other, Action::leave);
    CHECK(other.view == before);
  }
}
