// Every pair of accents of tests/data/phrase/merges.csv: what the learner's accent merges and the target keeps apart must
// be found in a phrase made of the row's own example.

#include "accent/shared.h"
#include "base/assets.h"
#include "base/text.h"
#include "espeak/espeak.h"
#include "phrase/shifts.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cstdlib>
#include <map>
#include <set>

using namespace mw;

namespace {

struct Row {
  std::string learner, target, kind, one, two, example;
};

std::vector<Row> rows() {
  const auto text = read_file(std::string(std::getenv("MOUTHWRIGHT_TEST_DATA")) + "/phrase/merges.csv");
  REQUIRE(text.has_value());
  const auto table = parse_csv(*text, "merges.csv");
  REQUIRE(table.has_value());
  std::vector<Row> out;
  for (const auto& cells : table->rows) out.push_back({cells[0], cells[1], cells[2], cells[3], cells[4], cells[8]});
  return out;
}

/// "gas / grass (no true minimal pair; ant / aunt)" -> gas, grass; "tin / thin; den / then" -> two examples; "Mary / marry /
/// merry" -> one of three words; none for a row in prose.
std::vector<std::vector<std::string>> examples_of(const std::string& text) {
  std::vector<std::vector<std::string>> examples;
  for (const auto& example : split(split(text, '(')[0], ';')) {
    if (example.find('/') == std::string::npos) continue;
    examples.emplace_back();
    for (const auto& part : split(example, '/')) examples.back().push_back(split(std::string(trim(part)), ' ')[0]); // "baby final"
  }
  return examples;
}
/// "silly: both syllables" -> silly.
std::string one_word_of(const std::string& example) {
  return example.find(": both syllables") == std::string::npos ? std::string() : example.substr(0, example.find(':'));
}

/// Rows whose example does not show the merger, because the accent's own data or the example's own set say otherwise.
struct Exception {
  std::string_view one, two, learner, target, why; // empty: any
};
constexpr Exception exceptions[]{
    {"BATH", "START", "AUSG", "", "before n and a consonant Australian BATH is the TRAP vowel, so aunt and aren't differ"},
    {"CLOTH", "PALM", "CAN", "", "calf is a BATH word, and Canadian BATH is not the CLOTH vowel"},
    {"NURSE before r", "", "", "SSE", "Scottish NURSE spelt ur is the STRUT vowel, so furry rhymes with hurry"},
    {"TRAP", "BATH", "", "NYC", "the New York short-a split tenses gas as well as grass"},
    {"t d (tin, den)", "", "IRE", "", "the stop for th is dental, that for t is not"},
    {"t d (tin, den)", "", "IND", "", "the stop for th is dental, that for t is retroflex"},
    {"ʊ/o (row)", "", "EST", "", "GOAT before l has a vowel of its own, so roll is not row"},
    {"ʊ/o (row)", "", "COCK", "", "GOAT before l has a vowel of its own, so roll is not row"},
};
const Exception* exception_of(const Row& row) {
  const auto fits = [](std::string_view pattern, const std::string& text) { return pattern.empty() || pattern == text; };
  const auto at = std::find_if(std::begin(exceptions), std::end(exceptions), [&](const Exception& e) {
    return fits(e.one, row.one) && fits(e.two, row.two) && fits(e.learner, row.learner) && fits(e.target, row.target);
  });
  return at == std::end(exceptions) ? nullptr : at;
}

class Speaker {
public:
  Speaker() : voices_(open_espeak()) { REQUIRE(voices_.has_value()); }
  const Pronunciation& say(const std::string& phrase, const std::string& accent, double casual) {
    auto [at, is_new] = said_.try_emplace({phrase, accent + to_text(casual)});
    if (is_new) {
      auto said = pronounce(phrase, **read_shared_accent(accent), **voices_, {.casual = casual});
      REQUIRE(said.has_value());
      at->second = std::move(*said);
    }
    return at->second;
  }
  /// `casual`: of the learner; the target is said as by default.
  std::vector<Shift> shifts(const std::string& phrase, const Row& row, double casual = 0.5) {
    const auto own = read_shared_accent(row.learner), target = read_shared_accent(row.target);
    return compare(say(phrase, row.learner, casual), say(phrase, row.target, 0.5), own->get(), target->get()).shifts;
  }

private:
  Result<std::shared_ptr<Pronouncer>> voices_;
  std::map<std::pair<std::string, std::string>, Pronunciation> said_;
};

bool names(const std::vector<Shift>& shifts, const std::string& one, const std::string& two) {
  return std::any_of(shifts.begin(), shifts.end(), [&](const Shift& s) {
    return !s.kept_apart && std::set<std::string>{s.words[0], s.words[1]} == std::set<std::string>{one, two};
  });
}

/// Whether the shift is found in the words of an example side by side, with and without a word between.
bool is_found(Speaker& speaker, const Row& row, const std::vector<std::string>& words, double casual) {
  for (const char* between : {", ", " and "})
    for (std::size_t i = 1; i < words.size(); ++i)
      if (!names(speaker.shifts(words[i - 1] + between + words[i], row, casual), words[i - 1], words[i])) return false;
  return true;
}
bool is_found(Speaker& speaker, const Row& row, double casual) {
  const auto examples = examples_of(row.example);
  return std::any_of(examples.begin(), examples.end(), [&](const auto& words) { return is_found(speaker, row, words, casual); });
}

} // namespace

TEST_CASE("merges: the tool finds what the learner's accent merges, in a phrase of each row's own words") {
  Speaker speaker;
  std::map<std::string, std::vector<std::string>> missed; // by what is merged
  int asked = 0, found = 0, casual = 0, excepted = 0, single = 0, single_found = 0;
  std::map<std::string, int> skipped;
  for (const Row& row : rows()) {
    const std::string what = row.one + " = " + row.two + " (" + row.example + ")";
    if (examples_of(row.example).empty()) {
      const std::string word = one_word_of(row.example);
      if (word.empty()) { ++skipped[what]; continue; }
      ++single;
      if (names(speaker.shifts(word, row), word, word)) ++single_found;
      else missed[what].push_back(row.learner + ">" + row.target);
      continue;
    }
    if (const Exception* known = exception_of(row)) {
      ++excepted;
      CHECK_MESSAGE(!is_found(speaker, row, 0.5), what << " is found after all, though " << known->why);
      continue;
    }
    ++asked;
    if (is_found(speaker, row, 0.5)) ++found;
    else if (is_found(speaker, row, 1)) ++casual; // by a rule that varies
    else missed[what].push_back(row.learner + ">" + row.target);
  }
  MESSAGE(asked << " rows with a pair of words: " << found << " found, " << casual << " more where the learner is casual; "
                << excepted << " rows are named exceptions; " << single << " rows with one word for both: " << single_found << " found");
  for (const auto& [what, count] : skipped) MESSAGE("skipped, no pair of words: " << what << ": " << count << " rows");
  for (const auto& e : exceptions) MESSAGE("exception: " << e.one << " " << e.learner << ">" << e.target << ": " << e.why);
  for (const auto& [what, pairs] : missed) {
    std::string list;
    for (const auto& pair : pairs) list += " " + pair;
    MESSAGE("missed: " << what << ":" << list);
  }
  CHECK(found + casual == asked);
  CHECK(single_found == single);
}
