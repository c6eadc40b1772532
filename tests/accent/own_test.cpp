#include "accent/own.h"

#include "accent/edit.h"
#include "accent/shared.h"
#include "base/assets.h"

#include "support/home.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cstdlib>
#include <fstream>

#include <sys/stat.h>
#include <unistd.h>

using namespace mw;
namespace fs = std::filesystem;

namespace {

using test::Home;

Accent own_of(const std::string& start, const std::string& id, const std::string& name) { return copy_of(*read_accent(start), id, name); }

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const auto at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

} // namespace

TEST_CASE("own accents: what is saved is listed, read by its id and heard at once") {
  const Home home;
  CHECK(list_own_accents().empty());
  const Accent first = own_of("SSBE", free_accent_id("Your Southern British"), "Your Southern British");
  CHECK(first.id == "your-southern-british");
  REQUIRE(save_own_accent(first).has_value());
  CHECK(*read_accent(first.id) == first);
  CHECK(**read_shared_accent(first.id) == first);
  const Accent second = with_vowel(first, LexicalSet::GOAT, parse_set_value("o\u028A")->vowel);
  REQUIRE(save_own_accent(second).has_value());
  CHECK(**read_shared_accent(first.id) == second);
  const auto list = list_own_accents();
  REQUIRE(list.size() == 1);
  CHECK(list[0].name.id == first.id);
  CHECK(list[0].name.name == first.name);
  CHECK(list[0].name.status == "yours");
  CHECK(free_accent_id("Your Southern British") == "your-southern-british-2");
  CHECK(free_accent_id("\u4e2d") == "my-accent");
}

TEST_CASE("own accents: a shipped accent keeps its id, and its file is never the coach's") {
  const Home home;
  home.put("GA.toml", "not an accent");
  CHECK(list_own_accents().empty());
  CHECK(read_accent("GA").has_value());
  home.put("../../escape.toml", "x");
  CHECK_FALSE(own_accent_file("../../escape").has_value());
  const auto list = list_accents();
  for (const AccentName& row : *list) CHECK(free_accent_id(row.id) != row.id);
}

TEST_CASE("own accents: bad files are refused with file, line and reason, and the others stay") {
  const Home home;
  const Accent good = own_of("GA", "good", "Good");
  REQUIRE(save_own_accent(good).has_value());
  const std::string text = replaced(write_accent(good), "id = \"good\"", "id = \"bad\"");
  struct Bad { const char* what; std::string text; int line; };
  std::string nested = "id = \"bad\"\nx = " + std::string(100000, '[');
  const std::vector<Bad> bad{
      {"truncated", text.substr(0, text.find("[sets.LOT]") + 5), 0},
      {"cut inside a letter", text.substr(0, text.find("\u0259") + 1), 0},
      {"wrong type", replaced(text, "name = \"Good\"", "name = 7"), 2},
      {"a table that is a text", replaced(text, "[sets.KIT]\n", "sets = \"all\"\n[sets.KIT]\n"), 0},
      {"unknown key", replaced(text, "based_on", "begun_on"), 4},
      {"unknown set", replaced(text, "[sets.LOT]", "[sets.LOTS]"), 0},
      {"unknown rule", text + "\n[rules.shouting]\nvalue = \"yes\"\nsource = \"\"\nstatus = \"\"\n", 0},
      {"unknown value", replaced(text, "[rules.rhotic]\nvalue = \"yes\"", "[rules.rhotic]\nvalue = \"louder\""), 0},
      {"a consonant for a vowel", replaced(text, "[sets.KIT]\nipa = \"\u026A\"", "[sets.KIT]\nipa = \"k\""), 0},
      {"a shift out of range", text + "\n[posture.jaw_forward_mm]\nshift = 900\nsource = \"\"\nstatus = \"\"\n", 0},
      {"a shift that is no number", text + "\n[posture.jaw_forward_mm]\nshift = nan\nsource = \"\"\nstatus = \"\"\n", 0},
      {"not UTF-8", replaced(text, "Good", "G\xff\xfe"), 2},
      {"a NUL", replaced(text, "Good", std::string("G\0d", 3)), 2},
      {"nested beyond reason", nested, 2},
      {"a key twice", text + "\n[sets.KIT]\nipa = \"i\"\n", 0},
      {"of another name", replaced(text, "id = \"bad\"", "id = \"good\""), 1},
      {"empty", "", 0},
  };
  for (const Bad& row : bad) {
    CAPTURE(row.what);
    home.put("bad.toml", row.text);
    const auto read = read_accent("bad");
    REQUIRE_FALSE(read.has_value());
    const Problem& problem = read.error();
    CHECK(problem.kind == ProblemKind::input);
    CHECK_FALSE(problem.what.empty());
    CHECK_FALSE(problem.remedy.empty());
    CHECK(problem.where.find("bad.toml line ") != std::string::npos);
    if (row.line > 0) CHECK(problem.where.ends_with("line " + std::to_string(row.line)));
    const auto list = list_own_accents();
    REQUIRE(list.size() == 2);
    CHECK(list[0].problem.has_value());
    CHECK(list[1].name.name == "Good");
    CHECK_FALSE(list[1].problem.has_value());
    CHECK_FALSE(read_shared_accent("bad").has_value());
  }
  CHECK(*read_accent("good") == good);
}

TEST_CASE("own accents: 10 MB, a folder, a link to nothing and a file without permission are told, not opened") {
  const Home home;
  home.put("large.toml", std::string(10u << 20, '#'));
  CHECK(read_accent("large").error().what.find("larger than 1 MB") != std::string::npos);
  fs::create_directories(home.accents / "folder.toml");
  CHECK(read_accent("folder").error().what.find("folder") != std::string::npos);
  fs::create_symlink("nowhere", home.accents / "link.toml");
  CHECK(read_accent("link").error().kind == ProblemKind::input);
  fs::create_symlink("loop.toml", home.accents / "loop.toml");
  CHECK(read_accent("loop").error().kind == ProblemKind::input);
  CHECK(list_own_accents().size() == 4);
  if (geteuid() == 0) return; // root reads everything
  home.put("locked.toml", write_accent(own_of("GA", "locked", "Locked")));
  chmod((home.accents / "locked.toml").c_str(), 0);
  CHECK(read_accent("locked").error().what.find("cannot be read") != std::string::npos);
}

TEST_CASE("own accents: based on itself, or on one another, they are read as any other") {
  const Home home;
  Accent one = own_of("GA", "one", "One"), two = own_of("GA", "two", "Two");
  one.based_on = "two", two.based_on = "one";
  REQUIRE((save_own_accent(one).has_value() && save_own_accent(two).has_value()));
  CHECK(*read_accent("one") == one);
  one.based_on = "one";
  REQUIRE(save_own_accent(one).has_value());
  CHECK(*read_accent("one") == one);
}

TEST_CASE("own accents: a file broken by hand is put aside before it is written over, and its last good state is kept") {
  const Home home;
  const Accent good = own_of("GA", "kept", "Kept");
  REQUIRE(save_own_accent(good).has_value());
  home.put("kept.toml", "id = \"kept\"\nname = ");
  CHECK_FALSE(read_accent("kept").has_value());
  CHECK(*last_good_accent("kept") == good);
  REQUIRE(save_own_accent(good).has_value());
  CHECK(*read_accent("kept") == good);
  CHECK(*read_file(home.accents / "kept.kept-1") == "id = \"kept\"\nname = ");
  CHECK(list_own_accents().size() == 1);
  // saving over what was saved leaves nothing aside; over good work done by hand it does
  REQUIRE(save_own_accent(*with_name(good, "Kept on")).has_value());
  CHECK_FALSE(fs::exists(home.accents / "kept.kept-2"));
  const std::string by_hand = "# my notes\n" + write_accent(good);
  home.put("kept.toml", by_hand);
  REQUIRE(save_own_accent(good).has_value());
  CHECK(*read_file(home.accents / "kept.kept-2") == by_hand);
}

TEST_CASE("own accents: where nothing can be written the problem says so and the old file stands") {
  const Home home;
  const Accent good = own_of("GA", "stays", "Stays");
  REQUIRE(save_own_accent(good).has_value());
  // a file where the folder should be: no permission can be taken from root
  std::ofstream(home.root / "file") << "x";
  setenv("XDG_DATA_HOME", (home.root / "file").c_str(), 1);
  const auto failed = save_own_accent(*with_name(good, "Other"));
  REQUIRE_FALSE(failed.has_value());
  CHECK(failed.error().kind == ProblemKind::output);
  CHECK_FALSE(failed.error().where.empty());
  setenv("XDG_DATA_HOME", home.root.c_str(), 1);
  CHECK(*read_accent("stays") == good);
}

TEST_CASE("own accents: discarding moves the file to the trash, twice under two names") {
  const Home home;
  const Accent accent = own_of("GA", "gone", "Gone");
  for (int time = 0; time < 2; ++time) {
    REQUIRE(save_own_accent(accent).has_value());
    const auto where = discard_own_accent("gone");
    REQUIRE(where.has_value());
    CHECK(*parse_accent(*read_file(*where), "trash") == accent);
    CHECK_FALSE(own_accent_file("gone").has_value());
  }
  CHECK(std::distance(fs::directory_iterator(home.accents / "trash"), fs::directory_iterator{}) == 2);
  CHECK_FALSE(discard_own_accent("gone").has_value());
  CHECK_FALSE(discard_own_accent("GA").has_value());
}
