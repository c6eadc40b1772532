#include "phrase/known.h"
#include "phrase/spoken.h"
#include "phrase/words.h"

using namespace mw;
using namespace mw::test;

TEST_CASE("known: every line of the list is found, and nothing between the lines") {
  const std::string list = "ask\nkettle\nmend\npot\nzebra\n";
  for (const auto* word : {"ask", "kettle", "mend", "pot", "zebra"}) CHECK(is_known(list, word));
  for (const auto* word : {"", "a", "as", "asks!", "aaa", "kettlf", "zzz", "men", "zebr"})
    CHECK_FALSE(is_known(list, word));
  CHECK_FALSE(is_known("", "kettle"));
  CHECK(is_known("kettle", "kettle"));
  const auto& tables = word_tables();
  REQUIRE(tables.has_value());
  std::size_t lines = 0;
  for (const auto& word : split(tables->known, '\n')) {
    if (word.empty() || ++lines % 53 != 0) continue;
    INFO(word);
    CHECK(is_known(tables->known, word));
  }
  CHECK(lines > 40000);
}

TEST_CASE("known: stems and compounds count, strings of letters do not") {
  const std::string& list = word_tables()->known;
  for (const auto* word :
       {"kettles", "kettle's", "menders'", "mending", "mended", "unmended", "kettlepot", "she'll", "it's", "i'll", "we've", "louder", "potlike"})
    CHECK(is_known(list, word));
  for (const auto* word : {"frobozz", "kxq", "glimmerax", "zzyzx", "ettlek", "q'zx"}) CHECK_FALSE(is_known(list, word));
}

TEST_CASE("guess: a word that no list has is marked with a note, a listed one is not") {
  const auto said = spoken("the frobozz kettle", "GA");
  CHECK(said.words[1].source == WordSource::guess);
  CHECK(said.words[2].source == WordSource::voice);
  REQUIRE(said.notes.size() == 1);
  CHECK(said.notes[0].kind == "guess");
  CHECK(said.notes[0].span == Span{4, 11});
  CHECK(spoken("12 kettles", "GA").notes.empty());
}
