#include "phrase/spoken.h"

#include "support/phrases.h"

#include <random>

using namespace mw;
using namespace mw::test;

TEST_CASE("pronounce: a word has syllables, sets that do not depend on the accent, stress and source") {
  for (const std::string accent : {"GA", "SSBE", "SSE", "NZ", "IND"}) {
    const auto said = spoken("Mend the kettle.", accent);
    INFO(accent);
    REQUIRE(said.words.size() == 3);
    CHECK(said.words[0].text == "Mend");
    CHECK(said.words[0].source == WordSource::voice);
    REQUIRE(said.words[2].syllables.size() == 2);
    CHECK(said.words[2].syllables[0].set == LexicalSet::DRESS);
    CHECK(said.words[2].syllables[1].set == LexicalSet::commA);
    CHECK(said.words[2].syllables[0].stress == 1);
    CHECK(said.words[2].syllables[1].stress == 0);
    CHECK(said.words[2].span == Span{9, 15});
    CHECK(said.words[2].group_end);
    CHECK_FALSE(said.words[0].group_end);
  }
  CHECK(ipa(spoken("Mend the kettle.", "GA")) == "ˈmɛn̪d̪ ðə ˈkɛ.ɾɫ̩");
}

TEST_CASE("pronounce: every line of the play is said in every accent, twice alike") {
  const auto list = list_accents();
  for (const auto& row : *list) {
    const Accent accent = *read_accent(row.id);
    for (const auto line : play_lines) {
      for (const double casual : {0.0, 0.5, 1.0}) {
        const auto said = spoken(line, accent, casual);
        INFO(row.id << " " << line);
        CHECK(said == spoken(line, accent, casual));
        const auto all = sounds(said);
        for (const auto& sound : all) CHECK_FALSE(sound.letter.empty());
        for (const auto& process : said.processes) {
          CHECK(process.sound < all.size());
          CHECK(process.word < said.words.size());
          CHECK(process.from != process.to);
          CHECK_FALSE(process.text.empty());
        }
        for (const auto& word : said.words) {
          CHECK_FALSE(word.syllables.empty());
          for (const auto& syllable : word.syllables) CHECK(syllable.set.has_value());
        }
      }
    }
  }
}

TEST_CASE("pronounce: a process names the sound that is now there") {
  for (const auto line : play_lines) {
    const auto said = spoken(line, "GA");
    const auto all = sounds(said);
    for (const auto& process : said.processes)
      if (process.name == "flapping" || process.name == "glottalling") CHECK(to_ipa(all[process.sound]) == process.to);
  }
}

TEST_CASE("pronounce: weak forms between words, strong forms at the end and with full vowels") {
  CHECK(ipa(spoken("look at it", "SSBE", 0.5)) == "ˈlɵk ət ɪt");
  CHECK(ipa(spoken("look at", "SSBE", 0.5)) == "ˈlɵk at");
  CHECK(ipa(spoken("the apple", "SSBE")).substr(0, 3) == "ði");
  CHECK(ipa(spoken("the kettle", "SSBE")).substr(0, 4) == "ðə");
  CHECK(count(spoken("salt and oil", "SSBE"), "weak_form") == 1);
  CHECK(count(spoken("salt and oil", with_rule("SSBE", "full_vowels_in_weak_forms", "yes")), "weak_form") == 0);
  CHECK(ipa(spoken("yes I can", "SSBE")) == "ˈjɛs ɑi ˈkan");
  CHECK(ipa(spoken("I can wait", "SSBE")).find("kən") != std::string::npos);
}

TEST_CASE("pronounce: what meets across words follows how casual the speech is") {
  CHECK(count(spoken("ten boys", "SSBE", 0), "assimilation") == 0);
  CHECK(ipa(spoken("ten boys", "SSBE", 1)) == "ˈtɛm ˈboiz");
  CHECK(ipa(spoken("ten cups", "SSBE", 1)).substr(0, 8) == "ˈtɛŋ ");
  CHECK(count(spoken("last note", "SSBE", 1), "elision") == 1);
  CHECK(count(spoken("last note", "SSBE", 0), "elision") == 0);
  CHECK(count(spoken("last, note", "SSBE", 1), "elision") == 0); // a pause parts them
  CHECK(ipa(spoken("did you mend it", "SSBE", 1)).find("dʒ") != std::string::npos);
  CHECK(ipa(spoken("did you mend it", "SSBE", 0)).find("dʒ") == std::string::npos);
  CHECK(ipa(spoken("far, away", "SSBE")) == "ˈfɑː əˈwɛi");
  CHECK(ipa(spoken("in the", "SSBE")).find("n̪") != std::string::npos);
}

TEST_CASE("pronounce: rhotic accents link nothing, r-coloured vowels stand without an r") {
  CHECK(count(spoken("far away", "GA"), "linking_r") == 0);
  CHECK(ipa(spoken("better bird", "GA")) == "ˈbɛ.ɾɚ ˈbɝd");
  CHECK(ipa(spoken("worried", "GA")) == "ˈwɝ.id");
}

TEST_CASE("pronounce: a spelling with several readings offers them and takes the likelier one") {
  const auto alone = spoken("read", "GA");
  CHECK(alone.words[0].source == WordSource::choice);
  REQUIRE(alone.words[0].choices.size() == 1);
  CHECK(alone.words[0].choices[0] == "ˈɹɛd");
  REQUIRE(alone.notes.size() == 1);
  CHECK(alone.notes[0].kind == "choice");
  CHECK(ipa(spoken("have read", "GA")).find("ɹɛd") != std::string::npos);
  CHECK(ipa(spoken("to record", "GA")) != ipa(spoken("the record", "GA")));
}

TEST_CASE("pronounce: the words round a spelling with several readings speak for one of them") {
  const auto nucleus = [](std::string_view phrase, std::size_t word) { return spoken(phrase, "RP").words[word].syllables[0].set; };
  using Set = LexicalSet;
  CHECK(nucleus("I read it yesterday", 1) == Set::DRESS);
  CHECK(nucleus("I read it", 1) == Set::FLEECE);
  CHECK(nucleus("tear it up", 0) == Set::SQUARE);
  CHECK(nucleus("a tear", 1) == Set::NEAR);
  CHECK(nucleus("wind it up", 0) == Set::PRICE);
  CHECK(nucleus("the wind blows", 1) == Set::KIT);
  CHECK(nucleus("the Polish kettle", 1) == Set::GOAT);
  CHECK(nucleus("polish the kettle", 0) == Set::LOT);
  CHECK(nucleus("she lives here", 1) == Set::KIT);
  CHECK(nucleus("nine lives", 1) == Set::PRICE);
  CHECK(nucleus("she tears it", 1) == Set::SQUARE);
  CHECK(nucleus("a few tears", 2) == Set::NEAR);
  CHECK(ipa(spoken("close the door", "RP")).find("z") != std::string::npos);
  CHECK(ipa(spoken("use the kettle", "RP")).find("z") != std::string::npos);
  CHECK(ipa(spoken("the use", "RP")).find("z") == std::string::npos);
}

TEST_CASE("pronounce: corrections win over everything, in IPA, X-SAMPA or lexical sets") {
  const Accent accent = *read_accent("SSBE");
  PronounceSettings settings;
  settings.corrections = {{"kettle", "/ˈkɪ.dəl/"}, {"read", "[\"rEd]"}, {"mend", "m ˈTRAP n d"}};
  const auto said = pronounce("Mend, read kettle", accent, voices(), settings);
  REQUIRE(said.has_value());
  CHECK(ipa(*said) == "ˈmand ˈrɛd ˈkɪ.dəl");
  for (const auto& word : said->words) CHECK(word.source == WordSource::correction);
  CHECK(said->words[0].syllables[0].set == LexicalSet::TRAP);
  CHECK_FALSE(said->words[2].syllables[0].set.has_value());
  for (const std::string bad : {"/q!7/", "[", "", "k DRES t", "//", "[]"}) {
    settings.corrections = {{"kettle", bad}};
    const auto refused = pronounce("kettle", accent, voices(), settings);
    INFO(bad);
    REQUIRE_FALSE(refused.has_value());
    CHECK(refused.error().kind == ProblemKind::input);
    CHECK(refused.error().what.find("kettle") != std::string::npos);
  }
}

TEST_CASE("pronounce: IPA and X-SAMPA are taken literally") {
  PronounceSettings settings;
  settings.notation = Notation::ipa;
  OneSyllable nobody;
  const auto said = pronounce("ˈkɛtl̩ | ˈbʌtə", *read_accent("GA"), nobody, settings);
  REQUIRE(said.has_value());
  CHECK(said->words.size() == 2);
  CHECK(said->words[0].source == WordSource::typed);
  CHECK(said->words[0].group_end);
  CHECK_FALSE(said->words[0].syllables[0].set.has_value());
  CHECK(said->processes.empty());
  CHECK(nobody.asked.empty());
  settings.notation = Notation::xsampa;
  CHECK(ipa(*pronounce("\"kEt", *read_accent("GA"), nobody, settings)) == "ˈkɛt");
  for (const std::string bad : {"", " ", "|", "\xFF"})
    CHECK(pronounce(bad, *read_accent("GA"), nobody, settings).error().kind == ProblemKind::input);
}

TEST_CASE("pronounce: only words of small ASCII letters and apostrophes reach the voices, whatever is typed") {
  std::mt19937 random(11);
  const Accent accent = *read_accent("SSBE");
  OneSyllable voice;
  const std::u32string signs = U"abzAZ'\u2019\u00e9\u00c6 .,-&%$\u00a3"
                               U"019:/<>\u0416\u4e2d\u0301\u200d\U0001F600\n\t|#@+";
  for (int round = 0; round < 3000; ++round) {
    std::string phrase;
    const std::size_t length = 1 + random() % 40;
    for (std::size_t i = 0; i < length; ++i) {
      if (round % 3 == 0)
        phrase += static_cast<char>(random() % 256); // raw bytes
      else if (round % 3 == 1)
        phrase += encode_utf8(static_cast<char32_t>(1 + random() % 0xD7FE));
      else
        phrase += encode_utf8(signs[random() % signs.size()]);
    }
    const auto said = pronounce(phrase, accent, voice);
    const auto points = decode_utf8(phrase);
    INFO(phrase);
    if (!said) {
      CHECK(said.error().kind == ProblemKind::input);
      continue;
    }
    for (const auto& word : said->words) {
      CHECK(word.span.start < word.span.end);
      CHECK(word.span.end <= points->size());
    }
    for (const auto& note : said->notes)
      if (note.span) CHECK(note.span->end <= points->size());
  }
  CHECK(voice.asked.size() > 1000);
  for (const auto& word : voice.asked) {
    CHECK_FALSE(word.empty());
    CHECK(word.size() <= 64);
    CHECK(word.find_first_not_of("abcdefghijklmnopqrstuvwxyz'") == std::string::npos);
  }
}

TEST_CASE("pronounce: a phrase of ten thousand letters is said, one more is refused") {
  OneSyllable voice;
  CHECK(pronounce(std::string(10000, 'x'), *read_accent("GA"), voice).has_value());
  CHECK_FALSE(pronounce(std::string(10001, 'x'), *read_accent("GA"), voice).has_value());
}

TEST_CASE("pronounce: a missing voice is handed on") {
  class Nobody final : public Pronouncer {
    Result<std::vector<VoicedWord>> look_up(const std::vector<std::string>&) override {
      return Problem{ProblemKind::missing, "no voices", "", ""};
    }
  } nobody;
  CHECK(pronounce("kettle", *read_accent("GA"), nobody).error().kind == ProblemKind::missing);
}
