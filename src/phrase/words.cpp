#include "phrase/words.h"

#include "base/assets.h"
#include "base/text.h"

#include <functional>

namespace mw {
namespace {

using Row = std::vector<std::string>;

/// Reads one table; `take` gets the cells of the named columns in their order and says what is wrong with them, if
/// anything.
std::optional<Problem> each_row(const std::string& name, const std::vector<std::string>& columns,
                                const std::function<std::optional<Problem>(const Row&)>& take) {
  const auto table = read_csv_asset(name);
  if (!table) return table.error();
  std::vector<std::size_t> at;
  for (const auto& column : columns) {
    const auto index = table->column(column);
    if (!index)
      return Problem{ProblemKind::fault, "the column " + column + " is missing", name, "install the program again"};
    at.push_back(*index);
  }
  for (const auto& cells : table->rows) {
    Row row;
    for (const std::size_t index : at) row.push_back(cells[index]);
    if (auto problem = take(row))
      return Problem{ProblemKind::fault, problem->what, name + ": " + row[0], problem->remedy};
  }
  return std::nullopt;
}

/// Parses the spelling in cell 1 and hands it on.
std::optional<Problem> spelled(const Row& row, const std::function<void(Phonemes)>& take) {
  auto phonemes = parse_respelling(row[1]);
  if (!phonemes) return phonemes.error();
  take(std::move(*phonemes));
  return std::nullopt;
}

std::optional<Norm> norm_of(const std::string& cell) {
  if (cell == "british") return Norm::british;
  if (cell == "american") return Norm::american;
  return std::nullopt;
}

std::optional<Problem> read_override(WordTables& tables, const Row& row) {
  const auto vowel = parse_number(row[1]);
  const auto set = parse_keyword(row[2]);
  if (!vowel || *vowel < 1 || !set)
    return Problem{ProblemKind::fault, "a row of the override list does not fit", "", ""};
  tables.overrides[row[0]].push_back({static_cast<std::size_t>(*vowel), *set});
  return std::nullopt;
}

std::optional<Problem> read_national(WordTables& tables, const Row& row) {
  const auto vowel = parse_number(row[1]);
  const auto american = parse_keyword(row[2]), british = parse_keyword(row[3]);
  if (!vowel || *vowel < 1 || !american || !british)
    return Problem{ProblemKind::fault, "a row of the national list does not fit", "", ""};
  tables.national[row[0]].push_back({static_cast<std::size_t>(*vowel), *american, *british});
  return std::nullopt;
}

Result<WordTables> read_tables() {
  WordTables tables;
  std::optional<Problem> problem = each_row("words/overrides.csv", {"word", "vowel", "set"},
                                            [&](const Row& row) { return read_override(tables, row); });
  if (!problem)
    problem = each_row("words/national.csv", {"word", "vowel", "american", "british"},
                       [&](const Row& row) { return read_national(tables, row); });
  if (!problem)
    problem = each_row("words/spellings.csv", {"word", "spelling", "norm"}, [&](const Row& row) {
      return spelled(row, [&](Phonemes word) {
        tables.spellings[row[0]].push_back({std::move(word), norm_of(row[2])});
      });
    });
  if (!problem)
    problem = each_row("words/letters.csv", {"letter", "spelling", "norm"}, [&](const Row& row) {
      return spelled(row, [&](Phonemes word) { tables.letters[row[0]].push_back({std::move(word), norm_of(row[2])}); });
    });
  if (!problem)
    problem = each_row("words/heteronyms.csv", {"word", "spelling", "meaning"}, [&](const Row& row) {
      return spelled(row, [&](Phonemes word) { tables.heteronyms[row[0]].push_back({std::move(word), row[2]}); });
    });
  if (!problem)
    problem = each_row("words/weak_forms.csv", {"word", "spelling", "where", "casual"}, [&](const Row& row) {
      return spelled(row, [&](Phonemes word) {
        const auto where = row[2].empty() ? std::vector<std::string>{} : split(row[2], ';');
        tables.weak_forms[row[0]].push_back({std::move(word), where, parse_number(row[3]).value_or(2)});
      });
    });
  if (problem) return *problem;
  auto known = read_asset("words/known.txt");
  if (!known) return known.error();
  tables.known = std::move(*known);
  return tables;
}

bool ends_with(std::string_view word, std::string_view ending) {
  return word.size() >= ending.size() + 3 && word.substr(word.size() - ending.size()) == ending;
}

} // namespace

const Result<WordTables>& word_tables() {
  static const Result<WordTables> tables = read_tables();
  return tables;
}

namespace {
/// The rows of a word, or of its stem when it is inflected (dogs, halted).
template <typename Map> const typename Map::mapped_type* find_stem(const Map& map, std::string_view word) {
  auto at = map.find(word);
  for (const std::string_view ending : {"'s", "s", "es", "ed", "ing"}) {
    if (at != map.end()) break;
    if (ends_with(word, ending)) at = map.find(word.substr(0, word.size() - ending.size()));
  }
  return at == map.end() ? nullptr : &at->second;
}

/// Gives the vowel its set; true when that is another one.
bool put_set(Phonemes& phonemes, std::size_t wanted, LexicalSet set) {
  std::size_t vowel = 0;
  for (auto& phoneme : phonemes) {
    if (!phoneme.set || ++vowel != wanted) continue;
    const bool other = phoneme.set != set;
    phoneme.set = set;
    return other;
  }
  return false;
}
} // namespace

bool apply_overrides(const WordTables& tables, std::string_view word, Phonemes& phonemes) {
  bool changed = false;
  if (const auto* rows = find_stem(tables.overrides, word))
    for (const auto& row : *rows) changed = put_set(phonemes, row.vowel, row.set) || changed;
  return changed;
}

bool apply_national(const WordTables& tables, std::string_view word, Norm norm, Phonemes& phonemes) {
  const auto* rows = find_stem(tables.national, word);
  if (rows == nullptr) return false;
  for (const auto& row : *rows) put_set(phonemes, row.vowel, norm == Norm::american ? row.american : row.british);
  return true;
}

const Phonemes* find_spelling(const std::map<std::string, std::vector<OwnSpelling>, std::less<>>& table,
                              std::string_view word, Norm norm) {
  const auto at = table.find(word);
  if (at == table.end()) return nullptr;
  for (const auto& row : at->second)
    if (!row.norm || *row.norm == norm) return &row.phonemes;
  return nullptr;
}

} // namespace mw
