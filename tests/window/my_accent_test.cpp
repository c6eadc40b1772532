#include "window/my_accent_driver.h"

using namespace my_accent_driver;

TEST_CASE("my accent: GOAT dragged, a rule switched, a slider moved: saved at once, heard at once, taken back step by step") {
  const Home home;
  const auto window = open_view();
  const std::string shipped = said(*window);
  const Accent start = *read_accent("SSBE");

  // a vowel: the first edit makes a copy
  drag(*window, "set-GOAT", {150, -40});
  CHECK(window->session().request.accent == "your-southern-british");
  CHECK(saved_changes(*window) == Names{"sets.GOAT"});
  CHECK(mine(*window).set == LexicalSet::GOAT);
  const VowelPlace before = *vowel_place(start.of(LexicalSet::GOAT).vowel), after = *vowel_place(mine(*window).accent.of(LexicalSet::GOAT).vowel);
  CHECK(after.x > before.x + 0.2);
  CHECK(after.y < before.y);
  CHECK(vowel_place(mine(*window).accent.of(LexicalSet::GOAT).vowel, true) == vowel_place(start.of(LexicalSet::GOAT).vowel, true));
  const std::string dragged = said(*window);
  CHECK(dragged != shipped);
  CHECK(window->session().take->accent->id == "your-southern-british");

  // a rule
  play(*window, "spot rule-TRAP_BATH_split\nsettle");
  CHECK(saved_changes(*window) == Names{"sets.BATH", "sets.GOAT", "rules.TRAP_BATH_split"});
  const std::string ruled = said(*window);
  CHECK(ruled != dragged);

  // a slider
  drag(*window, "posture-jaw_opening_mm", {60, 0});
  CHECK(saved_changes(*window) == Names{"sets.BATH", "sets.GOAT", "rules.TRAP_BATH_split", "posture.jaw_opening_mm"});

  // each drag is one step back
  play(*window, "key ctrl+z\nsettle");
  CHECK(saved_changes(*window) == Names{"sets.BATH", "sets.GOAT", "rules.TRAP_BATH_split"});
  play(*window, "key ctrl+z\nsettle");
  CHECK(saved_changes(*window) == Names{"sets.GOAT"});
  CHECK(said(*window) == dragged);
  play(*window, "key ctrl+z\nsettle");
  CHECK(saved_changes(*window).empty());
  CHECK(said(*window) == shipped);
  play(*window, "key ctrl+y\nkey ctrl+y\nsettle");
  CHECK(said(*window) == ruled);
  // the shipped file is as it was, and its accent sounds as it did
  CHECK(*read_accent("SSBE") == start);
}

TEST_CASE("my accent: a click moves nothing, and a vowel let go where it was is no edit") {
  const Home home;
  const auto window = open_view();
  for (const char* id : {"name-FACE", "set-FACE-end", "name-DRESS", "set-DRESS"}) {
    play(*window, "spot " + std::string(id) + "\nsettle");
    CHECK(mine(*window).past.empty());
  }
  // the point of DRESS is that of SQUARE and of the start of FACE: clicks go through them, what glides first
  CHECK(mine(*window).set == LexicalSet::SQUARE);
  play(*window, "spot set-SQUARE\nsettle");
  CHECK(mine(*window).set == LexicalSet::FACE);
  CHECK(mine(*window).past.empty());
  CHECK(window->session().request.accent == "SSBE");
  CHECK_FALSE(fs::exists(home.accents));
}

TEST_CASE("my accent: arrows, shift and R move the set in hand; Tab goes on to the next") {
  const Home home;
  const auto window = open_view();
  play(*window, "spot name-KIT\nsettle\nkey shift+right\nsettle");
  CHECK(mine(*window).past.empty()); // a two hundredth is not yet another letter
  REQUIRE(mine(*window).place);
  const VowelPlace began = *vowel_place(read_accent("SSBE")->of(LexicalSet::KIT).vowel);
  CHECK(mine(*window).place->x == doctest::Approx(began.x + 1.0 / 200));
  for (int i = 0; i < 6; ++i) play(*window, "key down");
  play(*window, "settle");
  CHECK(mine(*window).place->y == doctest::Approx(began.y + 6.0 / 40));
  CHECK(vowel_place(mine(*window).accent.of(LexicalSet::KIT).vowel)->y > began.y + 0.08);
  CHECK(saved_changes(*window).front() == "sets.KIT");
  play(*window, "key r\nsettle");
  CHECK(lips_of(*vowel_place(mine(*window).accent.of(LexicalSet::KIT).vowel)) == Lips::half);
  play(*window, "key r\nsettle");
  CHECK(lips_of(*vowel_place(mine(*window).accent.of(LexicalSet::KIT).vowel)) == Lips::round);
  const LexicalSet first = mine(*window).set;
  play(*window, "key tab\nsettle");
  CHECK((mine(*window).set != first || mine(*window).end));
  CHECK(window->ui().focused().starts_with("set-"));
}

TEST_CASE("my accent: one set dropped on another becomes one with it, and the rule says so; put back parts them") {
  const Home home;
  const auto window = open_view();
  play(*window, "spot chip-short\nsettle");
  const Vec2 foot = window->ui().find("set-FOOT")->rect.centre(), strut = window->ui().find("set-STRUT")->rect.centre();
  // STRUT is not rounded here and FOOT is: lips first
  play(*window, "spot name-STRUT\nkey r\nkey r\nsettle");
  drag(*window, "set-STRUT", foot - strut);
  const Accent& now = mine(*window).accent;
  CHECK(now.of(LexicalSet::STRUT).vowel == now.of(LexicalSet::FOOT).vowel);
  CHECK(now.rule("FOOT_STRUT_split") == "no");
  play(*window, "spot put-back\nsettle");
  CHECK(mine(*window).accent.rule("FOOT_STRUT_split") == "yes");
  CHECK(mine(*window).accent.of(LexicalSet::STRUT) == mine(*window).start.of(LexicalSet::STRUT));
}

TEST_CASE("my accent: each switch and each value of each menu changes its own rule and what says the same, nothing else") {
  const Home home;
  const auto window = open_view();
  play(*window, "spot all-rules\nsettle");
  int tried = 0;
  for (const char* rule : {"rhotic", "h_dropping", "FOOT_STRUT_split", "linking_r", "COT_CAUGHT_merger"}) {
    CAPTURE(rule);
    const Accent before = mine(*window).accent;
    play(*window, "spot rule-" + std::string(rule) + "\nsettle");
    for (const std::string& what : changes(before, mine(*window).accent)) {
      if (what == "id" || what == "name" || what == "status" || what == "based_on") continue;
      CAPTURE(what);
      const bool own = what == "rules." + std::string(rule);
      const bool follows = said_by_vowels(before, rule).has_value() && (what.starts_with("sets.") || (what.starts_with("rules.") && said_by_vowels(before, what.substr(6)) != said_by_vowels(mine(*window).accent, what.substr(6))));
      CHECK((own || follows));
    }
    CHECK(mine(*window).accent.rule(rule) != before.rule(rule));
    ++tried;
  }
  CHECK(tried == 5);
  // more than two answers: a menu
  play(*window, "spot rule-l_quality\nwait 0.1");
  REQUIRE(window->session().menu);
  CHECK(window->session().menu->rows.size() == 3);
  play(*window, "spot menu-2\nsettle");
  CHECK(mine(*window).accent.rule("l_quality") == "dark everywhere");
  play(*window, "spot rule-t_flapping-more\nwait 0.1\nspot menu-2\nsettle");
  CHECK(mine(*window).accent.rule("t_flapping") == "variable");
}

TEST_CASE("my accent: what differs in the phrase is marked under it, and nothing when nothing was changed") {
  const Home home;
  const auto window = open_view();
  const auto marked = [&] {
    std::vector<std::string> out;
    for (const Sheet& sheet : window->ui().sheets())
      for (const Mark& mark : sheet.scene.marks)
        if (const auto* fill = std::get_if<Fill>(&mark); fill && fill->mark.role == "foot-changed") out.push_back(fill->mark.id);
    return out;
  };
  CHECK(marked().empty());
  play(*window, "spot rule-TRAP_BATH_split\nsettle");
  // glass and brass
  CHECK(marked() == Names{"a", "a"});
  play(*window, "key ctrl+z\nsettle");
  CHECK(marked().empty());
  // another accent from the menu: it is said, and set beside itself
  play(*window, "spot accent\nwait 0.1\nkey home\nkey return\nsettle");
  CHECK(window->session().take->request.accent == window->session().accents.front().id);
  CHECK(mine(*window).accent.id == window->session().accents.front().id);
  CHECK(marked().empty());
  play(*window, "spot rule-TRAP_BATH_split\nsettle");
  CHECK(marked().size() == 2);
}

TEST_CASE("my accent: a name is written in place; Esc leaves the old one; menus list it") {
  const Home home;
  const auto window = open_view();
  play(*window, "spot my-accent-name\nwait 0.2\nkey ctrl+a\ntype Kettle Lane\nkey return\nsettle");
  CHECK(mine(*window).accent.name == "Kettle Lane");
  CHECK(read_accent(window->session().request.accent)->name == "Kettle Lane");
  CHECK(window->session().accents.back().name == "Kettle Lane");
  CHECK(window->session().accents.back().status == "yours");
  CHECK(window->session().request.phrase == phrase);
  play(*window, "spot my-accent-name\nwait 0.2\ntype xyz\nkey escape\nsettle");
  CHECK(mine(*window).accent.name == "Kettle Lane");
  CHECK_FALSE(window->session().naming);
}

TEST_CASE("my accent: a file broken by hand is told in the card; the picture stays, and the last good one comes back") {
  const Home home;
  Accent good = copy_of(*read_accent("GA"), "lane", "Lane");
  good = with_vowel(good, LexicalSet::FACE, parse_set_value("e\u02D0")->vowel);
  REQUIRE(save_own_accent(good).has_value());
  const auto window = open_view("SSBE");
  const auto take = window->session().take;
  std::ofstream(home.accents / "lane.toml") << "id = \"lane\"\nname = \"Lane\"\nstatus = 3\n";
  play(*window, "spot accent\nwait 0.1\nkey end\nkey return\nsettle");
  CHECK(window->session().request.accent == "lane");
  REQUIRE(mine(*window).problem);
  CHECK(mine(*window).problem->where.ends_with("lane.toml line 3"));
  CHECK(window->session().take == take);
  CHECK(mine(*window).accent.id == "SSBE"); // what was in hand still is
  REQUIRE(window->ui().find("last-good"));
  play(*window, "spot last-good\nsettle");
  CHECK_FALSE(mine(*window).problem);
  CHECK(*read_accent("lane") == good);
  CHECK(mine(*window).accent == good);
  CHECK(window->session().take->accent->id == "lane");
}

TEST_CASE("my accent: where nothing can be saved the card says so and the edit stays in hand") {
  const Home home;
  const auto window = open_view();
  fs::create_directories(home.root);
  std::ofstream(home.root / "file") << "x";
  setenv("XDG_DATA_HOME", (home.root / "file").c_str(), 1);
  play(*window, "spot all-rules\nsettle\nspot rule-h_dropping\nsettle");
  REQUIRE(mine(*window).problem);
  CHECK(mine(*window).problem->kind == ProblemKind::output);
  CHECK(mine(*window).accent.rule("h_dropping") == "yes");
  setenv("XDG_DATA_HOME", home.root.c_str(), 1);
  drag(*window, "set-GOAT", {100, 0});
  CHECK_FALSE(mine(*window).problem);
  CHECK(saved_changes(*window) == Names{"sets.GOAT", "rules.h_dropping"});
}

TEST_CASE("my accent: the trash takes it only when asked to, and the window goes on with what it was based on") {
  const Home home;
  const auto window = open_view();
  play(*window, "spot all-rules\nsettle\nspot rule-h_dropping\nsettle\nspot my-accent-menu\nwait 0.1");
  const auto rows = window->session().menu->rows;
  REQUIRE(rows.back().text == "move to the trash");
  play(*window, "spot menu-" + std::to_string(rows.size() - 1) + "\nsettle");
  CHECK(window->session().request.accent == "SSBE");
  CHECK(list_own_accents().empty());
  CHECK(fs::exists(home.accents / "trash" / "your-southern-british-1.toml"));
  CHECK(window->session().accents.back().status != "yours");
}

TEST_CASE("my accent: everything can be reached at 1024 x 768 and 800 x 600, and in every theme it is drawn") {
  const Home home;
  for (const auto& [w, h] : {std::pair{1280, 720}, std::pair{1024, 768}, std::pair{800, 600}}) {
    CAPTURE(w);
    const auto window = open_view("SSBE", w, h);
    for (int i = 0; i < 3; ++i) {
      const std::string light(window->session().view.theme);
      const Pixels before = window->picture();
      play(*window, "key d\nsettle");
      CHECK(window->session().view.theme != light);
      CHECK(changed(*window, before, window->picture(), window->layout().whole) > 0.2);
    }
    if (window->ui().find("my-accent-face-Rules")) play(*window, "spot my-accent-face-Rules\nsettle");
    CHECK(window->ui().find("rule-rhotic"));
    if (window->ui().find("my-accent-face-Posture")) play(*window, "spot my-accent-face-Posture\nsettle");
    CHECK(window->ui().find("posture-velum_opening"));
    for (const Spot& spot : window->ui().spots()) {
      if (spot.rect.x < -1000) continue; // waits for Tab
      CAPTURE(spot.id);
      CHECK(spot.rect.x >= -1);
      CHECK(spot.rect.right() <= w + 1);
      CHECK(spot.rect.bottom() <= h + 1);
    }
  }
}
