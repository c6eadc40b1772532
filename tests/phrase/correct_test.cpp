#include "phrase/correct.h"
#include "phrase/spoken.h"

#include <chrono>
#include <fstream>

using namespace mw;
using namespace mw::test;

namespace {
Result<Pronunciation> corrected(std::string_view phrase, const std::string& word, const std::string& said, const std::string& accent = "SSBE") {
  PronounceSettings settings;
  settings.corrections = {{word, said}};
  return pronounce(phrase, *read_accent(accent), voices(), settings);
}
} // namespace

TEST_CASE("corrections: a set alone changes the stressed vowel, as many sets as vowels change all") {
  const auto bath = corrected("the bath", "bath", "TRAP");
  REQUIRE(bath.has_value());
  CHECK(bath->words[1].source == WordSource::correction);
  CHECK(bath->words[1].syllables[0].set == LexicalSet::TRAP);
  CHECK(to_ipa(bath->words[1]) == "\u02c8ba\u03b8");
  const auto kettle = corrected("kettle", "kettle", "KIT commA");
  REQUIRE(kettle.has_value());
  CHECK(kettle->words[0].syllables[0].set == LexicalSet::KIT);
  CHECK_FALSE(corrected("kettle", "kettle", "KIT commA FACE").has_value());
}

TEST_CASE("corrections: IPA pasted without slashes is taken as sounds") {
  const auto said = corrected("kettle", "kettle", "\u02c8k\u026ad\u0259l");
  REQUIRE(said.has_value());
  CHECK(to_ipa(said->words[0]) == "\u02c8k\u026a.d\u0259l");
}

TEST_CASE("corrections: a set keeps the word open to the accent's rules and contexts") {
  const auto ga = corrected("bath", "bath", "LOT", "GA");
  REQUIRE(ga.has_value());
  CHECK(to_ipa(ga->words[0]) == "\u02c8b\u0251\u03b8");
}

TEST_CASE("own words: lines of word = sounds, comments, and every broken line told with its number") {
  const auto own = parse_own_words("# the play\nNell = /n\u025bl/\n\nkettle = k \u02c8DRESS t commA l # ours\nno sounds here\nbad = /\u00bf/\n= x\n",
                                   "words.txt");
  CHECK(own.corrections.size() == 2);
  CHECK(own.corrections.at("nell") == "/n\u025bl/");
  CHECK(own.corrections.at("kettle") == "k \u02c8DRESS t commA l");
  REQUIRE(own.notes.size() == 3);
  CHECK(own.notes[0].text.find("words.txt line 5: ") == 0);
  CHECK(own.notes[1].text.find("words.txt line 6: ") == 0);
  CHECK(own.notes[2].text.find("words.txt line 7: ") == 0);
  CHECK(parse_own_words("a = \xff", "words.txt").notes.size() == 1);
}

TEST_CASE("own words: corrections of the phrase win, the dictionary comes next, the word as typed before its key") {
  const std::map<std::string, std::string> own{{"kettle", "/\u02c8kat\u0259l/"}, {"mend", "/\u02c8mand/"}};
  PronounceSettings settings;
  settings.own_words = &own;
  settings.corrections = {{"mend", "/\u02c8m\u028and/"}};
  const auto said = pronounce("mend the kettle", *read_accent("SSBE"), voices(), settings);
  REQUIRE(said.has_value());
  CHECK(to_ipa(said->words[0]) == "\u02c8m\u028and");
  CHECK(to_ipa(said->words[2]) == "\u02c8ka.t\u0259l");
  CHECK(said->words[2].source == WordSource::correction);
}

TEST_CASE("own words: kept while the file stays as it is, read again when it changes or goes") {
  const auto file = own_words_file();
  REQUIRE_FALSE(file.empty());
  std::filesystem::create_directories(file.parent_path());
  const auto write = [&](const char* text) { std::ofstream(file) << text; };
  write("kettle = DRESS\n");
  const auto first = read_own_words(), second = read_own_words();
  CHECK(first == second); // the very same
  CHECK(first->corrections.at("kettle") == "DRESS");
  write("kettle = TRAP TRAP\n");
  CHECK(read_own_words()->corrections.at("kettle") == "TRAP TRAP");
  CHECK(first->corrections.at("kettle") == "DRESS"); // who holds the old one keeps it
  write("kettle = TRAP TRAK\n"); // as long as before: the date tells
  std::filesystem::last_write_time(file, std::filesystem::last_write_time(file) + std::chrono::seconds(2));
  CHECK(read_own_words()->corrections.empty());
  CHECK(read_own_words()->notes.size() == 1);
  std::filesystem::remove(file);
  CHECK(read_own_words()->corrections.empty());
  CHECK(read_own_words()->notes.empty());
}
