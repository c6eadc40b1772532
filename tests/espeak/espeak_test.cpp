#include "espeak/espeak.h"

#include "phrase/mnemonics.h"
#include "support/phrases.h"
#include "support/recorded_voices.h"

#include <doctest/doctest.h>

#include <random>
#include <set>
#include <thread>

using namespace mw;

namespace {
std::shared_ptr<Pronouncer> open() {
  const auto opened = open_espeak();
  REQUIRE(opened.has_value());
  return *opened;
}
} // namespace

TEST_CASE("espeak: both voices answer, in order, and alike each time") {
  const auto pronouncer = open();
  const auto first = pronouncer->look_up({"bath", "kettle", "bath"});
  REQUIRE(first.has_value());
  REQUIRE(first->size() == 3);
  CHECK((*first)[0].american == "b.'aa.T");
  CHECK((*first)[1].british == "k.'E.t.@L");
  CHECK((*first)[2].american == (*first)[0].american);
  CHECK(open().get() == pronouncer.get()); // one for the process
  CHECK(pronouncer->look_up({})->empty());
}

TEST_CASE("espeak: the recordings that other tests use are what the library says") {
  const auto text = read_file(std::string(std::getenv("MOUTHWRIGHT_TEST_DATA")) + "/phrase/voices.csv");
  REQUIRE(text.has_value());
  const auto table = parse_csv(*text, "voices.csv");
  REQUIRE(table.has_value());
  std::vector<std::string> words;
  for (const auto& row : table->rows) words.push_back(row[0]);
  const auto answers = open()->look_up(words);
  REQUIRE(answers.has_value());
  for (std::size_t i = 0; i < words.size(); ++i) {
    INFO(words[i]);
    CHECK((*answers)[i].american == table->rows[i][1]);
    CHECK((*answers)[i].british == table->rows[i][2]);
  }
}

TEST_CASE("espeak: whatever letters are typed, the inventory of mnemonics is closed") {
  std::mt19937 random(3);
  std::vector<std::string> words;
  for (int i = 0; i < 4000; ++i) {
    std::string word;
    const std::size_t length = 1 + random() % 12;
    for (std::size_t k = 0; k < length; ++k) word += "abcdefghijklmnopqrstuvwxyzeeaaiiootnr'"[random() % 38];
    if (word.find_first_not_of('\'') != std::string::npos) words.push_back(word);
  }
  const auto answers = open()->look_up(words);
  REQUIRE(answers.has_value());
  std::set<std::string> unknown;
  for (const auto& answer : *answers)
    for (const auto& voice : {answer.american, answer.british})
      for (const auto& sign : parse_mnemonics(voice).unknown) unknown.insert(sign);
  std::string all;
  for (const auto& sign : unknown) all += sign + " ";
  INFO(all);
  CHECK(unknown.empty());
}

TEST_CASE("espeak: several threads get what one gets") {
  const auto pronouncer = open();
  const std::vector<std::string> words{"mend", "the", "copper", "kettle", "before", "seven"};
  const auto alone = pronouncer->look_up(words);
  std::vector<std::thread> threads;
  std::vector<int> same(4, 0);
  for (std::size_t t = 0; t < same.size(); ++t)
    threads.emplace_back([&, t] {
      for (int round = 0; round < 50; ++round) {
        const auto answers = pronouncer->look_up(words);
        for (std::size_t i = 0; i < words.size(); ++i)
          same[t] += answers && (*answers)[i].british == (*alone)[i].british ? 1 : 0;
      }
    });
  for (auto& thread : threads) thread.join();
  for (const int count : same) CHECK(count == 50 * 6);
}

TEST_CASE("espeak: every line of the play is said in every accent with the library") {
  const auto pronouncer = open();
  const auto list = list_accents();
  for (const auto& row : *list) {
    const Accent accent = *read_accent(row.id);
    for (const auto line : play_lines) CHECK(pronounce(line, accent, *pronouncer).has_value());
  }
}
