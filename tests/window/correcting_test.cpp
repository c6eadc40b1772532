#include "window/driver.h"

#include "app/correcting.h"
#include "phrase/correct.h"

#include <algorithm>
#include <filesystem>
#include <fstream>

#include <unistd.h>

using namespace driver;
namespace fs = std::filesystem;

namespace {

/// A folder of settings for one test: one's own words are written there.
struct Config {
  fs::path root = fs::temp_directory_path() / ("mouthwright_words_" + std::to_string(getpid()));
  std::string before = std::getenv("XDG_CONFIG_HOME") ? std::getenv("XDG_CONFIG_HOME") : "";
  Config() {
    fs::remove_all(root);
    setenv("XDG_CONFIG_HOME", root.c_str(), 1);
  }
  ~Config() {
    if (before.empty()) unsetenv("XDG_CONFIG_HOME");
    else setenv("XDG_CONFIG_HOME", before.c_str(), 1);
    fs::remove_all(root);
  }
  Config(const Config&) = delete;
  Config& operator=(const Config&) = delete;
};

std::string said(const Window& window, std::size_t word) { return to_ipa(window.session().take->pronunciation.words[word]); }
std::unique_ptr<Window> opened(const std::string& phrase, int width = 1280, int height = 720) {
  auto window = open(phrase, width, height);
  play(*window, "settle\nkey escape\nsettle");
  return window;
}

} // namespace

TEST_CASE("correcting: a click on a word, a respelling, Enter: said so, kept with the line, taken back and again") {
  const Config config;
  const auto window = opened("Glass kettles");
  const std::string before = said(*window, 0);
  play(*window, "spot word-0\nwait 0.2");
  REQUIRE(window->session().correcting);
  CHECK(window->session().correcting->text == "Glass");
  CHECK_FALSE(window->session().view.playing);
  play(*window, "type TRAP\nkey return\nsettle");
  CHECK_FALSE(window->session().correcting);
  CHECK(window->session().request.corrections.at("glass") == "TRAP");
  CHECK(said(*window, 0) != before);
  CHECK(window->session().take->pronunciation.words[0].syllables[0].set == LexicalSet::TRAP);
  CHECK_FALSE(fs::exists(own_words_file()));
  play(*window, "key ctrl+z\nsettle");
  CHECK(window->session().request.corrections.empty());
  CHECK(said(*window, 0) == before);
}

TEST_CASE("correcting: IPA and X-SAMPA are taken as they stand; the field is filled with the reading in hand") {
  const Config config;
  const auto window = opened("Glass kettles");
  play(*window, "spot word-1\nwait 0.2\ntype /ˈkɛtl̩z/\nkey return\nsettle");
  CHECK(said(*window, 1).find("t") != std::string::npos);
  CHECK(window->session().take->pronunciation.words[1].source == WordSource::correction);
  play(*window, "spot word-1\nwait 0.2");
  REQUIRE(window->session().correcting);
  CHECK(window->session().correcting->writing.text == "/ˈkɛtl̩z/");
  play(*window, "key ctrl+a\ntype [\"kEt@lz]\nkey return\nsettle");
  CHECK(window->session().request.corrections.at("kettles") == "[\"kEt@lz]");
  CHECK(said(*window, 1) == "ˈkɛ.təlz");
  play(*window, "spot word-1\nwait 0.2\nspot correct-listed\nsettle");
  CHECK(window->session().request.corrections.empty());
}

TEST_CASE("correcting: what cannot be read, or does not fit, is said in the card; the line and its picture stay") {
  const Config config;
  const auto window = opened("Glass kettles");
  const std::string before = said(*window, 1);
  play(*window, "spot word-1\nwait 0.2\ntype /kɛ§l/\nkey return\nsettle");
  REQUIRE(window->session().correcting);
  REQUIRE(window->session().correcting->problem);
  CHECK_FALSE(window->session().correcting->problem->what.empty());
  CHECK(window->session().request.corrections.empty());
  CHECK(said(*window, 1) == before);
  // three sets for a word of fewer vowels: only the take can tell
  play(*window, "key ctrl+a\ntype TRAP DRESS KIT LOT\nkey return\nsettle");
  REQUIRE(window->session().correcting);
  REQUIRE(window->session().correcting->problem);
  CHECK(window->session().request.corrections.empty());
  CHECK_FALSE(window->session().problem);
  CHECK(said(*window, 1) == before);
  play(*window, "key ctrl+a\ntype KIT\nkey return\nsettle");
  CHECK_FALSE(window->session().correcting);
  CHECK(said(*window, 1) != before);
}

TEST_CASE("correcting: a spelling with several readings offers them; Esc and a click beside it change nothing") {
  const Config config;
  const auto window = opened("They read the label");
  const auto& words = window->session().take->pronunciation.words;
  const auto word = std::find_if(words.begin(), words.end(), [](const Word& w) { return !w.choices.empty(); });
  REQUIRE(word != words.end());
  const auto index = static_cast<std::size_t>(word - words.begin());
  const std::string before = said(*window, index), id = "word-" + std::to_string(index);
  play(*window, "spot " + id + "\nwait 0.2\nkey escape\nsettle");
  CHECK_FALSE(window->session().correcting);
  play(*window, "spot " + id + "\nwait 0.2\nclick 30 700\nsettle");
  CHECK_FALSE(window->session().correcting);
  CHECK(said(*window, index) == before);
  play(*window, "spot " + id + "\nwait 0.2");
  const auto& spots = window->ui().spots();
  const auto reading = std::find_if(spots.begin(), spots.end(), [](const Spot& s) { return s.id.starts_with("reading-"); });
  REQUIRE(reading != spots.end());
  // with what it means
  std::vector<std::string> meanings;
  for (const Sheet& sheet : window->ui().sheets())
    for (const Mark& mark : sheet.scene.marks)
      if (const auto* text = std::get_if<Text>(&mark); text && text->mark.role == "meaning") meanings.push_back(text->text);
  CHECK(meanings == std::vector<std::string>{before.find("\u025B") == std::string::npos ? "I read it yesterday" : "I read every day"});
  play(*window, "spot " + reading->id + "\nsettle");
  CHECK(said(*window, index) != before);
  play(*window, "key ctrl+z\nsettle");
  CHECK(said(*window, index) == before);
}

TEST_CASE("correcting: in every line goes to one's own dictionary beside what stands there, and undo takes it out again") {
  const Config config;
  fs::create_directories(own_words_file().parent_path());
  std::ofstream(own_words_file()) << "# mine\nladle = /ˈleɪdl̩/\n";
  const auto window = opened("Glass kettles");
  const std::string before = said(*window, 0);
  play(*window, "spot word-0\nwait 0.2\nspot correct-everywhere\nwait 0.1\ntype TRAP\nkey return\nsettle");
  CHECK_FALSE(window->session().correcting);
  CHECK(window->session().request.corrections.empty());
  CHECK(said(*window, 0) != before);
  const OwnWords own = *read_own_words();
  CHECK(own.notes.empty());
  CHECK(own.corrections.at("glass") == "TRAP");
  CHECK(own.corrections.at("ladle") == "/ˈleɪdl̩/");
  // another line says it so, too
  play(*window, "key ctrl+l\nkey ctrl+a\ntype A glass\nkey return\nsettle");
  CHECK(window->session().take->pronunciation.words[1].syllables[0].set == LexicalSet::TRAP);
  play(*window, "key escape\nkey ctrl+z\nsettle");
  CHECK_FALSE(read_own_words()->corrections.contains("glass"));
  CHECK(read_own_words()->corrections.contains("ladle"));
  CHECK(window->session().take->pronunciation.words[1].syllables[0].set == LexicalSet::BATH);
}

TEST_CASE("correcting: E opens the word said now; Tab goes through the card, Enter presses its buttons; inside the window at every size") {
  const Config config;
  for (const auto& [w, h] : {std::pair{1280, 720}, std::pair{1024, 768}, std::pair{800, 600}}) {
    CAPTURE(w);
    const auto window = opened("They read the label", w, h);
    play(*window, "key home\nsettle\nkey e\nwait 0.2");
    REQUIRE(window->session().correcting);
    CHECK(window->session().correcting->text == "They"); // before the first sound its word
    play(*window, "key escape\nkey right\nkey right\nkey right\nsettle\nkey e\nwait 0.2");
    REQUIRE(window->session().correcting);
    CHECK(window->session().correcting->text == "read");
    for (const Spot& spot : window->ui().spots()) {
      CAPTURE(spot.id);
      CHECK(spot.rect.x >= 0);
      CHECK(spot.rect.right() <= w);
      CHECK(spot.rect.bottom() <= h);
    }
    for (int i = 0; i < 6 && window->ui().focused() != "correct-everywhere"; ++i) play(*window, "key tab");
    REQUIRE(window->ui().focused() == "correct-everywhere");
    play(*window, "key return\nwait 0.1");
    CHECK(window->session().correcting->everywhere);
    play(*window, "key c\nwait 0.1"); // no key means anything else here
    CHECK(window->session().request.anatomy == "adult-male");
    play(*window, "key escape\nsettle");
    CHECK_FALSE(window->session().correcting);
  }
}
