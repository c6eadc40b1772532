#include "phrase/spoken.h"

#include "accent/edit.h"

using namespace mw;
using namespace mw::test;

TEST_CASE("own accent: a vowel that a coach moved is the vowel that is heard, in every accent and set") {
  const auto list = list_accents();
  const Sound moved = parse_set_value("y")->vowel;
  constexpr std::string_view words[]{"pit", "pet", "trap", "cot", "cup", "put", "bath", "cloth", "fur", "horse", "pour", "caught", "pool", "father", "happy", "beer", "bear", "tune", "poor", "house"};
  int heard = 0;
  for (const AccentName& row : *list) {
    const Accent start = *read_accent(row.id);
    for (const auto word : words) {
      const Pronunciation before = spoken(word, start);
      for (std::size_t i = 0; i < before.words[0].syllables.size(); ++i) {
        const Syllable& syllable = before.words[0].syllables[i];
        // where the set itself was heard, and not its value for these surroundings or an l, r or n in its place
        if (!syllable.set || !(syllable.nucleus == start.of(*syllable.set).vowel)) continue;
        const Accent edited = with_vowel(start, *syllable.set, moved);
        const Pronunciation after = spoken(word, edited);
        INFO(row.id << ' ' << word << ' ' << to_keyword(*syllable.set) << ' ' << ipa(before) << " -> " << ipa(after));
        REQUIRE(after.words[0].syllables.size() > i);
        CHECK(after.words[0].syllables[i].nucleus.letter == "y");
        ++heard;
      }
    }
  }
  CHECK(heard > 250);
}

TEST_CASE("own accent: two sets made one by a switch or by hand sound alike, and parted again they do not") {
  const auto list = list_accents();
  const auto nucleus = [](std::string_view word, const Accent& accent) { return spoken(word, accent).words[0].syllables[0].nucleus; };
  struct Row { std::string_view rule, one, apart, a, b; };
  constexpr Row rows[]{{"FOOT_STRUT_split", "no", "yes", "put", "putt"}, {"COT_CAUGHT_merger", "yes", "no", "cot", "caught"},
                       {"TRAP_BATH_split", "no", "yes", "trap", "bath"}, {"FOOT_GOOSE_merger", "yes", "no", "pull", "pool"}};
  for (const AccentName& row : *list)
    for (const Row& it : rows) {
      INFO(row.id << ' ' << it.rule);
      const Accent start = *read_accent(row.id);
      if (!start.contexts[static_cast<std::size_t>(LexicalSet::GOOSE)].empty() && it.rule == rows[3].rule) continue; // before l
      const Accent one = *mw::with_rule(start, it.rule, it.one, start), apart = *mw::with_rule(one, it.rule, it.apart, start);
      CHECK(nucleus(it.a, one) == nucleus(it.b, one));
      CHECK_FALSE(nucleus(it.a, apart) == nucleus(it.b, apart));
    }
}
