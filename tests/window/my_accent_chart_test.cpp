#include "window/my_accent_driver.h"

using namespace my_accent_driver;

TEST_CASE("my accent: the vowels before r and the rows for special places are dragged like any other, and keep their r") {
  const Home home;
  auto window = open_view("GA");
  int moved = 0;
  for (const LexicalSet set : {LexicalSet::NEAR, LexicalSet::SQUARE, LexicalSet::START, LexicalSet::NORTH, LexicalSet::FORCE, LexicalSet::CURE, LexicalSet::NURSE}) {
    const std::string name(to_keyword(set));
    CAPTURE(name);
    play(*window, "spot name-" + name + "\nsettle");
    REQUIRE(mine(*window).set == set);
    const SetValue before = mine(*window).accent.of(set);
    drag(*window, "set-" + name, {before.vowel.letter == "\u0251" || before.vowel.letter == "\u0254" ? -60.0 : 60.0, 12});
    const SetValue& now = mine(*window).accent.of(set);
    CHECK_FALSE(now.vowel == before.vowel);
    CHECK(now.r_follows == before.r_follows);
    const auto r_coloured = [](const SetValue& v) { return v.r_follows || v.vowel.letter == "\u025D" || std::count(v.vowel.marks.begin(), v.vowel.marks.end(), std::string("\u02DE")) > 0; };
    CHECK(r_coloured(now) == r_coloured(before));
    ++moved;
  }
  CHECK(moved == 7);
  // GOAT before l has a place of its own in Southern British
  window.reset(); // one window at a time
  const auto british = open_view("SSBE");
  play(*british, "spot name-GOAT\nsettle");
  const auto& rows = mine(*british).accent.contexts[static_cast<std::size_t>(LexicalSet::GOAT)];
  REQUIRE(rows.size() == 1);
  const std::string hold = said(*british);
  drag(*british, "set-GOAT-0", {-80, -20});
  CHECK(saved_changes(*british) == Names{"contexts.GOAT"});
  CHECK(said(*british) != hold); // hold, in the phrase
  play(*british, "spot put-back\nsettle");
  CHECK(said(*british) == hold);
}

TEST_CASE("my accent: a spread and a rounded vowel at one place stand side by side, the rounded one in a ring") {
  const Accent accent = *read_accent("SSBE");
  AccentChartView view;
  view.rect = {0, 0, 690, 500}, view.accent = &accent, view.start = &accent;
  view.shown = {LexicalSet::STRUT, LexicalSet::LOT, LexicalSet::DRESS};
  REQUIRE(vowel_place(accent.of(LexicalSet::STRUT).vowel)->x == vowel_place(accent.of(LexicalSet::LOT).vowel)->x);
  const AccentChart chart = compose_accent_chart(view);
  const auto at = [&](LexicalSet set) { return std::find_if(chart.points.begin(), chart.points.end(), [&](const auto& p) { return p.set == set; })->at; };
  CHECK(at(LexicalSet::LOT).x - at(LexicalSet::STRUT).x >= 14);
  std::vector<Vec2> rings;
  for (const Mark& mark : chart.marks)
    if (const auto* stroke = std::get_if<Stroke>(&mark); stroke && stroke->mark.role == "lip-ring") {
      const auto [low, high] = bounds(stroke->path);
      rings.push_back((low + high) / 2.0);
    }
  REQUIRE(rings.size() == 1);
  CHECK(glm::distance(rings.front(), at(LexicalSet::LOT)) < 1);
}

TEST_CASE("my accent: a new one from any accent, named at once; the source of a value on demand") {
  const Home home;
  const auto window = open_view();
  play(*window, "spot my-accent-menu\nwait 0.1\nspot menu-0\nwait 0.1");
  REQUIRE(window->session().menu);
  const auto& rows = window->session().menu->rows;
  CHECK(rows.size() == window->session().accents.size());
  const auto nz = std::find_if(rows.begin(), rows.end(), [](const auto& row) { return row.note == "NZ"; });
  REQUIRE(nz != rows.end());
  std::string keys = "key home\n";
  for (auto i = rows.begin(); i != nz; ++i) keys += "key down\n";
  play(*window, keys + "key return\nwait 0.3\nkey ctrl+a\ntype Kettle Lane\nkey return\nsettle");
  CHECK(mine(*window).accent.based_on == "NZ");
  CHECK(mine(*window).accent.name == "Kettle Lane");
  CHECK(changes(*read_accent("NZ"), mine(*window).accent) == Names{"id", "name", "status", "based_on"});
  const Pixels before = window->picture();
  play(*window, "spot value-source\nmove 3 500\nsettle");
  CHECK(mine(*window).sources);
  CHECK(changed(*window, before, window->picture(), {700, 60, 300, 260}) > 0.01);
  const SetValue& value = mine(*window).accent.of(mine(*window).set);
  CHECK(told_source(value.source, value.status, value.note).find(value.source) != std::string::npos);
}

TEST_CASE("my accent: starts, ends and the lips of a glide are chosen in its card") {
  const Home home;
  const auto window = open_view();
  play(*window, "spot name-GOAT\nsettle\nspot lips-half\nsettle");
  CHECK(lips_of(*vowel_place(mine(*window).accent.of(LexicalSet::GOAT).vowel)) == Lips::half);
  CHECK(lips_of(*vowel_place(mine(*window).accent.of(LexicalSet::GOAT).vowel, true)) == Lips::round);
  play(*window, "spot glide-ends\nsettle");
  CHECK(mine(*window).end);
  play(*window, "spot lips-spread\nsettle");
  CHECK(lips_of(*vowel_place(mine(*window).accent.of(LexicalSet::GOAT).vowel, true)) == Lips::spread);
  CHECK(saved_changes(*window) == Names{"sets.GOAT"});
}

TEST_CASE("my accent: where points lie together the name that is dragged says which one moves") {
  const Home home;
  const auto window = open_view();
  const Accent start = *read_accent("SSBE");
  REQUIRE(start.of(LexicalSet::lettER).vowel == start.of(LexicalSet::commA).vowel);
  drag(*window, "name-lettER", {-50, 30});
  CHECK(saved_changes(*window) == Names{"sets.lettER"});
  const VowelPlace before = *vowel_place(start.of(LexicalSet::lettER).vowel), after = *vowel_place(mine(*window).accent.of(LexicalSet::lettER).vowel);
  CHECK(after.x < before.x);
  CHECK(after.y > before.y);
}

TEST_CASE("my accent: the five-minute task goes in eight steps of the hand: FOOT and STRUT the same, a tapped r, a GOAT that starts further forward and ends round, seen in the line at once") {
  const Home home;
  const auto window = open("Pull the stove, cut the rusty wood", 1280, 720, "SSBE");
  play(*window, "settle\nkey escape\nsettle");
  int steps = 0;
  const auto hand = [&](const std::string& spot) { play(*window, "spot " + spot + "\nsettle"), ++steps; };
  const auto marked = [&] {
    std::size_t n = 0;
    for (const Sheet& sheet : window->ui().sheets())
      for (const Mark& mark : sheet.scene.marks)
        if (const auto* fill = std::get_if<Fill>(&mark)) n += fill->mark.role == "foot-changed";
    return n;
  };
  hand("screen-My accent");
  CHECK(marked() == 0);
  hand("rule-FOOT_STRUT_split");
  CHECK(marked() == 2); // cut, rusty
  play(*window, "spot rule-r_realisation\nwait 0.1"), ++steps;
  const auto& rows = window->session().menu->rows;
  const auto tap = std::find_if(rows.begin(), rows.end(), [](const auto& row) { return row.text == "tap"; });
  REQUIRE(tap != rows.end());
  hand("menu-" + std::to_string(tap - rows.begin()));
  CHECK(marked() == 3); // and the r of rusty
  drag(*window, "set-GOAT", {-80, 0}), ++steps;
  CHECK(mine(*window).set == LexicalSet::GOAT);
  CHECK(marked() == 4); // and stove
  hand("glide-ends");
  hand("lips-round");
  hand("screen-Mouth");
  CHECK(steps <= 8);
  const Accent made = *read_accent(window->session().request.accent), start = *read_accent("SSBE");
  CHECK(made.based_on == "SSBE");
  CHECK(same_vowel(made.of(LexicalSet::STRUT).vowel, made.of(LexicalSet::FOOT).vowel));
  CHECK(made.rule("r_realisation") == "tap");
  CHECK(vowel_place(made.of(LexicalSet::GOAT).vowel)->x < vowel_place(start.of(LexicalSet::GOAT).vowel)->x - 0.1);
  CHECK(lips_of(*vowel_place(made.of(LexicalSet::GOAT).vowel, true)) == Lips::round);
  CHECK(window->session().take->accent->id == made.id);
}
